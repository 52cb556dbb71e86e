import { execFileSync } from 'node:child_process';
import { readFileSync, truncateSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { epwRow, epwText, madeHours } from '../support/made-epw.ts';
import { linesOf, ownFolder, RIBEIRA, rillkeeper, SEATTLE, written, type Ended } from './rillkeeper.ts';

const folder = ownFolder();
const COLUMNS = 'time=when,temperature=t_air';
const HOURS = 6 * 24;

/** Six July days by the hour, 20 to 36 °C; line 2 is the first hour. */
const rows = Array.from({ length: HOURS }, (_, hour) => {
  const when = new Date(Date.UTC(2026, 6, 13, hour)).toISOString().slice(0, 16);
  return `${when}Z,${(28 - 8 * Math.cos(((hour - 3) / 12) * Math.PI)).toFixed(1)}`;
});
const csv = (name: string, changed: readonly string[] = rows, header = 'when,t_air'): string =>
  written(folder, name, `${[header, ...changed].join('\n')}\n`);
const rehearsed = (file: string, ...more: readonly string[]): Promise<Ended> =>
  rillkeeper('rehearse', RIBEIRA, '--draws', '0', '--weather', file, '--columns', COLUMNS, ...more);

const GOOD = csv('good.csv');

describe('a weather file', () => {
  it('that is good is rehearsed on, and what it lacks is said on stderr', async () => {
    const { code, stdout, stderr } = await rehearsed(GOOD);
    expect([0, 1]).toContain(code);
    expect(stdout).toContain('rehearsed on the record of 2026');
    expect(stderr).toContain(`weather: ${HOURS} rows`);
    expect(stderr).toContain('all rows lack humidity');
  });

  const bad: readonly (readonly [title: string, file: string, says: readonly string[]])[] = [
    // Rows 40 to 44 of the list stand on lines 42 to 46; the next is line 42 of the file without them.
    ['a hole of 6 h', csv('hole.csv', rows.toSpliced(40, 5)), ['line 42', 'column when']],
    [
      '°F from the 60th row on',
      csv(
        'units.csv',
        rows.map((row, place) =>
          place < 60 ? row : `${row.split(',')[0]!},${(Number(row.split(',')[1]) * 1.8 + 32).toFixed(1)}`,
        ),
      ),
      ['line 62', 'column t_air'],
    ],
    ['no column t_air', csv('column.csv', rows, 'when,temp'), ['line 1', 'column t_air', 'when, temp']],
    [
      'a word for a temperature',
      csv('word.csv', rows.with(9, '2026-07-13T09:00Z,mild')),
      ['line 11', '"mild"'],
    ],
    ['a header without rows', csv('header.csv', []), ['a header without rows']],
  ];
  it.each(bad)('with %s is refused with 4 at its line', async (_, file, says) => {
    const { code, stdout, stderr } = await rehearsed(file);
    expect(code).toBe(4);
    expect(stdout).toBe('');
    for (const words of says) expect(linesOf(stderr)[0]).toContain(words);
    expect(stderr).toContain('the weather file was not accepted');
  });

  const sparse = written(folder, 'sparse.csv', '');
  truncateSync(sparse, 200_000_000);
  const pipe = join(folder, 'pipe');
  execFileSync('mkfifo', [pipe]);
  it.each([
    ['missing', join(folder, 'nowhere.csv')],
    ['a folder', folder],
    ['empty', written(folder, 'empty.csv', '')],
    ['no text', written(folder, 'bytes.csv', new Uint8Array([0xff, 0xfe, 0x00, 0x80]))],
    ['a sparse file of 200 MB', sparse],
    ['a pipe that nobody writes to', pipe],
  ])('that is %s is answered within 2 s, with 4', async (_, file) => {
    const { code, stdout, stderr, seconds } = await rehearsed(file);
    expect(code).toBe(4);
    expect(stdout).toBe('');
    expect(stderr).toContain(`${file}: `);
    expect(stderr).toContain('1 problem; the weather file was not accepted.');
    expect(seconds).toBeLessThan(2);
  });

  it('--json gives its problems as data on stdout', async () => {
    const { code, stdout } = await rehearsed(
      csv('json.csv', rows.with(9, '2026-07-13T09:00Z,mild')),
      '--json',
    );
    expect(code).toBe(4);
    expect(JSON.parse(stdout)).toMatchObject({
      ok: false,
      problems: [{ line: 11, column: 't_air', found: '"mild"' }],
    });
  });

  it('with columns of its own is read in °C though the farm file says that its record is in °F', async () => {
    // Read as °F, 36 °C would be 2 °C: the hot day would pass for a frosty one.
    const text = readFileSync(SEATTLE, 'utf8');
    const fahrenheit = text.replace('temperatureUnit: celsius', 'temperatureUnit: fahrenheit');
    expect(fahrenheit).not.toBe(text);
    const farm = written(folder, 'fahrenheit.yaml', fahrenheit);
    const of = async (path: string): Promise<string> =>
      (await rillkeeper('rehearse', path, '--draws', '0', '--weather', GOOD, '--columns', COLUMNS)).stdout;
    expect(await of(farm)).toBe(await of(SEATTLE));
  });

  it('that the farm file names is read whole: as many rows as its lines after the header with a temperature', async () => {
    const normals = linesOf(
      readFileSync('node_modules/vega-datasets/data/seattle-weather-hourly-normals.csv', 'utf8'),
    );
    const { code, stdout, stderr } = await rillkeeper('rehearse', SEATTLE, '--json');
    expect(stderr).toContain(`weather: ${normals.length - 1} rows`);
    expect(stderr).toContain("the dew point is taken at each day's lowest temperature");
    const data = JSON.parse(stdout) as { weather: string; verdict: { kind: string } };
    expect(data.weather).toContain('the record of 2010');
    expect(code).toBe(data.verdict.kind === 'may-wilt' ? 1 : 0);
  });

  it('that is an EPW file is rehearsed on without columns, in a heat wave too', async () => {
    const hours = madeHours('2001-01-01', 365, (date) => 1990 + ((date.getUTCMonth() * 7) % 12));
    const file = written(folder, 'typical.epw', epwText(hours.map((hour) => epwRow(hour))));
    const { code, stdout, stderr } = await rillkeeper(
      ...['rehearse', RIBEIRA, '--draws', '0', '--weather', file, '--heat-wave', '3:+4', '--json'],
    );
    expect([0, 1]).toContain(code);
    expect((JSON.parse(stdout) as { weather: string }).weather).toMatch(
      /^a typical year of Invented Hillside, .* a heat wave of 3 days, \+4 °C; \d\d\.\d to \d\d\.\d °C on the day$/,
    );
    expect(stderr).toContain('weather: 8760 hours of a typical year of Invented Hillside, from 1990 to 2001');
  });
});
