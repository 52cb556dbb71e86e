import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { PlantBuild } from '../../sim/plant/build.ts';
import { heldShares } from '../../sim/plant/plant.ts';
import {
  anyBench,
  anyDay,
  anyFloods,
  anyJudgements,
  DAY_MINUTES,
  daySky,
  flooded,
  plantBuild,
  rested,
  type DayFacts,
  type Flood,
} from '../support/plant.ts';

/** The crop as it stands, for a day: law 8 speaks of one capacity. */
const unchanging = (build: PlantBuild): PlantBuild => ({
  ...build,
  benches: build.benches.map((bench) => ({ ...bench, growthPerDay: 0 })),
});

const lowestTheta = (build: PlantBuild, day: DayFacts, floods: readonly Flood[], theta: number): number => {
  const plant = rested(build, daySky(day), { tankLitres: 20_000 });
  for (const bench of plant.state.benches) bench.heldLitres *= theta;
  let lowest = 1;
  flooded(plant, floods, DAY_MINUTES, () => {
    lowest = Math.min(lowest, heldShares(plant)[0]!);
  });
  return lowest;
};

describe('a bench that holds up to 60 % more, from the same θ', () => {
  // Law 8 of the model, with the 1e-5 that law 7 allows a stepper. It speaks of cap alone: a crop that grows and
  // drinks nothing can break it by a few 1e-6, since its new room is filled from the last film of a flood.
  it('has no lower lowest θ over a day of floods', () => {
    const anyCase = fc.record({
      bench: anyBench,
      judgements: anyJudgements,
      day: anyDay,
      floods: anyFloods,
      theta: fc.double({ min: 0.2, max: 1, noNaN: true }),
      factor: fc.double({ min: 1, max: 1.6, noNaN: true }),
    });
    fc.assert(
      fc.property(anyCase, ({ bench, judgements, day, floods, theta, factor }) => {
        const more = { ...judgements, capacityFactor: judgements.capacityFactor * factor };
        const usual = lowestTheta(unchanging(plantBuild([bench], {}, judgements)), day, floods, theta);
        const larger = lowestTheta(unchanging(plantBuild([bench], {}, more)), day, floods, theta);
        return larger >= usual - 1e-5;
      }),
      { numRuns: 200 },
    );
  });
});

describe('the order of the benches', () => {
  const anyShed = fc.record({ judgements: anyJudgements, day: anyDay, floods: anyFloods });

  it('means nothing to identical benches: 4 of them end alike in every bit', () => {
    fc.assert(
      fc.property(anyShed, anyBench, ({ judgements, day, floods }, bench) => {
        const plant = rested(plantBuild([bench, bench, bench, bench], {}, judgements), daySky(day));
        flooded(plant, floods, DAY_MINUTES);
        for (const other of plant.state.benches) expect(other).toEqual(plant.state.benches[0]);
      }),
      { numRuns: 40 },
    );
  });

  it('turned round turns the results round, to 1e-9 of each', () => {
    // Sums over benches are rounded in another order; a day of them stays far below 1e-9.
    const near = (a: number, b: number): boolean => Math.abs(a - b) <= 1e-9 * Math.max(1, Math.abs(b));
    fc.assert(
      fc.property(
        anyShed,
        fc.array(anyBench, { minLength: 2, maxLength: 4 }),
        ({ judgements, day, floods }, benches) => {
          const forward = rested(plantBuild(benches, {}, judgements), daySky(day));
          const backward = rested(plantBuild(benches.toReversed(), {}, judgements), daySky(day));
          flooded(forward, floods, DAY_MINUTES);
          flooded(backward, floods, DAY_MINUTES);
          return forward.state.benches.every((bench, place) => {
            const twin = backward.state.benches[benches.length - 1 - place]!;
            return (
              near(bench.heldLitres, twin.heldLitres) &&
              near(bench.drainableLitres, twin.drainableLitres) &&
              near(bench.waterCelsius, twin.waterCelsius) &&
              near(bench.salts, twin.salts)
            );
          });
        },
      ),
      { numRuns: 60 },
    );
  });
});
