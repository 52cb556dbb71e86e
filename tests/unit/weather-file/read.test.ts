import { describe, expect, it } from 'vitest';
import { hourText, plainFile, problemTextsOf, readPlain } from './support.ts';

const full = { time: 'time', temperature: 'temperature', humidity: 'rh', sun: 'sun', wind: 'wind' };

describe('a good file', () => {
  it('gives its rows as instants and degrees Celsius, in the zone of the farm', () => {
    const read = readPlain(plainFile(24, { 3: `${hourText(1)},21.5` }));
    expect(read.ok && read.rows.length).toBe(24);
    expect(read.ok && read.rows[1]).toEqual({
      epochMillis: Date.parse('2026-07-14T01:00:00+01:00'),
      airCelsius: 21.5,
    });
  });

  it('reads the times in its own zone where it names one, and an offset before either', () => {
    const text = plainFile(24, { 2: '2026-07-14T08:30:00Z,20' });
    const read = readPlain(text, { timeZone: 'Etc/GMT+8' });
    expect(read.ok && read.rows[0]?.epochMillis).toBe(Date.parse('2026-07-14T08:30:00Z'));
    expect(read.ok && read.rows[1]?.epochMillis).toBe(Date.parse('2026-07-14T09:00:00Z'));
  });

  it('turns 50 °F into 10 °C and 77 °F into 25 °C', () => {
    // The degrees by definition: °C = (°F − 32) / 1.8, NIST SP 811, appendix B.
    const lines = Array.from({ length: 24 }, (_, step) => `${hourText(step)},${step < 12 ? 68 : 77}`);
    const read = readPlain(['time,temperature', ...lines].join('\n'), { temperatureUnit: 'fahrenheit' });
    expect(read.ok && read.rows[0]?.airCelsius).toBeCloseTo(20, 9);
    expect(read.ok && read.rows[12]?.airCelsius).toBeCloseTo(25, 9);
  });

  it('reads humidity, sun and wind; leaves out empty cells; takes −3 W/m² at night for 0', () => {
    const lines = Array.from(
      { length: 24 },
      (_, step) => `${hourText(step)},20,${step === 5 ? '' : '55'},-3,2.5`,
    );
    const read = readPlain(['time,temperature,rh,sun,wind', ...lines].join('\n'), { columns: full });
    expect(read.ok && read.rows[4]).toEqual({
      epochMillis: Date.parse('2026-07-14T04:00:00+01:00'),
      airCelsius: 20,
      humidityPercent: 55,
      sunWattsPerSquareMetre: 0,
      windMetresPerSecond: 2.5,
    });
    expect(read.ok && Object.keys(read.rows[5] ?? {})).not.toContain('humidityPercent');
    expect(read.ok && read.notes.find((note) => note.includes('humidity'))).toMatch(/^1 row lacks humidity/);
  });

  it('is read with semicolons and decimal commas, tabs, CRLF, blank lines and a byte order mark', () => {
    const semicolons = plainFile(24).replaceAll(',20', ';20,5').replace('time,', 'time;');
    const comma = readPlain(semicolons);
    expect(comma.ok && comma.rows[0]?.airCelsius).toBe(20.5);
    const tabs = readPlain(`\uFEFF${plainFile(24).replaceAll(',', '\t').replaceAll('\n', '\r\n\r\n')}\r\n`);
    expect(tabs.ok && tabs.rows.length).toBe(24);
  });

  it('says in its notes what span it covers and what will be assumed', () => {
    const read = readPlain(plainFile(24));
    expect(read.ok && read.notes).toEqual([
      '24 rows from 2026-07-14 00:00 to 2026-07-14 23:00 (Europe/Lisbon)',
      "all rows lack humidity: the dew point is taken at each day's lowest temperature (FAO-56, chapter 3)",
      'all rows lack sun: a cloudless sky is taken',
      "all rows lack wind: the farm's usual wind is taken",
    ]);
  });

  it('bridges and counts holes of 2 and of 3 h, from rows left out or without a temperature', () => {
    const read = readPlain(plainFile(36, { 6: null, 15: `${hourText(13)},`, 16: `${hourText(14)},` }));
    expect(read.ok && read.rows.length).toBe(33);
    expect(read.ok && read.notes.slice(1, 3)).toEqual([
      '2 rows without a temperature left out',
      '2 holes of up to 3 h bridged by straight lines',
    ]);
  });
});

describe('a header that does not fit', () => {
  it('is told with the columns there are and the nearest to each name', () => {
    const text = plainFile(24).replace('time,temperature', 'time,Temprature');
    expect(
      problemTextsOf(readPlain(text, { columns: { ...full, sun: undefined, wind: undefined } })),
    ).toEqual([
      'line 1, column temperature: found no column of this name; allowed: one of the columns there are: ' +
        'time, Temprature. Did you mean "Temprature"? Name it under weather: columns: temperature.',
      'line 1, column rh: found no column of this name; allowed: one of the columns there are: ' +
        'time, Temprature. Name the right one under weather: columns: humidity.',
    ]);
  });

  it('has a longer name suggested that holds the one asked for: temperature_2m', () => {
    const text = plainFile(24).replace('time,temperature', 'time,temperature_2m');
    expect(problemTextsOf(readPlain(text))[0]).toContain('Did you mean "temperature_2m"?');
  });

  it('is refused when a name stands twice', () => {
    const text = plainFile(24).replaceAll(',', ',20,').replace('time,20,', 'temperature,time,');
    expect(problemTextsOf(readPlain(text))[0]).toContain(
      'line 1, column temperature: found two columns of this name',
    );
  });
});

describe('a file without rows', () => {
  it.each([
    { text: '\n\n', found: 'nothing but blank lines' },
    { text: 'time,temperature\n', found: 'a header without rows' },
    { text: plainFile(23), found: '23 rows with a temperature' },
  ])('is refused: $found', ({ text, found }) => {
    expect(problemTextsOf(readPlain(text))).toEqual([
      expect.stringContaining(`the file: found ${found}; allowed: `),
    ]);
  });
});

describe('a file that is wrong throughout', () => {
  it('has its first 20 problems told, by line, and all 40 counted', () => {
    const text = plainFile(40).replaceAll(',20', ',mild');
    const read = readPlain(text);
    expect(read.ok ? 0 : read.problemCount).toBe(40);
    const texts = problemTextsOf(read);
    expect(texts).toHaveLength(20);
    expect(texts[19]).toMatch(/^line 21, column temperature: found "mild"/);
  });
});
