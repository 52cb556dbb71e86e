import { describe, expect, it } from 'vitest';
import { PLANTED } from '../../sim/campaign/planted.ts';
import { seedRun } from '../../sim/campaign/seed.ts';
import { seededDice } from '../../sim/dice.ts';
import { judged } from '../../sim/oracle/judge.ts';

const SEEDS = 500;
/** A bug shows itself in so many of the seeds and sleeps in the others. */
const SHOWN_SHARE = 0.04;
const INVARIANTS = Array.from({ length: 13 }, (_, place) => `I${place + 1}`);

const showsIn = (bug: number): readonly number[] =>
  Array.from({ length: SEEDS }, (_, place) => place + 1).filter(
    (seed) => seededDice(10_007 * (bug + 1) + seed)() < SHOWN_SHARE,
  );

describe('bugs that are planted', () => {
  it('are two against each of the 13 invariants at least', () => {
    for (const invariant of INVARIANTS) {
      expect(PLANTED.filter((bug) => bug.invariant === invariant).length).toBeGreaterThanOrEqual(2);
    }
  });

  it.each(PLANTED.map((bug, place) => ({ ...bug, place })))(
    '$invariant: $says, in fewer than 5 % of 500 seeds, is caught',
    { timeout: 120_000 },
    ({ place, invariant, needs, boardKind, make }) => {
      const seeds = showsIn(place);
      expect(seeds.length).toBeGreaterThan(0);
      expect(seeds.length).toBeLessThan(0.05 * SEEDS);
      const caught = seeds.some((seed) => {
        const asked = {
          seed,
          days: 3,
          ...(needs === undefined ? {} : { pair: [needs] }),
          ...(boardKind === undefined ? {} : { boardKind }),
        };
        const { record, hash } = seedRun({ ...asked, tampering: make() });
        if (invariant === 'I12') return seedRun({ ...asked, tampering: make() }).hash !== hash;
        return judged(record).some((breach) => breach.invariant === invariant);
      });
      expect(caught).toBe(true);
    },
  );
});
