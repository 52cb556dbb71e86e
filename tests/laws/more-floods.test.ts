import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CENTRAL, type Judgements } from '../../sim/plant/judgements.ts';
import { between } from '../support/between.ts';
import { lowestThetas } from '../support/lowest-theta.ts';
import {
  anyBench,
  anyDay,
  anyFloods,
  anyJudgements,
  daySky,
  evenFloods,
  HOT_DAY,
  LETTUCE,
  plantBuild,
  rested,
  type BenchFacts,
  type DayFacts,
  type Flood,
} from '../support/plant.ts';

interface Case {
  readonly benches: readonly BenchFacts[];
  readonly judgements: Judgements;
  readonly day: DayFacts;
  /** θ at the start of the day. */
  readonly theta: number;
}

/** Lowest θ of each bench over a day with these floods, from a tank that does not run dry. */
const lowestOf = (given: Case, floods: readonly Flood[]): readonly number[] => {
  const build = plantBuild(given.benches, {}, given.judgements);
  const plant = rested(build, daySky(given.day), { tankLitres: 20_000 });
  for (const bench of plant.state.benches) bench.heldLitres *= given.theta;
  return lowestThetas(plant, floods);
};

// Law 7 of the model, with its 1e-5 for a stepper whose steps move with the floods.
const SLACK = 1e-5;

const noneLower = (wetter: readonly number[], drier: readonly number[]): boolean =>
  wetter.every((theta, place) => theta >= drier[place]! - SLACK);

const anyCase = fc.record({
  benches: fc.array(anyBench, { minLength: 1, maxLength: 2 }),
  judgements: anyJudgements,
  day: anyDay,
  theta: between(0.2, 1),
});

describe('on the hot day of the model', () => {
  it('one flood of 20 min in the heat is worth more than 0.1 of θ, so the law is no idle one', () => {
    const given: Case = { benches: [LETTUCE], judgements: CENTRAL, day: HOT_DAY, theta: 1 };
    const floods = evenFloods(30, 45, 20);
    const missed = floods.filter((flood) => flood.from < 12 * 60 || flood.from >= 12 * 60 + 45);
    expect(missed).toHaveLength(29);
    expect(lowestOf(given, floods)[0]! - lowestOf(given, missed)[0]!).toBeGreaterThan(0.1);
  });
});

describe('on a day of 2 to 40 floods', () => {
  const anyPlan = anyFloods.filter((floods) => floods.length > 1);

  it('one flood more never lowers the lowest θ of any bench', () => {
    fc.assert(
      fc.property(anyCase, anyPlan, fc.nat(), (given, floods, pick) => {
        const fewer = floods.filter((_, place) => place !== pick % floods.length);
        return noneLower(lowestOf(given, floods), lowestOf(given, fewer));
      }),
      { numRuns: 150 },
    );
  });

  it('a flood of 2 to 98 % of its length never leaves more', () => {
    const anyCut = between(0.02, 0.98);
    fc.assert(
      fc.property(anyCase, anyPlan, fc.nat(), anyCut, (given, floods, pick, cut) => {
        const shorter = floods.map((flood, place) =>
          place === pick % floods.length ? { ...flood, minutes: flood.minutes * cut } : flood,
        );
        return noneLower(lowestOf(given, floods), lowestOf(given, shorter));
      }),
      { numRuns: 150 },
    );
  });
});
