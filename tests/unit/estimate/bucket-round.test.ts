import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { BenchFacts } from '../../../src/estimate/bench-facts.ts';
import { DRAIN_MINUTES, dried, dryEdgeLossPerMinute, wettedDryEdge } from '../../../src/estimate/belief.ts';
import { bucketRounds } from '../../../src/estimate/bucket-round.ts';
import { between } from '../../support/between.ts';
import { exampleFarm, farmWith } from '../../support/farm.ts';

const FARM = exampleFarm;
const facts = (litresPerMillimetre: number, planted = true): readonly BenchFacts[] =>
  FARM.benches.map(({ name }, place) => ({
    name,
    planted,
    ageDays: 40,
    capacityLitres: 22,
    litresPerMillimetre: litresPerMillimetre + place,
  }));

/** The lowest θ on the dry edge through many pours, counted here step by step. */
const lowest = (known: BenchFacts, millimetresPerHour: number, everyMinutes: number): number => {
  let [theta, low] = [1, 1];
  for (let pour = 0; pour < 200; pour += 1) {
    theta = dried(theta, dryEdgeLossPerMinute(known, millimetresPerHour), FARM.floors.stress, everyMinutes);
    low = Math.min(low, theta);
    theta = wettedDryEdge(theta, DRAIN_MINUTES);
  }
  return low;
};

describe('bucketRounds', () => {
  it('keeps the dry edge above the wilt floor for 200 pours, and five minutes more between them would not', () => {
    fc.assert(
      fc.property(between(3, 40), between(0.05, 1), (litresPerMillimetre, uptake) => {
        const known = facts(litresPerMillimetre);
        for (const { bench, everyMinutes } of bucketRounds(FARM, known, uptake)) {
          const of = known.find(({ name }) => name === bench)!;
          if (everyMinutes === null) {
            expect(lowest(of, uptake, 5)).toBeLessThan(FARM.floors.wilt);
            continue;
          }
          expect(lowest(of, uptake, everyMinutes)).toBeGreaterThanOrEqual(FARM.floors.wilt);
          if (everyMinutes < 240) expect(lowest(of, uptake, everyMinutes + 5)).toBeLessThan(FARM.floors.wilt);
        }
      }),
      { numRuns: 40 },
    );
  });

  it('never lets water stand for more than 240 min, though nothing is drunk', () => {
    expect(bucketRounds(FARM, facts(0), 0).map(({ everyMinutes }) => everyMinutes)).toEqual([
      240, 240, 240, 240,
    ]);
  });

  it('says null where a pour every 5 min is not enough', () => {
    expect(bucketRounds(FARM, facts(400), 1)[0]!.everyMinutes).toBeNull();
  });

  it('puts the bench that dries first at the top, and leaves benches without plants out', () => {
    expect(bucketRounds(FARM, facts(5), 0.7).map(({ bench }) => bench)).toEqual(
      FARM.benches.map(({ name }) => name).toReversed(),
    );
    expect(bucketRounds(FARM, facts(5, false), 0.7)).toEqual([]);
  });

  it('pours what a flood leaves standing in a channel, to the next half litre', () => {
    // 12 channels of 6 m at 10 L/min: (10/0.0395)^(2/3) = 40.0 L, 3.33 L a channel.
    const farm = farmWith([['benches', 0, 'litresPerMinute'], 10]);
    const known = facts(5);
    const round = bucketRounds(farm, known, 0.7).find(({ bench }) => bench === farm.benches[0]!.name)!;
    expect(round.litresPerChannel).toBe(3.5);
  });
});
