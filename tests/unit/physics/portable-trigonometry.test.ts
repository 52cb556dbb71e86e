import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cosine, sine } from '../../../src/physics/portable-trigonometry.ts';
import { between } from '../../support/between.ts';

const offBy = (actual: number, expected: number): number => Math.abs(actual - expected);
const anyAngle = between(-1e6, 1e6);

describe('sine and cosine', () => {
  it('lie within 3e-16 of the engine’s own up to a million radians', () => {
    fc.assert(
      fc.property(
        anyAngle,
        (x) => offBy(sine(x), Math.sin(x)) <= 3e-16 && offBy(cosine(x), Math.cos(x)) <= 3e-16,
      ),
      { numRuns: 20_000 },
    );
  });

  it('lie within 3e-16 of the engine’s own on 20,001 points from −10 to 10 radians', () => {
    let worst = 0;
    for (let step = -10_000; step <= 10_000; step += 1) {
      const x = step / 1000;
      worst = Math.max(worst, offBy(sine(x), Math.sin(x)), offBy(cosine(x), Math.cos(x)));
    }
    expect(worst).toBeLessThanOrEqual(3e-16);
  });

  it('are 0 and 1 at 0, 0.5 and √3/2 at π/6, 1 and 0 at π/2', () => {
    expect([sine(0), cosine(0)]).toEqual([0, 1]);
    expect(offBy(sine(Math.PI / 6), 0.5)).toBeLessThanOrEqual(2e-16);
    expect(offBy(cosine(Math.PI / 6), Math.sqrt(0.75))).toBeLessThanOrEqual(2e-16);
    expect(sine(Math.PI / 2)).toBe(1);
    expect(offBy(cosine(Math.PI / 2), 0)).toBeLessThanOrEqual(2e-16);
  });

  it('keep sin² + cos² at 1 within 4.5e-16, two units in the last place', () => {
    fc.assert(fc.property(anyAngle, (x) => offBy(sine(x) ** 2 + cosine(x) ** 2, 1) <= 4.5e-16));
  });
});
