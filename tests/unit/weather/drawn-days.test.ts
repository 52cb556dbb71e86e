import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { gaussian, seededDice } from '../../../sim/dice.ts';
import { drawnSky } from '../../../sim/weather/drawn-days.ts';
import type { Climate } from '../../../sim/weather/drawn-extremes.ts';
import type { WeatherPlace } from '../../../sim/weather/place.ts';
import type { Sky } from '../../../sim/weather/sky.ts';
import { solarTurns, temperatureAt, type DayExtremes } from '../../../sim/weather/solar-turn.ts';
import { clearSkyWattsPerSquareMetre, solarFromRange } from '../../../src/physics/radiation.ts';
import { localDayOn } from '../../../src/time/local-day.ts';

const MINUTE = 60_000;
const place: WeatherPlace = {
  latitudeDegrees: 37.1,
  longitudeDegrees: -8,
  elevationMetres: 180,
  timeZone: 'Europe/Lisbon',
  windMetresPerSecond: 1,
};
const flat = (
  minCelsius: number,
  maxCelsius: number,
  spreadCelsius: number,
  humidityPercent?: number,
): Climate => ({
  monthly: Array.from({ length: 12 }, () => ({ minCelsius, maxCelsius, humidityPercent })),
  spreadCelsius,
  site: 'inland',
});
const drawn = (date: string, days: number, seed: number, climate: Climate, at = place): Sky => {
  const dice = seededDice(seed);
  const { start } = localDayOn(date, at.timeZone);
  return drawnSky({ place: at, start, days, climate, normal: () => gaussian(dice) });
};
const everyFive = (sky: Sky): readonly number[] =>
  Array.from(
    { length: Math.floor((sky.end - sky.start) / (5 * MINUTE)) },
    (_, step) => sky.start + step * 5 * MINUTE,
  );

describe('turns of different warmth', () => {
  const from = localDayOn('2026-07-10', place.timeZone).start;
  const turns = solarTurns(place, from, from + 8 * 86_400_000);
  const extremes: readonly DayExtremes[] = Array.from({ length: turns.length + 1 }, (_, turn) => ({
    minCelsius: 15 + 4 * (turn % 3),
    maxCelsius: 26 + 5 * (turn % 2),
  }));
  const celsiusAt = (moment: number): number => temperatureAt(turns, moment, (turn) => extremes[turn]!);

  it('meet their own lowest at sunrise and their own highest at the warmest moment, exactly', () => {
    for (const [turn, { sunrise, warmest }] of turns.entries()) {
      expect(celsiusAt(sunrise)).toBeCloseTo(extremes[turn]!.minCelsius, 9);
      expect(celsiusAt(warmest)).toBeCloseTo(extremes[turn]!.maxCelsius, 9);
    }
  });

  it('join at sunrise: a second before it the night has come down to what the day begins with', () => {
    for (const { sunrise, sunset } of turns.slice(1, -1)) {
      expect(Math.abs(celsiusAt(sunrise - 1000) - celsiusAt(sunrise))).toBeLessThan(0.01);
      expect(Math.abs(celsiusAt(sunset + 1000) - celsiusAt(sunset))).toBeLessThan(0.01);
    }
  });
});

describe('drawn days', () => {
  it('never jump: at most 0.9 °C in five minutes, at midnight and sunrise too, whatever the place and the seed', () => {
    // The fastest of the profile is the first cooling after sunset: (T − Tmin)/4 h by Goudriaan & van Laar, so that
    // 35 °C to lose are 0.73 °C in five minutes, and a short night that must end at its lowest adds to it.
    fc.assert(
      fc.property(
        fc.record({
          seed: fc.integer({ min: 0, max: 1e6 }),
          latitude: fc.integer({ min: -65, max: 65 }),
          month: fc.integer({ min: 1, max: 12 }),
          range: fc.integer({ min: 2, max: 18 }),
        }),
        ({ seed, latitude, month, range }) => {
          const at = { ...place, latitudeDegrees: latitude };
          const date = `2026-${String(month).padStart(2, '0')}-20`;
          const sky = drawn(date, 8, seed, flat(12, 12 + range, 4), at);
          const celsius = everyFive(sky).map((moment) => sky.at(moment).airCelsius);
          const steps = celsius.slice(1).map((value, step) => Math.abs(value - celsius[step]!));
          expect(Math.max(...steps)).toBeLessThan(0.9);
        },
      ),
      { numRuns: 25, seed: 20260714 },
    );
  });

  it('without spread are 12 to 26 °C exactly on every day', () => {
    const sky = drawn('2026-07-14', 5, 1, flat(12, 26, 0));
    for (const { sunrise, warmest } of solarTurns(place, sky.start, sky.end)) {
      if (sunrise >= sky.start && sunrise <= sky.end) expect(sky.at(sunrise).airCelsius).toBeCloseTo(12, 9);
      if (warmest >= sky.start && warmest <= sky.end) expect(sky.at(warmest).airCelsius).toBeCloseTo(26, 9);
    }
  });

  it('are the same with the same seed', () => {
    const airs = (seed: number): readonly unknown[] => {
      const sky = drawn('2026-07-14', 3, seed, flat(12, 26, 3));
      return everyFive(sky).map((moment) => sky.at(moment));
    };
    expect(airs(5)).toEqual(airs(5));
    expect(airs(5)).not.toEqual(airs(6));
  });

  it('have the sun of FAO-56 eq. 50: 9 °C of range inland give 0.48 of the extraterrestrial', () => {
    // kRs √ΔT = 0.16 · 3 over the clear-sky share 0.75 + 2e-5 · 180 of eq. 37.
    const sky = drawn('2026-07-14', 2, 1, flat(15, 24, 0));
    const noon = Date.parse('2026-07-14T12:40:00Z');
    const share =
      sky.at(noon).sunWattsPerSquareMetre / clearSkyWattsPerSquareMetre({ ...place, epochMillis: noon });
    expect(share).toBeCloseTo(0.48 / 0.7536, 3);
  });

  it('are never sunnier than the clear sky, and nearer to the coast sunnier for the same range', () => {
    const wide = drawn('2026-07-14', 2, 1, flat(5, 35, 0));
    const noon = Date.parse('2026-07-14T12:40:00Z');
    const clear = clearSkyWattsPerSquareMetre({ ...place, epochMillis: noon });
    expect(wide.at(noon).sunWattsPerSquareMetre).toBeLessThanOrEqual(clear + 1e-9);
    const coast = drawn('2026-07-14', 2, 1, { ...flat(15, 24, 0), site: 'coast' });
    expect(coast.at(noon).sunWattsPerSquareMetre / clear).toBeCloseTo((0.19 * 3) / 0.7536, 3);
  });

  it('have the mean humidity of the month within a point where it is told', () => {
    const sky = drawn('2026-07-14', 1, 1, flat(15, 24, 0, 60));
    const saturation = (celsius: number): number => 0.6108 * Math.exp((17.27 * celsius) / (celsius + 237.3)); // eq. 11
    const percents = everyFive(sky).map((moment) => {
      const air = sky.at(moment);
      return (100 * air.vapourKilopascals) / saturation(air.airCelsius);
    });
    expect(Math.abs(percents.reduce((a, b) => a + b) / percents.length - 60)).toBeLessThan(1);
  });

  it('otherwise have the dew point at the lowest of the day: 1.705 kPa at 15 °C', () => {
    // FAO-56 eq. 48; annex 2, table 2.3.
    const sky = drawn('2026-07-14', 1, 1, flat(15, 24, 0));
    expect(Math.abs(sky.at(Date.parse('2026-07-14T14:00:00Z')).vapourKilopascals - 1.705)).toBeLessThan(
      0.002,
    );
  });
});

describe('the sun by the range of temperature', () => {
  it('FAO-56 example 15: Lyon in July, Ra 40.6, 14.8 to 26.6 °C, has Rs 22.3 MJ/m² a day', () => {
    expect(solarFromRange(40.6, 26.6 - 14.8, 0.16)).toBeCloseTo(22.3, 1);
  });
});
