import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  arccosine,
  arcsine,
  arctangent,
  cosine,
  direction,
  sine,
} from '../../../src/physics/portable-trigonometry.ts';
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

describe('the inverses', () => {
  const anyShare = between(-1, 1);
  const offShare = (actual: number, expected: number): number =>
    actual === expected ? 0 : Math.abs(actual / expected - 1);

  it('lie within 6e-16 of the engine’s own arctangent, as a share, from 1e-9 to 1e9 and below 0', () => {
    fc.assert(
      fc.property(between(-9, 9), fc.constantFrom(1, -1), (exponent, sign) => {
        const x = sign * 10 ** exponent;
        return offShare(arctangent(x), Math.atan(x)) <= 6e-16;
      }),
      { numRuns: 20_000 },
    );
  });

  it('lie within 1e-15 of the engine’s own arccosine and arcsine from −1 to 1', () => {
    fc.assert(
      fc.property(
        anyShare,
        (x) => offBy(arccosine(x), Math.acos(x)) <= 1e-15 && offBy(arcsine(x), Math.asin(x)) <= 1e-15,
      ),
      { numRuns: 20_000 },
    );
  });

  it('are 0, π/2 and π for the cosines 1, 0 and −1, ±π/2 for the sines ±1, and no number beyond', () => {
    expect([arccosine(1), arcsine(0)]).toEqual([0, 0]);
    expect(offBy(arccosine(0), Math.PI / 2)).toBeLessThanOrEqual(3e-16);
    expect(arccosine(-1)).toBe(Math.PI);
    expect([arcsine(1), arcsine(-1)]).toEqual([Math.PI / 2, -Math.PI / 2]);
    expect(arctangent(Infinity)).toBe(Math.PI / 2);
    expect([arccosine(1.1), arcsine(-1.1)]).toEqual([NaN, NaN]);
  });

  it('give the direction of any point within 1e-15 of the engine’s own, and 0 for none', () => {
    fc.assert(
      fc.property(between(-9, 9), between(-9, 9), (eastward, northward) => {
        return offBy(direction(eastward, northward), Math.atan2(northward, eastward)) <= 1e-15;
      }),
      { numRuns: 20_000 },
    );
    expect(direction(0, 0)).toBe(0);
    expect(direction(-1, 0)).toBe(Math.PI);
    expect(direction(0, -2)).toBe(-Math.PI / 2);
  });
});
