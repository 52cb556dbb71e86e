import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { waterStep } from '../../sim/plant/water.ts';
import { anySizedBench, LETTUCE_TODAY } from '../support/bench-today.ts';
import { between } from '../support/between.ts';
import {
  air,
  anyBench,
  anyFloods,
  anyJudgements,
  DAY_MINUTES,
  flooded,
  plantBuild,
  rested,
  steadySky,
} from '../support/plant.ts';

// Law 4 of the model. Saturated air in the dark: nothing is drunk.
const NOTHING_DRUNK = steadySky(air(20, 2.4, 0));

/** x and v after `minutes` of pumping without uptake, in steps of a tenth of a minute. */
const pumped = (
  today: typeof LETTUCE_TODAY,
  theta: number,
  inflow: number,
  minutes: number,
): { readonly x: number; readonly theta: number } => {
  let x = 0;
  let held = theta * today.capacityLitres;
  for (let at = 0; at < minutes; at += 0.1) {
    const water = waterStep(today, x, held, inflow, 0, 0.1);
    x = water.drainableLitres;
    held = water.heldLitres;
  }
  return { x, theta: held / today.capacityLitres };
};

describe('a crop that drinks nothing', () => {
  it('never loses held water over a day of floods, on 1 to 3 benches', () => {
    const anyCase = fc.record({
      benches: fc.array(anyBench, { minLength: 1, maxLength: 3 }),
      judgements: anyJudgements,
      floods: anyFloods,
      theta: between(0, 1),
    });
    fc.assert(
      fc.property(anyCase, ({ benches, judgements, floods, theta }) => {
        const plant = rested(plantBuild(benches, {}, judgements), NOTHING_DRUNK, { tankLitres: 3000 });
        for (const bench of plant.state.benches) bench.heldLitres *= theta;
        let before = plant.state.benches.map((bench) => bench.heldLitres);
        let fell = 0;
        flooded(plant, floods, DAY_MINUTES, ({ benches: states }) => {
          // Adding a refill of 0 over and over costs no bit; 1e-15 allows the rounding of a sum near cap.
          fell += states.filter((bench, place) => bench.heldLitres < before[place]! * (1 - 1e-15)).length;
          before = states.map((bench) => bench.heldLitres);
        });
        return fell === 0;
      }),
      { numRuns: 100 },
    );
  });

  it('is full to 1e-3 of θ after a flood of 6 h, however dry it was', () => {
    // The slowest of the ranges, kr 0.05 a minute and 6 L/min that stand at 15 L over Vw 10 L, leaves
    // e^(−0.05 · 0.6 · 360) = 2e-5 of the gap; large roots take the first half hour of such a flow for themselves.
    fc.assert(
      fc.property(anySizedBench, between(0, 1), between(6, 15), ({ today, size }, theta, inflow) => {
        const late = pumped(today, theta, inflow * size, 360);
        return late.theta > 0.999 && late.theta <= 1 + 1e-12;
      }),
      { numRuns: 60 },
    );
  });

  it('stands at (q/k)^(1/1.5) when full: 40.0 L at 10 L/min and k 0.0395', () => {
    const late = pumped(LETTUCE_TODAY, 1, 10, 180);
    expect(late.x).toBeCloseTo((10 / 0.0395) ** (1 / 1.5), 6);
    expect(late.x).toBeCloseTo(40.0, 1);
  });

  it('stands below that while it refills, by the share of the inflow that the roots take', () => {
    fc.assert(
      fc.property(anySizedBench, between(0, 0.8), between(6, 15), ({ today, size }, theta, inflow) => {
        const steady = ((inflow * size) / today.drainCoefficient) ** (1 / today.drainExponent);
        const filling = pumped(today, theta, inflow * size, 40);
        const late = pumped(today, 1, inflow * size, 240);
        return filling.x < steady && Math.abs(late.x / steady - 1) < 1e-6;
      }),
      { numRuns: 30 },
    );
  });
});
