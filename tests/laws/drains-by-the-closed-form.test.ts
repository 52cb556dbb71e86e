import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { BenchToday } from '../../sim/plant/bench.ts';
import { stepMinutesMax } from '../../sim/plant/step-length.ts';
import { waterStep } from '../../sim/plant/water.ts';
import { anyBenchToday, LETTUCE_TODAY } from '../support/bench-today.ts';
import { between } from '../support/between.ts';

/** x after `minutes` in `steps` equal steps with the pump off and nothing refilled. */
const drained = (bench: BenchToday, start: number, minutes: number, steps: number): number => {
  const today = { ...bench, refillPerMinute: 0 };
  let x = start;
  for (let step = 0; step < steps; step += 1) {
    x = waterStep(today, x, 0, 0, 0, minutes / steps).drainableLitres;
  }
  return x;
};

/** Law 3 of the model: x' = −k·x^1.5 has x = x0/(1 + k·√x0·t/2)². */
const closedForm = (k: number, start: number, minutes: number): number =>
  start / (1 + (k * Math.sqrt(start) * minutes) / 2) ** 2;

/** Any bench with 1–60 L on each 72 m of its channels. */
const anyDrain = fc
  .record({ bench: anyBenchToday, perUsualLitres: between(1, 60), minutes: between(1, 30) })
  .map(({ bench, perUsualLitres, minutes }) => ({
    bench,
    start: (perUsualLitres * bench.pipeLitres) / LETTUCE_TODAY.pipeLitres,
    minutes,
  }));

describe('a bench that only drains', () => {
  it('half of 40 L is gone in 3.3 min at k 0.0395', () => {
    // (√2 − 1)·2/(k·√40) = 3.316 min
    expect(drained(LETTUCE_TODAY, 40, 3.316, 1000)).toBeCloseTo(20, 3);
  });

  it('follows x0/(1 + k·√x0·t/2)² within 1e-6 in 4000 steps', () => {
    fc.assert(
      fc.property(anyDrain, ({ bench, start, minutes }) => {
        const share =
          drained(bench, start, minutes, 4000) / closedForm(bench.drainCoefficient, start, minutes);
        return Math.abs(share - 1) <= 1e-6;
      }),
      { numRuns: 50 },
    );
  });

  it('is second order: 200 steps err 3.8 to 4.2 times as much as 400', () => {
    fc.assert(
      fc.property(anyDrain, ({ bench, start, minutes }) => {
        const exact = closedForm(bench.drainCoefficient, start, minutes);
        const error = (steps: number): number => drained(bench, start, minutes, steps) - exact;
        const ratio = error(200) / error(400);
        return ratio > 3.8 && ratio < 4.2;
      }),
      { numRuns: 50 },
    );
  });

  it('in the plant’s own steps falls short of the closed form by less than 1 % of what stood', () => {
    // Coarse on purpose; the model asks no more.
    fc.assert(
      fc.property(anyDrain, ({ bench: today, start }) => {
        const bench = { ...today, refillPerMinute: 0 };
        let x = start;
        let worst = 0;
        for (let at = 0; at < 30;) {
          const minutes = stepMinutesMax('resting', at);
          x = waterStep(bench, x, 0, 0, 0, minutes).drainableLitres;
          at += minutes;
          worst = Math.max(worst, Math.abs(x - closedForm(bench.drainCoefficient, start, at)) / start);
        }
        return worst < 0.01;
      }),
    );
  });
});
