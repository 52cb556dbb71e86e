import { describe, expect, it } from 'vitest';
import { sineExponentialCelsius } from '../../../src/physics/diurnal.ts';

const offBy = (actual: number, expected: number): number => Math.abs(actual - expected);

/** 10 to 30 °C, sun from 6 to 18 h. Expected values below computed from the published formulas, to 0.01 °C. */
const day = { minCelsius: 10, maxCelsius: 30, sunriseHour: 6, sunsetHour: 18 };

describe('sine by day and exponential by night', () => {
  // Formula, 1.5 h and 4 h from memory. Midnight by hand: (10 − 21.7557·0.049787 + 11.7557·0.22313)/0.950213 = 12.1445.
  it.each([
    [0, 12.14],
    [3, 10.69],
    [6, 10.0],
    [9, 21.76],
    [12, 29.02],
    [13.5, 30.0],
    [15, 29.02],
    [18, 21.76],
    [21, 15.23],
  ])('Goudriaan & van Laar 1994 ch. 3: at %d h it is %d °C', (hour, expected) => {
    expect(offBy(sineExponentialCelsius({ ...day, hour }), expected)).toBeLessThanOrEqual(0.005);
  });

  it('joins at 6 h and at 18 h within 0.001 °C', () => {
    for (const edge of [6, 18]) {
      const before = sineExponentialCelsius({ ...day, hour: edge - 1e-5 });
      const after = sineExponentialCelsius({ ...day, hour: edge + 1e-5 });
      expect(offBy(before, after)).toBeLessThanOrEqual(0.001);
    }
  });

  it('falls to the next night’s 14 °C at 30 h, the next sunrise, without a step at midnight', () => {
    const warmer = { ...day, nextMinCelsius: 14 };
    expect(offBy(sineExponentialCelsius({ ...warmer, hour: 30 }), 14)).toBeLessThanOrEqual(1e-9);
    const before = sineExponentialCelsius({ ...warmer, hour: 24 - 1e-5 });
    const after = sineExponentialCelsius({ ...warmer, hour: 24 + 1e-5 });
    expect(offBy(before, after)).toBeLessThanOrEqual(0.001);
  });

  it('repeats after 24 h when all days are alike', () => {
    for (const hour of [0, 2, 5.9]) {
      const same = sineExponentialCelsius({ ...day, hour: hour + 24 });
      expect(offBy(sineExponentialCelsius({ ...day, hour }), same)).toBeLessThanOrEqual(1e-12);
    }
  });
});
