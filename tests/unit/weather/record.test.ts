import { describe, expect, it } from 'vitest';
import type { HourlyRow } from '../../../sim/weather/hourly-row.ts';
import type { WeatherPlace } from '../../../sim/weather/place.ts';
import { recordSky } from '../../../sim/weather/record.ts';
import { clearSkyWattsPerSquareMetre } from '../../../src/physics/radiation.ts';
import { BrokenAssertion } from '../../../src/units/assertion.ts';

const HOUR = 3_600_000;
const place: WeatherPlace = {
  latitudeDegrees: 37.1,
  longitudeDegrees: -8,
  elevationMetres: 180,
  timeZone: 'Europe/Lisbon',
  windMetresPerSecond: 1.2,
};
/** Midnight in Lisbon. */
const MIDNIGHT = Date.parse('2026-07-14T00:00:00+01:00');

/** Coldest at 05:00 with `coldest`, ten degrees warmer at 17:00. */
const bareDay = (midnight: number, coldest: number, from = 0, to = 23): readonly HourlyRow[] =>
  Array.from({ length: to - from + 1 }, (_, step) => from + step).map((hour) => ({
    epochMillis: midnight + hour * HOUR,
    airCelsius: coldest + 10 * Math.abs(Math.sin((Math.PI * (hour - 5)) / 24)),
  }));

/** FAO-56, annex 2, table 2.3. */
const SATURATION = { at10: 1.228, at15: 1.705, at20: 2.338 } as const;

describe('a recorded sky', () => {
  const rows: readonly HourlyRow[] = [
    {
      epochMillis: 0,
      airCelsius: 20,
      humidityPercent: 50,
      sunWattsPerSquareMetre: 100,
      windMetresPerSecond: 1,
    },
    {
      epochMillis: HOUR,
      airCelsius: 23.7,
      humidityPercent: 40,
      sunWattsPerSquareMetre: 300,
      windMetresPerSecond: 3,
    },
    {
      epochMillis: 3 * HOUR,
      airCelsius: 25.1,
      humidityPercent: 35,
      sunWattsPerSquareMetre: 0,
      windMetresPerSecond: 2,
    },
  ];
  const sky = recordSky({ rows, place });

  it('is exact at every row', () => {
    for (const row of rows) {
      const air = sky.at(row.epochMillis);
      expect(air.airCelsius).toBe(row.airCelsius);
      expect(air.sunWattsPerSquareMetre).toBe(row.sunWattsPerSquareMetre);
      expect(air.windMetresPerSecond).toBe(row.windMetresPerSecond);
    }
    // FAO-56 eq. 10 on table 2.3: half of 2.338 kPa at 20 °C.
    expect(sky.at(0).vapourKilopascals).toBeCloseTo(SATURATION.at20 / 2, 3);
  });

  it('runs straight between rows, over a hole of two hours too', () => {
    expect(sky.at(HOUR / 4).airCelsius).toBeCloseTo(20.925, 9);
    expect(sky.at(HOUR / 4).sunWattsPerSquareMetre).toBeCloseTo(150, 9);
    expect(sky.at(2 * HOUR).windMetresPerSecond).toBeCloseTo(2.5, 9);
    expect(sky.at(2.5 * HOUR).airCelsius).toBeCloseTo(24.75, 9);
  });

  it('reaches from the first row to the last and no millisecond further', () => {
    expect([sky.start, sky.end]).toEqual([0, 3 * HOUR]);
    expect(() => sky.at(-1)).toThrow(BrokenAssertion);
    expect(() => sky.at(3 * HOUR + 1)).toThrow(BrokenAssertion);
  });

  it('never lets a line between two saturated rows run above saturation', () => {
    // FAO-56 eq. 11 is convex: half way from 0.872 (5 °C) to 4.243 kPa (30 °C) lies 2.56, above 2.00 at 17.5 °C.
    const fog = recordSky({
      rows: [
        { epochMillis: 0, airCelsius: 5, humidityPercent: 100, sunWattsPerSquareMetre: 0 },
        { epochMillis: HOUR, airCelsius: 30, humidityPercent: 100, sunWattsPerSquareMetre: 0 },
      ],
      place,
    });
    const air = fog.at(HOUR / 2);
    expect(air.airCelsius).toBe(17.5);
    expect(air.vapourKilopascals).toBeLessThan(2.01);
    expect(air.vapourKilopascals).toBeGreaterThan(1.99);
  });

  it('asserts on one row, and on rows that do not rise', () => {
    expect(() => recordSky({ rows: rows.slice(0, 1), place })).toThrow(BrokenAssertion);
    expect(() => recordSky({ rows: [...rows].reverse(), place })).toThrow(BrokenAssertion);
  });
});

describe('what a record leaves out', () => {
  it('takes the dew point at the lowest temperature of the local day: 1.705 kPa for 15 °C', () => {
    // FAO-56, chapter 3, eq. 48; the value is table 2.3 of annex 2.
    const sky = recordSky({ rows: bareDay(MIDNIGHT, 15), place });
    for (const hour of [0, 5, 13, 23]) {
      expect(sky.at(MIDNIGHT + hour * HOUR).vapourKilopascals).toBeCloseTo(SATURATION.at15, 3);
    }
  });

  it('takes each local day on its own: 20 °C today, 10 °C tomorrow, whose first hour is 16 °C already', () => {
    const sky = recordSky({ rows: [...bareDay(MIDNIGHT, 20), ...bareDay(MIDNIGHT + 24 * HOUR, 10)], place });
    expect(sky.at(MIDNIGHT + 23 * HOUR).vapourKilopascals).toBeCloseTo(SATURATION.at20, 3);
    expect(sky.at(MIDNIGHT + 24 * HOUR).vapourKilopascals).toBeCloseTo(SATURATION.at10, 3);
  });

  it('gives the afternoon before the first whole day the minimum of that day, not its own 21.6 °C', () => {
    const rows = [...bareDay(MIDNIGHT - 24 * HOUR, 15, 18, 23), ...bareDay(MIDNIGHT, 15)];
    const sky = recordSky({ rows, place });
    expect(sky.at(MIDNIGHT - 6 * HOUR).vapourKilopascals).toBeCloseTo(SATURATION.at15, 3);
  });

  it('takes humidity from the rows that have it and the dew point for those that do not', () => {
    const rows = bareDay(MIDNIGHT, 15).map((row, hour) =>
      hour === 13 ? { ...row, humidityPercent: 30 } : row,
    );
    const sky = recordSky({ rows, place });
    const celsius = 15 + 10 * Math.sin((Math.PI * 8) / 24);
    const saturation = 0.6108 * Math.exp((17.27 * celsius) / (celsius + 237.3)); // FAO-56 eq. 11
    expect(sky.at(MIDNIGHT + 13 * HOUR).vapourKilopascals).toBeCloseTo(0.3 * saturation, 9);
    expect(sky.at(MIDNIGHT + 12 * HOUR).vapourKilopascals).toBeCloseTo(SATURATION.at15, 3);
  });

  it('takes a cloudless sun, within 1 W/m² between the rows too, or the share of it that is asked for', () => {
    // The curve itself is held against FAO-56 eq. 37 in the tests of the made day.
    const rows = bareDay(MIDNIGHT, 15);
    const clear = recordSky({ rows, place });
    const hazy = recordSky({ rows, place, shareOfSun: 0.5 });
    for (const hour of [8, 10.37, 13.62, 19.21]) {
      const epochMillis = MIDNIGHT + hour * HOUR;
      const expected = clearSkyWattsPerSquareMetre({ ...place, epochMillis });
      expect(Math.abs(clear.at(epochMillis).sunWattsPerSquareMetre - expected)).toBeLessThan(1);
      expect(Math.abs(hazy.at(epochMillis).sunWattsPerSquareMetre - expected / 2)).toBeLessThan(1);
    }
    expect(clear.at(MIDNIGHT).sunWattsPerSquareMetre).toBe(0);
  });

  it('takes the usual wind of the place, 1.2 m/s', () => {
    expect(
      recordSky({ rows: bareDay(MIDNIGHT, 15), place }).at(MIDNIGHT + HOUR / 3).windMetresPerSecond,
    ).toBe(1.2);
  });
});
