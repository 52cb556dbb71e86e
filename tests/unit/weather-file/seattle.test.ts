import { readFileSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { readWeatherFile } from '../../../firmware-host/weather-file/read.ts';
import { recordDay } from '../../../sim/weather/record-day.ts';
import { farmSchema } from '../../../src/farm/schema.ts';
import { localDayOn } from '../../../src/time/local-day.ts';

/** NOAA hourly climate normals 1981–2010 for Seattle, as the package vega-datasets carries them. */
const FARM_PATH = 'docs/examples/seattle.yaml';
const farm = farmSchema.parse(parse(readFileSync(FARM_PATH, 'utf8')));
const { weather, place, invented } = farm;
if (weather === undefined || invented === undefined)
  throw new Error('the example names its weather and its day');
const path = resolve(dirname(FARM_PATH), weather.file);
const read = await readWeatherFile({ ...weather, path, farmPlace: place });
const rows = read.ok ? read.rows : [];

const HOUR = 3_600_000;

/** The file by split and slice, without the reader: [`2010-07-14T13:00:00`, 21.9]. */
const plainRows = readFileSync(path, 'utf8')
  .trim()
  .split('\n')
  .slice(1)
  .map((line): readonly [string, number] => [line.slice(0, 19), Number(line.split(',')[2])]);

/** The same from what the reader gave, by the standard time of the record. */
const readPairs = rows.map((row): readonly [string, number] => [
  new Date(row.epochMillis - 8 * HOUR).toISOString().slice(0, 19),
  row.airCelsius,
]);

/** Mean over July of each day's lowest and highest hour. */
const julyExtremes = (
  pairs: readonly (readonly [string, number])[],
): readonly [low: number, high: number] => {
  const july = pairs.filter(([time]) => time.slice(5, 7) === '07');
  const dates = [...new Set(july.map(([time]) => time.slice(0, 10)))];
  const mean = (pick: (...celsius: number[]) => number): number =>
    dates.reduce(
      (sum, date) => sum + pick(...july.filter(([time]) => time.startsWith(date)).map(([, each]) => each)),
      0,
    ) / dates.length;
  return [mean(Math.min), mean(Math.max)];
};

describe('the hourly normals of Seattle', () => {
  it('are read whole: 8759 rows, 1 January 01:00 to 31 December 23:00, standard time, every hour, no hole', () => {
    expect(read.ok && read.notes).toEqual([
      '8759 rows from 2010-01-01 01:00 to 2010-12-31 23:00 (Etc/GMT+8)',
      "all rows lack humidity: the dew point is taken at each day's lowest temperature (FAO-56, chapter 3)",
      'all rows lack sun: a cloudless sky is taken',
    ]);
    expect(rows[0]?.epochMillis).toBe(Date.parse('2010-01-01T09:00:00Z'));
    expect(rows.every((row, place) => row.epochMillis - (rows[0]?.epochMillis ?? NaN) === place * HOUR)).toBe(
      true,
    );
    expect(rows.map((row) => row.airCelsius)).toEqual(plainRows.map(([, celsius]) => celsius));
  });

  it('have a mean July day of 13.64 to 23.26 °C, read or worked out from the bare lines', () => {
    const [low, high] = julyExtremes(plainRows);
    expect(low).toBeCloseTo(13.64, 2);
    expect(high).toBeCloseTo(23.26, 2);
    expect(julyExtremes(readPairs)).toEqual([low, high]);
  });

  it('are in standard time: the warmest hour stays at 15:00 over the March change of the clocks', () => {
    const warmestHour = (date: string): string =>
      plainRows
        .filter(([time]) => time.startsWith(date))
        .sort((a, b) => b[1] - a[1])[0]?.[0]
        .slice(11, 16) ?? '';
    // In 1981–2010 the clocks went forward between 8 March and 30 April; a week to either side.
    expect(['2010-03-01', '2010-03-13', '2010-03-16', '2010-04-10', '2010-04-29'].map(warmestHour)).toEqual(
      Array.from({ length: 5 }, () => '15:00'),
    );
  });

  it('would be refused as times of Los Angeles, where 14 March 2010 02:00 does not exist', async () => {
    const asLocal = await readWeatherFile({
      ...weather,
      timeZone: undefined,
      path,
      farmPlace: place,
    });
    expect(asLocal.ok).toBe(false);
    expect(!asLocal.ok && asLocal.problemCount).toBe(1);
    expect(!asLocal.ok && asLocal.problems[0]).toMatchObject({ line: 1731, column: 'date' });
    expect(!asLocal.ok && asLocal.problems[0]?.remedy).toContain('timeZone: Etc/GMT+8');
  });

  it('are rehearsed on the day of the demo: 23.3 °C at four in the afternoon, standard time, of 14 July 2026', () => {
    const start = localDayOn(invented.today, place.timeZone).start;
    const day = recordDay({ rows, place, start, days: 1 });
    expect(day.ok && day.fromYears).toEqual([2010]);
    if (!day.ok) return;
    const written = plainRows.find(([time]) => time === '2010-07-14T16:00:00')?.[1];
    expect(written).toBe(23.3);
    const air = day.sky.at(Date.parse('2026-07-14T16:00:00-08:00'));
    expect(air.airCelsius).toBe(written);
    expect(air.windMetresPerSecond).toBe(4.2);
    // FAO-56, chapter 3, eq. 48: the lowest of that local day is 13.6 °C, at 05:00; eq. 11 gives the vapour.
    expect(air.vapourKilopascals).toBeCloseTo(0.6108 * Math.exp((17.27 * 13.6) / (13.6 + 237.3)), 6);
  });

  it('serve every day of the year, over New Year and a 29 February too', () => {
    for (const date of ['2026-01-01', '2026-12-31', '2028-02-29', '2026-03-08', '2026-11-01']) {
      const { start } = localDayOn(date, place.timeZone);
      expect(recordDay({ rows, place, start, days: 2 }).ok).toBe(true);
    }
  });
});
