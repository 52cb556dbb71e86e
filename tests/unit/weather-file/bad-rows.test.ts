import { describe, expect, it } from 'vitest';
import { FARM_PLACE, hourText, plainFile, problemTextsOf, readPlain } from './support.ts';

/** What a file of 48 good hours is told when some of its lines are changed. */
const told = (change: Readonly<Record<number, string | null>>): readonly string[] =>
  problemTextsOf(readPlain(plainFile(48, change)));

describe('times', () => {
  it('that are none are told', () => {
    expect(told({ 7: '14/07/2026 5 am,20' })).toEqual([
      'line 7, column time: found "14/07/2026 5 am"; allowed: a time such as 2026-07-14T13:00. ' +
        'Write date and time as in the example.',
    ]);
    expect(told({ 7: '2026-02-30T05:00,20' })[0]).toContain('line 7, column time: found "2026-02-30T05:00"');
  });

  it('that come again are told with the line of the first', () => {
    expect(told({ 7: `${hourText(4)},20` })).toEqual([
      'line 7, column time: found "2026-07-14T04:00", the same time as line 6; ' +
        'allowed: a time after 2026-07-14 04:00. Sort the rows by time and keep one row for each.',
    ]);
  });

  it('that run backward are told', () => {
    expect(told({ 7: `${hourText(2)},20` })[0]).toContain(
      'line 7, column time: found "2026-07-14T02:00", earlier than line 6; allowed: a time after 2026-07-14 04:00',
    );
  });

  it('with a hole of 4 h between them are told with both ends', () => {
    expect(told({ 7: null, 8: null, 9: null })).toEqual([
      'line 7, column time: found a hole of 4 h, from 2026-07-14 04:00 to 2026-07-14 08:00; ' +
        'allowed: at most 3 h from row to row. ' +
        'Fill the hole from a neighbouring station, or keep only the part of the record without it.',
    ]);
  });

  it('with 4 h of empty temperatures between them are a hole too', () => {
    const empty = (step: number): string => `${hourText(step)},`;
    expect(told({ 7: empty(5), 8: empty(6), 9: empty(7) })).toEqual([
      expect.stringContaining('line 10, column time: found a hole of 4 h'),
    ]);
  });
});

describe('hours at which the clocks change', () => {
  // EU Directive 2000/84/EC, articles 2 and 3: at 01:00 UTC on the last Sundays of March and October.
  const around = (first: string, hours: readonly string[]): string =>
    ['time,temperature', `${first},10`, ...hours.map((hour) => `${hour},10`)].join('\n');

  it('and come twice in autumn are told with both ways out', () => {
    const text = around('2026-10-25T00:00', ['2026-10-25T01:00', '2026-10-25T01:00', '2026-10-25T02:00']);
    expect(problemTextsOf(readPlain(text))).toEqual([
      'line 4, column time: found "2026-10-25T01:00", an hour that comes twice on the clocks of Europe/Lisbon; ' +
        'allowed: a time after 2026-10-25 01:00. If the record keeps standard time all year, ' +
        'set weather: timeZone: Etc/UTC; otherwise write the times with their offset, such as 2026-10-25T01:00+01:00.',
    ]);
  });

  it('and are jumped over in spring are told with the zone of the standard time', () => {
    const text = around('2026-03-08T01:00', ['2026-03-08T02:00', '2026-03-08T03:00']);
    expect(
      problemTextsOf(
        readPlain(text, {
          farmPlace: { ...FARM_PLACE, timeZone: 'America/Los_Angeles' },
        }),
      ),
    ).toEqual([
      expect.stringMatching(
        /^line 3, column time: found "2026-03-08T02:00", an hour that the clocks of America\/Los_Angeles jump over; .*timeZone: Etc\/GMT\+8;/,
      ),
    ]);
  });

  it('are no trouble with offsets written out, nor in a zone of standard time', () => {
    const hours = Array.from({ length: 24 }, (_, step) =>
      new Date(Date.parse('2026-10-24T12:00Z') + step * 3_600_000).toISOString().slice(0, 16),
    );
    const [first = '', ...rest] = hours;
    expect(readPlain(around(first, rest), { timeZone: 'Etc/UTC' }).ok).toBe(true);
    const offset = hours.map((hour) => `${hour}Z`);
    expect(readPlain(around(offset[0] ?? '', offset.slice(1))).ok).toBe(true);
  });
});

describe('numbers', () => {
  it('that are none are told', () => {
    expect(told({ 7: `${hourText(5)},20 C` })).toEqual([
      'line 7, column temperature: found "20 C"; allowed: a number. ' +
        'Write the number without its unit, or leave the cell empty.',
    ]);
  });

  it('are told with the line an editor shows where LF and CRLF are mixed', () => {
    const [header = '', ...lines] = plainFile(48, { 7: `${hourText(5)},mild` }).split('\n');
    expect(problemTextsOf(readPlain(`${header}\n${lines.join('\r\n')}`))).toEqual([
      expect.stringMatching(/^line 7, column temperature: found "mild"/),
    ]);
  });

  it('with a decimal comma are told how to write them', () => {
    expect(told({ 7: `${hourText(5)},"20,5"` })[0]).toContain('found "20,5"; allowed: a number. Write 20.5,');
  });

  it('beyond −60 to 60 °C are told, with the likely unit', () => {
    expect(told({ 7: `${hourText(5)},75.2`, 8: `${hourText(6)},-60.1` })).toEqual([
      'line 7, column temperature: found 75.2 °C; allowed: -60 to 60 °C. ' +
        'If the column is in degrees Fahrenheit, name file and columns in the farm file under weather, with temperatureUnit: fahrenheit.',
      'line 8, column temperature: found -60.1 °C; allowed: -60 to 60 °C. ' +
        'Look at the unit of the column and at this row.',
    ]);
  });

  it('that stand for nothing are told to be left out', () => {
    expect(told({ 7: `${hourText(5)},-9999` })[0]).toContain(
      'line 7, column temperature: found -9999 °C; allowed: -60 to 60 °C. ' +
        'If this number stands for "nothing measured", leave the cell empty.',
    );
  });

  it('that jump by more than 15 °C from hour to hour are told as a likely change of unit', () => {
    const warm = Object.fromEntries(
      Array.from({ length: 42 }, (_, step) => [step + 8, `${hourText(step + 6)},50`]),
    );
    expect(told(warm)).toEqual([
      'line 8, column temperature: found a jump of 30.0 °C from the row before; ' +
        'allowed: at most 15 °C an hour, up or down. ' +
        'Look whether the unit changes here between °C and °F, or whether the row is wrong.',
    ]);
    expect(readPlain(plainFile(48, { 8: `${hourText(6)},35` })).ok).toBe(true);
  });
});

describe('humidity', () => {
  const columns = { time: 'time', temperature: 'temperature', humidity: 'rh' };
  const withHumidity = (humidity: (step: number) => string): readonly string[] =>
    problemTextsOf(
      readPlain(
        [
          'time,temperature,rh',
          ...Array.from({ length: 24 }, (_, step) => `${hourText(step)},20,${humidity(step)}`),
        ].join('\n'),
        { columns },
      ),
    );

  it('beyond 0 to 100 % is told', () => {
    expect(withHumidity((step) => (step === 3 ? '104' : step === 4 ? '-1' : '60'))).toEqual([
      'line 5, column rh: found 104 %; allowed: 0 to 100 %. The column must be relative humidity in percent.',
      'line 6, column rh: found -1 %; allowed: 0 to 100 %. The column must be relative humidity in percent.',
    ]);
  });

  it('that never exceeds 1 is told to look like fractions', () => {
    expect(withHumidity((step) => (0.5 + step / 100).toFixed(2))).toEqual([
      'line 1, column rh: found no value above 0.73; these look like fractions; ' +
        'allowed: percent, 0 to 100. Multiply the column by 100.',
    ]);
  });
});

describe('cells', () => {
  it('too many or too few are told against the header', () => {
    expect(told({ 7: `${hourText(5)},20,1`, 9: hourText(7) })).toEqual([
      'line 7: found 3 cells; allowed: 2 cells, as in the header. Look for a separator too many or too few.',
      'line 9: found 1 cell; allowed: 2 cells, as in the header. Look for a separator too many or too few.',
    ]);
  });

  it('with a quotation mark that stands alone are told with its line', () => {
    expect(told({ 7: `${hourText(5)}",20` })[0]).toMatch(/^line 7: found .*; allowed: well-formed CSV\./);
  });
});
