import { describe, expect, it } from 'vitest';
import { gaussian, seededDice } from '../../../sim/dice.ts';
import { drawnExtremes, type CalendarDay, type Climate } from '../../../sim/weather/drawn-extremes.ts';
import { monthCurve } from '../../../sim/weather/month-curve.ts';
import type { DayExtremes } from '../../../sim/weather/solar-turn.ts';
import { BrokenAssertion } from '../../../src/units/assertion.ts';

const MIN = [8, 8, 10, 11, 14, 17, 19, 19, 18, 15, 11, 9];
const MAX = [19, 20, 22, 24, 27, 31, 35, 35, 32, 28, 23, 20];
const SPREAD = 3;
const climate: Climate = {
  monthly: MIN.map((minCelsius, month) => ({ minCelsius, maxCelsius: MAX[month]! })),
  spreadCelsius: SPREAD,
  site: 'inland',
};

/** Years of 365 days. */
const calendarOf = (years: number): readonly CalendarDay[] =>
  Array.from({ length: years * 365 }, (_, day) => {
    const date = new Date(Date.UTC(2001, 0, 1 + (day % 365)));
    const month = date.getUTCMonth();
    const daysInMonth = new Date(Date.UTC(2001, month + 1, 0)).getUTCDate();
    return { month, dayOfMonth: date.getUTCDate(), daysInMonth };
  });

const drawn = (days: readonly CalendarDay[], seed: number, of = climate): readonly DayExtremes[] => {
  const dice = seededDice(seed);
  return drawnExtremes(of, days, () => gaussian(dice));
};
const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;
const correlation = (a: readonly number[], b: readonly number[]): number => {
  const [meanA, meanB] = [mean(a), mean(b)];
  const both = (x: readonly number[], y: readonly number[], mx: number, my: number): number =>
    mean(x.map((value, place) => (value - mx) * (y[place]! - my)));
  return both(a, b, meanA, meanB) / Math.sqrt(both(a, a, meanA, meanA) * both(b, b, meanB, meanB));
};

const YEARS = 200;
const days = calendarOf(YEARS);
const extremes = drawn(days, 20260714);
const season = drawn(days, 1, { ...climate, spreadCelsius: 0 });

/**
 * Lag-one correlations of the highest and lowest temperature, and of both on one day: Richardson & Wright 1984, WGEN,
 * ARS-8, from memory; the model is that of Richardson 1981.
 */
const LAG_ONE = { maxCelsius: 0.621, minCelsius: 0.674 } as const;
const SAME_DAY = 0.633;

describe('200 years of drawn days', () => {
  it.each(['minCelsius', 'maxCelsius'] as const)(
    'have the monthly means of %s, within 2.9 standard errors',
    (key) => {
      // 24 means are looked at: 2.9 standard errors leave one chance in ten that any of them strays. A mean over n days
      // that remember with r errs like one over n (1 − r)/(1 + r) days that do not.
      const asked = key === 'minCelsius' ? MIN : MAX;
      const memory = (1 + LAG_ONE[key]) / (1 - LAG_ONE[key]);
      for (const [month, celsius] of asked.entries()) {
        const values = extremes.filter((_, day) => days[day]!.month === month).map((day) => day[key]);
        const standardError = SPREAD * Math.sqrt(memory / values.length);
        expect(standardError).toBeLessThan(0.1);
        expect(Math.abs(mean(values) - celsius)).toBeLessThan(2.9 * standardError);
      }
    },
  );

  it.each(['minCelsius', 'maxCelsius'] as const)('have the lag-one correlation of %s within 0.05', (key) => {
    const apart = extremes.map((day, place) => day[key] - season[place]![key]);
    expect(Math.abs(correlation(apart.slice(1), apart.slice(0, -1)) - LAG_ONE[key])).toBeLessThan(0.05);
    expect(Math.abs(Math.sqrt(mean(apart.map((value) => value * value))) - SPREAD)).toBeLessThan(0.05);
  });

  it('have warm nights with warm days: a correlation of 0.633 within 0.05', () => {
    const max = extremes.map((day, place) => day.maxCelsius - season[place]!.maxCelsius);
    const min = extremes.map((day, place) => day.minCelsius - season[place]!.minCelsius);
    expect(Math.abs(correlation(max, min) - SAME_DAY)).toBeLessThan(0.05);
  });

  it('are the same with the same seed, and others with another', () => {
    const year = calendarOf(1);
    expect(drawn(year, 7)).toEqual(drawn(year, 7));
    expect(drawn(year, 7)).not.toEqual(drawn(year, 8));
  });

  it('keep an afternoon a degree warmer than the night at least, however narrow the climate', () => {
    const narrow = {
      ...climate,
      monthly: MIN.map((minCelsius) => ({ minCelsius, maxCelsius: minCelsius + 2 })),
    };
    const ranges = drawn(calendarOf(20), 3, narrow).map((day) => day.maxCelsius - day.minCelsius);
    expect(Math.min(...ranges)).toBeCloseTo(1, 9);
  });
});

describe('the curve through twelve means', () => {
  it('has each of them as the mean of its month within 0.01, where lines through the means would miss by up to 0.6', () => {
    const curve = monthCurve(MAX);
    for (const [month, asked] of MAX.entries()) {
      const values = Array.from({ length: 1000 }, (_, step) => curve(month, (step + 0.5) / 1000));
      expect(Math.abs(mean(values) - asked)).toBeLessThan(0.01);
    }
  });

  it('joins from month to month, and December to January', () => {
    const curve = monthCurve(MAX);
    for (const month of MAX.keys()) expect(curve(month, 1)).toBeCloseTo(curve((month + 1) % 12, 0), 9);
  });

  it('refuses eleven', () => {
    expect(() => monthCurve(MAX.slice(1))).toThrow(BrokenAssertion);
  });
});
