import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { BenchToday } from '../../sim/plant/bench.ts';
import { drainCoefficientOf, drainMinutes, type DrainExponent } from '../../sim/plant/drain.ts';
import { stepMinutesMax } from '../../sim/plant/step-length.ts';
import { waterStep } from '../../sim/plant/water.ts';
import { anySizedBench, LETTUCE_TODAY } from '../support/bench-today.ts';
import { between } from '../support/between.ts';

/** x after `minutes` in `steps` equal steps with nothing refilled. */
const drained = (bench: BenchToday, start: number, minutes: number, steps: number, inflow = 0): number => {
  const today = { ...bench, refillPerMinute: 0 };
  let x = start;
  for (let step = 0; step < steps; step += 1) {
    x = waterStep(today, x, 0, inflow, 0, minutes / steps).drainableLitres;
  }
  return x;
};

/** Law 3 of the model: what x' = −k·x^m leaves of x0. */
const CLOSED_FORMS: Readonly<Record<DrainExponent, (k: number, start: number, minutes: number) => number>> = {
  1: (k, start, minutes) => start * Math.exp(-k * minutes),
  1.5: (k, start, minutes) => start / (1 + (k * Math.sqrt(start) * minutes) / 2) ** 2,
  2: (k, start, minutes) => start / (1 + k * start * minutes),
};

const closedForm = (bench: BenchToday, start: number, minutes: number): number =>
  CLOSED_FORMS[bench.drainExponent](bench.drainCoefficient, start, minutes);

/** The usual bench with another law, all else equal. */
const lettuceBy = (exponent: DrainExponent): BenchToday => ({
  ...LETTUCE_TODAY,
  drainExponent: exponent,
  drainCoefficient: drainCoefficientOf(exponent, LETTUCE_TODAY.drainCoefficient, 1),
});

/** Any bench that drains by one of the laws, with 1–60 L on each 72 m of its channels. */
const anyDrain = (exponent: DrainExponent) =>
  fc
    .record({
      bench: anySizedBench.filter(({ today }) => today.drainExponent === exponent),
      perUsualLitres: between(1, 60),
      minutes: between(1, 30),
    })
    .map(({ bench: { today, size }, perUsualLitres, minutes }) => ({
      bench: today,
      size,
      start: perUsualLitres * size,
      minutes,
    }));

describe('a bench that only drains', () => {
  it('half of 40 L is gone in 3.3 min at k 0.0395', () => {
    // (√2 − 1)·2/(k·√40) = 3.316 min
    expect(drained(LETTUCE_TODAY, 40, 3.316, 1000)).toBeCloseTo(20, 3);
  });

  it('of 20 L lets out 3.53 L/min by any of the three laws, of 5 L the less the higher m', () => {
    const rates = (litres: number): readonly number[] =>
      ([1, 1.5, 2] as const).map((exponent) => {
        const { drainCoefficient: k } = lettuceBy(exponent);
        return k * litres ** exponent;
      });
    for (const rate of rates(20)) expect(rate).toBeCloseTo(0.0395 * 20 ** 1.5, 12);
    expect(rates(20)[0]).toBeCloseTo(3.533, 3);
    // A quarter of the water: a quarter, an eighth and a sixteenth of the flow.
    expect(rates(5).map((rate) => 3.533 / rate)).toEqual(
      [4, 8, 16].map((n) => expect.closeTo(n, 2) as number),
    );
  });
});

describe.each([1, 1.5, 2] as const)('a bench that only drains by m %d', (exponent) => {
  it('follows the closed form within 1e-6 in 4000 steps', () => {
    fc.assert(
      fc.property(anyDrain(exponent), ({ bench, start, minutes }) => {
        const share = drained(bench, start, minutes, 4000) / closedForm(bench, start, minutes);
        return Math.abs(share - 1) <= 1e-6;
      }),
      { numRuns: 30 },
    );
  });

  it('takes to come to any lower water what the closed form says', () => {
    fc.assert(
      fc.property(anyDrain(exponent), ({ bench, start, minutes }) => {
        const after = drainMinutes(bench, start)(closedForm(bench, start, minutes));
        return Math.abs(after / minutes - 1) < 1e-9;
      }),
    );
  });

  it('in the plant’s own steps falls short of the closed form by less than 1 % of what stood', () => {
    // Coarse on purpose; the model asks no more.
    fc.assert(
      fc.property(anyDrain(exponent), ({ bench: today, start }) => {
        const bench = { ...today, refillPerMinute: 0 };
        let x = start;
        let worst = 0;
        for (let at = 0; at < 30;) {
          const minutes = stepMinutesMax('resting', at);
          x = waterStep(bench, x, 0, 0, 0, minutes).drainableLitres;
          at += minutes;
          worst = Math.max(worst, Math.abs(x - closedForm(bench, start, at)) / start);
        }
        return worst < 0.01;
      }),
    );
  });

  it('with the pump on comes to stand at (q/k)^(1/m)', () => {
    fc.assert(
      fc.property(anyDrain(exponent), between(6, 15), ({ bench, size, start }, flow) => {
        const inflow = flow * size;
        const steady = (inflow / bench.drainCoefficient) ** (1 / exponent);
        return Math.abs(drained(bench, start, 600, 6000, inflow) / steady - 1) < 1e-9;
      }),
      { numRuns: 20 },
    );
  });
});

/** Errors of 200 steps against 400. */
const errorRatio = (
  bench: BenchToday,
  start: number,
  minutes: number,
  inflow: number,
  exact: number,
): number =>
  (drained(bench, start, minutes, 200, inflow) - exact) /
  (drained(bench, start, minutes, 400, inflow) - exact);

describe('the order of the steps', () => {
  it.each([1.5, 2] as const)(
    'is the second by m %d: 200 steps err 3.8 to 4.2 times as much as 400',
    (exponent) => {
      fc.assert(
        fc.property(anyDrain(exponent), ({ bench, start, minutes }) => {
          const ratio = errorRatio(bench, start, minutes, 0, closedForm(bench, start, minutes));
          return ratio > 3.8 && ratio < 4.2;
        }),
        { numRuns: 50 },
      );
    },
  );

  it('is not asked by m 1, where one step of half an hour is exact to 1e-12, be the pump on or off', () => {
    fc.assert(
      fc.property(anyDrain(1), between(0, 15), ({ bench, size, start, minutes }, flow) => {
        const k = bench.drainCoefficient;
        const steady = (flow * size) / k;
        const exact = steady + (start - steady) * Math.exp(-k * minutes);
        return Math.abs(drained(bench, start, minutes, 1, flow * size) / exact - 1) < 1e-12;
      }),
    );
  });
});
