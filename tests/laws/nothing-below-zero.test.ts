import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { benchToday } from '../../sim/plant/bench.ts';
import { saltStep } from '../../sim/plant/salts.ts';
import { waterStep } from '../../sim/plant/water.ts';
import { between } from '../support/between.ts';
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
  START,
} from '../support/plant.ts';

// Law 2 of the model. v may pass cap, and a difference may miss 0, by a few roundings of 1.1e-16 each.
const ROUNDING = 1e-14;

/** Also next to nothing, where a difference may be lost in rounding. */
const share = fc.oneof(between(0, 1), fc.double({ min: 0, max: 1, noNaN: true }));

describe('one step of any length up to 30 min', () => {
  const anyStep = fc.record({
    bench: anyBench,
    judgements: anyJudgements,
    theta: share,
    drainableLitres: fc.oneof(between(0, 400), fc.double({ min: 0, max: 400, noNaN: true })),
    inflow: fc.oneof(fc.constant(0), between(0, 60)),
    uptake: fc.oneof(fc.constant(0), between(0, 3)),
    minutes: between(0.001, 30),
    strength: between(0, 5),
  });

  it('leaves x, v and salts at 0 or above, v at cap or below, and gives nothing back below 0', () => {
    fc.assert(
      fc.property(anyStep, (given) => {
        const build = plantBuild([given.bench], {}, given.judgements);
        const today = benchToday(build.benches[0]!, build.judgements, START);
        const held = given.theta * today.capacityLitres;
        const { drainableLitres, inflow, uptake, minutes, strength } = given;
        const water = waterStep(today, drainableLitres, held, inflow, uptake, minutes);
        const litres = drainableLitres + held;
        const salts = saltStep(
          litres * strength,
          today,
          { litres },
          water,
          water.lostLitres,
          inflow * strength,
          minutes,
        );
        const moved = drainableLitres + held + inflow * minutes;
        expect(water.drainableLitres).toBeGreaterThanOrEqual(0);
        expect(water.heldLitres).toBeGreaterThanOrEqual(0);
        expect(water.heldLitres).toBeLessThanOrEqual(today.capacityLitres * (1 + ROUNDING));
        expect(water.drainedLitres).toBeGreaterThanOrEqual(-ROUNDING * Math.max(1, moved));
        expect(water.lostLitres).toBeGreaterThanOrEqual(-ROUNDING * Math.max(1, moved));
        expect(salts.salts).toBeGreaterThanOrEqual(0);
        expect(salts.returned).toBeGreaterThanOrEqual(-ROUNDING * Math.max(1, moved * strength));
        expect(salts.takenUp).toBeGreaterThanOrEqual(-ROUNDING * Math.max(1, moved * strength));
      }),
      { numRuns: 3000 },
    );
  });
});

describe('a day of any floods under any weather', () => {
  const anyCase = fc.record({
    benches: fc.array(anyBench, { minLength: 1, maxLength: 3 }),
    judgements: anyJudgements,
    day: anyDay,
    floods: anyFloods,
    tankLitres: between(0, 800),
  });

  it('never takes x, v, salts or the tank below 0 nor v above cap, be the tank of 0–800 L dry or not', () => {
    let ranDry = 0;
    fc.assert(
      fc.property(anyCase, ({ benches, judgements, day, floods, tankLitres }) => {
        const plant = rested(plantBuild(benches, {}, judgements), daySky(day), { tankLitres });
        let sound = true;
        flooded(plant, floods, DAY_MINUTES, ({ benches: states, tank, pumpOn, pumpedLitresPerMinute }) => {
          if (pumpOn && pumpedLitresPerMinute === 0) ranDry += 1;
          sound &&= tank.litres >= 0 && tank.salts >= 0;
          states.forEach((bench, place) => {
            const cap = plant.today()[place]!.capacityLitres;
            sound &&= bench.drainableLitres >= 0 && bench.heldLitres >= 0 && bench.salts >= 0;
            sound &&= bench.heldLitres <= cap * (1 + ROUNDING);
          });
        });
        return sound;
      }),
      { numRuns: 120 },
    );
    expect(ranDry).toBeGreaterThan(100);
  });
});
