import { describe, expect, it } from 'vitest';
import type { HourlyRow } from '../../../sim/weather/hourly-row.ts';
import type { WeatherPlace } from '../../../sim/weather/place.ts';
import { recordDay, type RecordDaySky } from '../../../sim/weather/record-day.ts';
import type { Sky } from '../../../sim/weather/sky.ts';
import { localDayOn } from '../../../src/time/local-day.ts';

const HOUR = 3_600_000;
const place: WeatherPlace = {
  latitudeDegrees: 47.45,
  longitudeDegrees: -122.31,
  elevationMetres: 130,
  timeZone: 'America/Los_Angeles',
  windMetresPerSecond: 2,
};

/** One row an hour in UTC; the temperature tells month and day, the wind the hour: 7.14 °C on 14 July. */
const telling = (from: string, to: string): readonly HourlyRow[] => {
  const first = Date.parse(from);
  const count = (Date.parse(to) - first) / HOUR;
  return Array.from({ length: count }, (_, step) => {
    const moment = new Date(first + step * HOUR);
    return {
      epochMillis: moment.getTime(),
      airCelsius: moment.getUTCMonth() + 1 + moment.getUTCDate() / 100,
      sunWattsPerSquareMetre: moment.getUTCFullYear(),
      windMetresPerSecond: moment.getUTCHours(),
    };
  });
};

const year2010 = telling('2010-01-01T00:00:00Z', '2011-01-01T00:00:00Z');

const dayOf = (rows: readonly HourlyRow[], date: string, days = 1): RecordDaySky =>
  recordDay({ rows, place, start: localDayOn(date, place.timeZone).start, days });

const skyOf = (rows: readonly HourlyRow[], date: string, days = 1): Sky => {
  const read = dayOf(rows, date, days);
  if (!read.ok) throw new Error(read.reason);
  return read.sky;
};

describe('the days of a record that are rehearsed', () => {
  it('are those of the same month, day and UTC hour: noon of 14 July 2026 has the weather of 14 July 2010', () => {
    const sky = skyOf(year2010, '2026-07-14');
    const air = sky.at(Date.parse('2026-07-14T19:00:00Z'));
    expect(air.airCelsius).toBeCloseTo(7.14, 9);
    expect(air.windMetresPerSecond).toBe(19);
    expect(air.sunWattsPerSquareMetre).toBe(2010);
  });

  it('reach a day before the start and a day after the end', () => {
    const sky = skyOf(year2010, '2026-07-14', 3);
    expect(sky.start).toBeLessThanOrEqual(Date.parse('2026-07-13T00:00:00-07:00'));
    expect(sky.end).toBeGreaterThanOrEqual(Date.parse('2026-07-18T00:00:00-07:00'));
  });

  it('keep to the sun where the clocks change: no hour folded or lost on 8 March and 1 November 2026', () => {
    for (const date of ['2026-03-08', '2026-11-01']) {
      const sky = skyOf(year2010, date);
      const { start, end } = localDayOn(date, place.timeZone);
      for (let moment: number = start; moment < end; moment += HOUR) {
        expect(sky.at(moment).windMetresPerSecond).toBe(new Date(moment).getUTCHours());
      }
    }
  });

  it('take 28 February for a 29th that the record lacks', () => {
    expect(skyOf(year2010, '2028-02-29').at(Date.parse('2028-02-29T20:00:00Z')).airCelsius).toBeCloseTo(
      2.28,
      9,
    );
  });

  it('take a 29 February that the record has', () => {
    const leap = telling('2008-01-01T00:00:00Z', '2009-01-01T00:00:00Z');
    expect(skyOf(leap, '2028-02-29').at(Date.parse('2028-02-29T20:00:00Z')).airCelsius).toBeCloseTo(2.29, 9);
  });

  it('run on from December into January of the same record', () => {
    const sky = skyOf(year2010, '2026-12-31', 2);
    expect(sky.at(Date.parse('2026-12-31T20:00:00Z')).airCelsius).toBeCloseTo(12.31, 9);
    expect(sky.at(Date.parse('2027-01-01T20:00:00Z')).airCelsius).toBeCloseTo(1.01, 9);
  });

  it('are of the very year where the record has it, and otherwise of the latest whole one', () => {
    const years = telling('2023-01-01T00:00:00Z', '2026-03-01T00:00:00Z');
    const july = dayOf(years, '2024-07-14');
    expect(july.ok && july.fromYears).toEqual([2024]);
    const later = dayOf(years, '2027-07-14');
    expect(later.ok && later.fromYears).toEqual([2025]);
  });

  it('are refused when the record is of winter only, naming the first day it lacks', () => {
    const winter = telling('2010-01-01T00:00:00Z', '2010-03-01T00:00:00Z');
    expect(dayOf(winter, '2026-07-14')).toEqual({
      ok: false,
      reason: expect.stringContaining('no weather for more than 3 h after 07-13 00:00') as string,
    });
  });

  it('are refused over a hole of 5 h and bridged over one of 3 h', () => {
    const without = (hours: readonly number[]): readonly HourlyRow[] =>
      year2010.filter(
        ({ epochMillis }) =>
          !hours.some((hour) => epochMillis === Date.parse('2010-07-14T00:00:00Z') + hour * HOUR),
      );
    expect(dayOf(without([18, 19, 20, 21]), '2026-07-14').ok).toBe(false);
    const bridged = skyOf(without([18, 19]), '2026-07-14').at(Date.parse('2026-07-14T18:30:00Z'));
    expect(bridged.windMetresPerSecond).toBeCloseTo(18.5, 9);
  });
});
