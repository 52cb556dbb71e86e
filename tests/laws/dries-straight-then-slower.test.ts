import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { BenchToday } from '../../sim/plant/bench.ts';
import { heldShares } from '../../sim/plant/plant.ts';
import { waterStep } from '../../sim/plant/water.ts';
import { uptakeLitresPerMinute } from '../../src/physics/uptake.ts';
import { vapourDeficitKilopascals } from '../../src/physics/vapour.ts';
import { anyBenchToday } from '../support/bench-today.ts';
import { between } from '../support/between.ts';
import {
  air,
  anyBench,
  anyJudgements,
  MINUTE,
  plantBuild,
  rested,
  START,
  steadySky,
} from '../support/plant.ts';

/** Law 5 of the model, written from v' = −Ep·min(1, θ/θc): straight to θc·cap, then e-folding in θc·cap/Ep. */
const closedForm = (start: number, stress: number, uptake: number, minutes: number): number => {
  const crossing = Math.max(0, (start - stress) / uptake);
  if (minutes <= crossing) return start - uptake * minutes;
  return Math.min(start, stress) * Math.exp((-uptake * (minutes - crossing)) / stress);
};

const heldIn = (today: BenchToday, start: number, uptake: number, minutes: number, steps: number): number => {
  let held = start;
  for (let step = 0; step < steps; step += 1) {
    held = waterStep(today, 0, held, 0, uptake, minutes / steps).heldLitres;
  }
  return held;
};

const anyDryDown = fc.record({
  today: anyBenchToday,
  theta: between(0.05, 1),
  uptake: between(0.001, 1),
  minutes: between(0.1, 600),
  steps: fc.integer({ min: 1, max: 60 }),
});

describe('held water that is not refilled', () => {
  it('falls by Ep a minute to θc·cap and then by e^(−Ep·t/(θc·cap)), the same in 1 step or in 60', () => {
    fc.assert(
      fc.property(anyDryDown, ({ today, theta, uptake, minutes, steps }) => {
        const start = theta * today.capacityLitres;
        const exact = closedForm(start, today.stressLitres, uptake, minutes);
        // 60 sums of litres below cap: 60 roundings of 1.1e-16 and those of e^x.
        return Math.abs(heldIn(today, start, uptake, minutes, steps) - exact) <= 1e-13 * today.capacityLitres;
      }),
      { numRuns: 2000 },
    );
  });

  it('is at θc·cap after (v0 − θc·cap)/Ep minutes, to 1e-12 of cap', () => {
    fc.assert(
      fc.property(anyBenchToday, between(0.001, 1), (today, uptake) => {
        const crossing = (today.capacityLitres - today.stressLitres) / uptake;
        const there = heldIn(today, today.capacityLitres, uptake, crossing, 7);
        const wetter = heldIn(today, today.capacityLitres, uptake, crossing * 0.99, 7);
        expect(Math.abs(there - today.stressLitres)).toBeLessThanOrEqual(1e-12 * today.capacityLitres);
        expect(wetter).toBeGreaterThan(today.stressLitres);
      }),
    );
  });

  it('reaches θc on a drained bench under a steady sky when the crop’s own uptake says so', () => {
    const anyCase = fc.record({
      // A bare cup loses water of its own besides.
      bench: anyBench.map((bench) => ({ ...bench, startedInPlace: false })),
      judgements: anyJudgements,
      celsius: between(10, 40),
      sun: between(0, 900),
    });
    fc.assert(
      fc.property(anyCase, ({ bench, judgements, celsius, sun }) => {
        const now = air(celsius, 0.6, sun);
        const plant = rested(plantBuild([bench], {}, judgements), steadySky(now));
        const [today] = plant.today();
        const uptake = uptakeLitresPerMinute(today!.canopy, sun, vapourDeficitKilopascals(celsius, 0.6));
        const crossing = (today!.capacityLitres - today!.stressLitres) / uptake;
        fc.pre(crossing < 5 * 60); // the crop grows after six hours
        plant.advance(START + Math.floor(crossing * MINUTE));
        const theta = heldShares(plant)[0]!;
        // Less than a millisecond short of the crossing.
        expect(theta - judgements.stressTheta).toBeGreaterThanOrEqual(-1e-12);
        expect(theta - judgements.stressTheta).toBeLessThanOrEqual(
          uptake / MINUTE / today!.capacityLitres + 1e-12,
        );
      }),
      { numRuns: 60 },
    );
  });
});
