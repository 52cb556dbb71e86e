import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { exp, ln, power } from '../../../src/physics/portable-math.ts';
import { between } from '../../support/between.ts';

const MANY = { numRuns: 20_000 };
const real = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });
const offShare = (actual: number, expected: number): number => Math.abs(actual / expected - 1);

describe('the exponential', () => {
  it('lies within 4e-16 of the engine’s own from −700 to 700', () => {
    fc.assert(
      fc.property(between(-700, 700), (x) => offShare(exp(x), Math.exp(x)) <= 4e-16),
      MANY,
    );
  });

  it('lies within 4e-16 of the engine’s own on a grid of 28,001 points from −700 to 700', () => {
    let worst = 0;
    for (let step = -14_000; step <= 14_000; step += 1) {
      worst = Math.max(worst, offShare(exp(step / 20), Math.exp(step / 20)));
    }
    expect(worst).toBeLessThanOrEqual(4e-16);
  });

  it('is exactly 1 at 0, never falls on a step of one part in 1e12, and ends at 0 and infinity', () => {
    expect(exp(0)).toBe(1);
    expect(exp(-0)).toBe(1);
    expect(exp(-746)).toBe(0);
    expect(exp(-Infinity)).toBe(0);
    expect(exp(710)).toBe(Infinity);
    expect(exp(NaN)).toBeNaN();
    fc.assert(fc.property(between(-50, 50), (x) => exp(x + Math.abs(x) * 1e-12) >= exp(x)));
  });

  it('reaches the smallest double at −745 and stays finite at 709.78', () => {
    expect(exp(-745)).toBe(Number.MIN_VALUE);
    expect(offShare(exp(709.78), Math.exp(709.78))).toBeLessThanOrEqual(4e-16);
  });

  it('DLMF 4.2.11: e is 2.718281828459045', () => {
    expect(offShare(exp(1), 2.718281828459045)).toBeLessThanOrEqual(3e-16);
  });
});

describe('the logarithm', () => {
  it('lies within 5e-16 of the engine’s own for all positive doubles, also just beside 1', () => {
    const everywhere = fc.double({ min: Number.MIN_VALUE, noNaN: true, noDefaultInfinity: true });
    for (const values of [everywhere, real(0.9, 1.1), real(1e-3, 1e3)]) {
      fc.assert(
        fc.property(values, (x) => (x === 1 ? ln(x) === 0 : offShare(ln(x), Math.log(x)) <= 5e-16)),
        MANY,
      );
    }
  });

  it('is −∞ at 0, ∞ at ∞ and no number below 0', () => {
    expect(ln(0)).toBe(-Infinity);
    expect(ln(Infinity)).toBe(Infinity);
    expect(ln(-1)).toBeNaN();
    expect(ln(NaN)).toBeNaN();
    expect(ln(Number.MIN_VALUE)).toBeCloseTo(-744.4400719213812, 12);
    expect(ln(Number.MAX_VALUE)).toBeCloseTo(709.782712893384, 12);
  });

  it('takes e^x back to x within 1e-15 of the larger of x and 1', () => {
    fc.assert(
      fc.property(between(-700, 700), (x) => Math.abs(ln(exp(x)) - x) <= 1e-15 * Math.max(1, Math.abs(x))),
    );
  });
});

describe('the power', () => {
  it('is exact for 3^4, 9^1.5, 4^−0.5 and anything^0', () => {
    expect(power(3, 4)).toBe(81);
    expect(power(9, 1.5)).toBe(27);
    expect(power(4, -0.5)).toBe(0.5);
    expect(power(0, 0)).toBe(1);
    expect(power(7.3, 0)).toBe(1);
  });

  it('lies within (1 + |exponent·ln base|)·3e-16 of the engine’s own', () => {
    fc.assert(
      fc.property(real(1e-6, 1e6), between(-6, 6), (base, exponent) => {
        const bound = (1 + Math.abs(exponent * Math.log(base))) * 3e-16;
        return offShare(power(base, exponent), base ** exponent) <= bound;
      }),
      MANY,
    );
  });

  it('of base 0 is 0, 1 or infinity, and of a negative base no number', () => {
    expect(power(0, 1.7)).toBe(0);
    expect(power(0, 2)).toBe(0);
    expect(power(0, -1.7)).toBe(Infinity);
    expect(power(-2, 2)).toBeNaN();
  });
});

describe('portability', () => {
  // ECMA-262 21.3.2 leaves the accuracy of these and of ** to the engine.
  const LEFT_TO_THE_ENGINE =
    /Math\.(a?(sin|cos|tan)h?|atan2|exp|expm1|log|log2|log10|log1p|pow|cbrt|hypot)\b|\*\*/;
  const ROOT = new URL('../../../', import.meta.url);
  const filesIn = (folder: string): readonly string[] =>
    readdirSync(new URL(folder, ROOT), { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.ts'))
      .map((name) => `${folder}/${name}`);
  /** Two to a small whole exponent, which every engine gives whole. */
  const WHOLE = new Set(['sim/board/avr/watchdog.ts', 'sim/board/firmata/bytes.ts']);

  it('ECMA-262 21.3.2: nothing of src and sim asks the engine for a function that it may round in its own way', () => {
    const files = [...filesIn('src'), ...filesIn('sim')];
    expect(files.length).toBeGreaterThan(100);
    const asking = files.filter((file) => {
      const text = readFileSync(new URL(file, ROOT), 'utf8');
      return LEFT_TO_THE_ENGINE.test(text.replace(/\/\*[\s\S]*?\*\//g, '').replace(/\/\/.*$/gm, ''));
    });
    expect(new Set(asking)).toEqual(WHOLE);
  });
});
