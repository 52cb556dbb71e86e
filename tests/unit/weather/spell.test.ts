import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cloudySky } from '../../../sim/weather/cloudy.ts';
import { madeSky } from '../../../sim/weather/made-day.ts';
import type { WeatherPlace } from '../../../sim/weather/place.ts';
import { runningDayMean } from '../../../sim/weather/running-mean.ts';
import type { Sky } from '../../../sim/weather/sky.ts';
import { skyWithSpell, type Spell } from '../../../sim/weather/spell.ts';
import { BrokenAssertion } from '../../../src/units/assertion.ts';
import { wallMillis } from '../../../src/time/instant.ts';
import { localDayOn } from '../../../src/time/local-day.ts';

const MINUTE = 60_000;
const DAY = 86_400_000;
const place: WeatherPlace = {
  latitudeDegrees: 37.1,
  longitudeDegrees: -8,
  elevationMetres: 180,
  timeZone: 'Europe/Lisbon',
  windMetresPerSecond: 1,
};
const { start } = localDayOn('2026-07-10', place.timeZone);
/** Ten like days of 20 to 35 °C. */
const sky = madeSky({ place, start, days: 10, minCelsius: 20, maxCelsius: 35, humidityPercent: 50 });
const spell: Spell = {
  fromMillis: start + 4 * DAY,
  untilMillis: start + 6 * DAY,
  celsius: 6,
  rangeShare: 1.2,
};
const wave = skyWithSpell(sky, spell);

const moments = (from: number, to: number): readonly number[] =>
  Array.from({ length: Math.floor((to - from) / (5 * MINUTE)) }, (_, step) => from + step * 5 * MINUTE);
const celsiusOf = (of: Sky, from: number, to: number): readonly number[] =>
  moments(from, to).map((moment) => of.at(moment).airCelsius);
const rangeOf = (values: readonly number[]): number => Math.max(...values) - Math.min(...values);
const mean = (values: readonly number[]): number => values.reduce((a, b) => a + b) / values.length;
const steepest = (of: Sky): number => {
  const values = celsiusOf(of, of.start, of.end);
  return Math.max(...values.slice(1).map((value, step) => Math.abs(value - values[step]!)));
};

describe('a heat wave', () => {
  const within = [spell.fromMillis, spell.fromMillis + DAY] as const;

  it('raises the mean of its days by its 6 °C and widens their range by its fifth, within 0.1 °C', () => {
    const [plain, warm] = [celsiusOf(sky, ...within), celsiusOf(wave, ...within)];
    expect(Math.abs(mean(warm) - mean(plain) - 6)).toBeLessThan(0.1);
    expect(Math.abs(rangeOf(warm) / rangeOf(plain) - 1.2)).toBeLessThan(0.01);
  });

  it('leaves the days beyond its ramps of 12 h as they were', () => {
    for (const moment of [...moments(sky.start, start + 3.5 * DAY), ...moments(start + 6.5 * DAY, sky.end)])
      expect(wave.at(moment)).toEqual(sky.at(moment));
  });

  it('keeps vapour, sun, wind and span', () => {
    const noon = spell.fromMillis + 13 * 60 * MINUTE;
    expect({ ...wave.at(noon), airCelsius: 0 }).toEqual({ ...sky.at(noon), airCelsius: 0 });
    expect([wave.start, wave.end]).toEqual([sky.start, sky.end]);
  });

  it('comes and goes without a jump: five minutes are never steeper than 0.15 °C more than without it', () => {
    // Eased over 12 h, 15 °C rise by at most 1.5 · 15/144 = 0.16 °C in five minutes.
    fc.assert(
      fc.property(
        fc.record({
          celsius: fc.integer({ min: -12, max: 12 }),
          rangeShare: fc.constantFrom(0.8, 1, 1.1),
          days: fc.integer({ min: 1, max: 4 }),
        }),
        ({ celsius, rangeShare, days }) => {
          const untilMillis = spell.fromMillis + days * DAY;
          const changed = skyWithSpell(sky, { ...spell, untilMillis, celsius, rangeShare });
          expect(steepest(changed)).toBeLessThan(steepest(sky) * rangeShare + 0.15);
        },
      ),
      { numRuns: 20, seed: 20260714 },
    );
  });

  it('as a cold spell of −12 °C gives up what the air cannot hold', () => {
    const cold = skyWithSpell(sky, { ...spell, celsius: -12, rangeShare: 1 });
    const saturation = (celsius: number): number => 0.6108 * Math.exp((17.27 * celsius) / (celsius + 237.3)); // eq. 11
    for (const moment of moments(...within)) {
      const air = cold.at(moment);
      expect(air.vapourKilopascals).toBeLessThanOrEqual(saturation(air.airCelsius) * (1 + 1e-9));
    }
    expect(Math.min(...celsiusOf(cold, ...within))).toBeLessThan(8.1);
  });

  it('is refused when it ends before it begins, or shifts by 21 °C', () => {
    expect(() => skyWithSpell(sky, { ...spell, untilMillis: spell.fromMillis })).toThrow(BrokenAssertion);
    expect(() => skyWithSpell(sky, { ...spell, celsius: 21 })).toThrow(BrokenAssertion);
  });
});

describe('cloudy days', () => {
  const noon = start + 5 * DAY + 13 * 60 * MINUTE;

  it('have 30 % of the clear sun, and a range of 0.3² of the clear day by FAO-56 eq. 50', () => {
    const cloudy = cloudySky(sky, { place, share: 0.3 });
    expect(cloudy.at(noon).sunWattsPerSquareMetre / sky.at(noon).sunWattsPerSquareMetre).toBeCloseTo(0.3, 3);
    const day = [start + 4 * DAY, start + 5 * DAY] as const;
    expect(
      Math.abs(rangeOf(celsiusOf(cloudy, ...day)) / rangeOf(celsiusOf(sky, ...day)) - 0.09),
    ).toBeLessThan(0.01);
    expect(Math.abs(mean(celsiusOf(cloudy, ...day)) - mean(celsiusOf(sky, ...day)))).toBeLessThan(0.1);
  });

  it('leave a sky that is darker already as it is', () => {
    const cloudy = cloudySky(sky, { place, share: 0.3 });
    const again = cloudySky(cloudy, { place, share: 0.5 });
    for (const moment of moments(start + 2 * DAY, start + 4 * DAY)) {
      expect(again.at(moment).sunWattsPerSquareMetre).toBeCloseTo(
        cloudy.at(moment).sunWattsPerSquareMetre,
        6,
      );
      expect(again.at(moment).airCelsius).toBeCloseTo(cloudy.at(moment).airCelsius, 6);
    }
  });

  it('do not divide by the sun of a polar night', () => {
    const north = { ...place, latitudeDegrees: 69.65, longitudeDegrees: 18.96, timeZone: 'Europe/Oslo' };
    const from = localDayOn('2026-12-20', north.timeZone).start;
    const night = madeSky({
      place: north,
      start: from,
      days: 2,
      minCelsius: -5,
      maxCelsius: 0,
      humidityPercent: 80,
    });
    const cloudy = cloudySky(night, { place: north, share: 0.3 });
    for (const moment of moments(night.start, night.end))
      expect(cloudy.at(moment).airCelsius).toBeCloseTo(night.at(moment).airCelsius, 9);
  });
});

describe('the mean over the 24 hours about a moment', () => {
  it('of the sun is the day sum over 24 h, and does not step at midnight', () => {
    const meanAt = runningDayMean(sky, (air) => air.sunWattsPerSquareMetre);
    const midday = start + 5.5 * DAY;
    const summed = mean(
      moments(midday - DAY / 2, midday + DAY / 2).map((at) => sky.at(at).sunWattsPerSquareMetre),
    );
    expect(meanAt(midday)).toBeCloseTo(summed, 0);
    expect(Math.abs(meanAt(start + 5 * DAY - 1000) - meanAt(start + 5 * DAY + 1000))).toBeLessThan(0.01);
  });

  it('answers at both ends of a sky, of one of six hours too', () => {
    const six: Sky = { ...sky, end: wallMillis(sky.start + DAY / 4) };
    const whole = mean(celsiusOf(six, six.start, six.end));
    for (const of of [sky, six]) {
      const meanAt = runningDayMean(of, (air) => air.airCelsius);
      for (const moment of [of.start, of.end]) expect(meanAt(moment)).toBeGreaterThan(20);
      if (of === six) expect(meanAt(six.end)).toBeCloseTo(whole, 1);
    }
  });
});
