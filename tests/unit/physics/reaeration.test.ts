import { expect, it } from 'vitest';
import { reaerationFactor } from '../../../src/physics/reaeration.ts';

// Arithmetic of 1.024^(T − 20): ten products of 1.024 are 1.267651, and their inverse.
it.each([
  [10, 1 / 1.267651],
  [19, 1 / 1.024],
  [20, 1],
  [21, 1.024],
  [30, 1.267651],
])('SWAT+ documentation eq. 7:3.5.4: at %d °C water takes up oxygen %d times as fast', (celsius, factor) => {
  expect(Math.abs(reaerationFactor(celsius) / factor - 1)).toBeLessThanOrEqual(1e-6);
});
