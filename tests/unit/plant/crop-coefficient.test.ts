import { describe, expect, it } from 'vitest';
import { basalCropCoefficient } from '../../../src/physics/crop-coefficient.ts';

// FAO-56 eq. 97, Kcb = Kc min + (Kcb full − Kc min)(1 − e^(−0.7·LAI)); table 17, lettuce: 0.15 at the start, 0.90 at
// full cover (both from memory). The middle values are arithmetic of that formula, e^(−0.7) = 0.49659, e^(−2.1) = 0.12246.
describe('the basal crop coefficient of lettuce, FAO-56 eq. 97 with table 17', () => {
  it.each([
    [0, 0.15],
    [1, 0.15 + 0.75 * (1 - 0.49659)],
    [3, 0.15 + 0.75 * (1 - 0.12246)],
    [20, 0.9],
  ])('is at a leaf area index of %d: %d', (leafAreaIndex, expected) => {
    expect(Math.abs(basalCropCoefficient(leafAreaIndex) - expected)).toBeLessThan(1e-5);
  });

  it('rises with every leaf from 0 to 8 and stays below 0.9', () => {
    const all = Array.from({ length: 81 }, (_, tenth) => basalCropCoefficient(tenth / 10));
    all.slice(1).forEach((value, place) => {
      expect(value).toBeGreaterThan(all[place]!);
    });
    expect(all[80]!).toBeLessThan(0.9);
  });
});
