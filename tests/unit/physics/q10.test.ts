import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { q10Factor } from '../../../src/physics/q10.ts';
import { between } from '../../support/between.ts';

describe('the rule of van ’t Hoff', () => {
  // Arithmetic; the q10 of 1.4 and 1.75 are those of small and large lettuce, HortScience 39(4):854D (2004).
  it.each([
    [1.75, 20, 25, 1.323],
    [1.4, 20, 30, 1.4],
    [1.75, 20, 30, 1.75],
    [2, 20, 30, 2],
    [2, 30, 20, 0.5],
  ])('HortScience 39(4):854D: a q10 of %d from %d to %d °C multiplies by %d', (q10, from, to, factor) => {
    expect(Math.abs(q10Factor(q10, to, from) - factor)).toBeLessThanOrEqual(1e-3);
  });

  it('definition: two steps multiply to one, and no step is 1', () => {
    const celsius = between(0, 45);
    fc.assert(
      fc.property(between(1, 3), celsius, celsius, celsius, (q10, a, b, c) => {
        const twice = q10Factor(q10, b, a) * q10Factor(q10, c, b);
        return (
          Math.abs(twice / q10Factor(q10, c, a) - 1) <= 1e-14 * (1 + Math.log(q10) * 9) &&
          q10Factor(q10, a, a) === 1
        );
      }),
    );
  });
});
