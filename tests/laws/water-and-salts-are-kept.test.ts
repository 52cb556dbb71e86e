import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { accountOf } from '../../sim/oracle/account.ts';
import type { PlantState } from '../../sim/plant/state.ts';
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
  type Drawn,
} from '../support/plant.ts';

const anyTank = fc.record({
  startLitres: between(80, 2000),
  brimAboveLitres: between(0, 100),
  valveBelowBrimLitres: between(0, 150),
  valveLitresPerMinute: between(0.5, 20),
  leakLitresPerMinute: fc.constantFrom(0, 0, 0.2, 3),
  returnShare: fc.constantFrom(1, 1, 0.3, 0),
});

const anyCase = fc.record({
  benches: fc.array(anyBench, { minLength: 1, maxLength: 4 }),
  judgements: anyJudgements,
  day: anyDay,
  floods: anyFloods,
  tank: anyTank,
});

// Law 1 of the model. 1e-11 of the whole leaves room for some ten thousand roundings of 1.1e-16 each.
const SHARE = 1e-11;

interface Found {
  readonly water: number;
  readonly salts: number;
  readonly end: PlantState;
}

const worstShares = ({ benches, judgements, day, floods, tank }: Drawn<typeof anyCase>): Found => {
  const brimLitres = tank.startLitres + tank.brimAboveLitres;
  const build = plantBuild(
    benches,
    {
      brimLitres,
      topUp: {
        kind: 'float-valve',
        closesAtLitres: brimLitres - tank.valveBelowBrimLitres,
        litresPerMinute: tank.valveLitresPerMinute,
      },
    },
    judgements,
  );
  const plant = rested(build, daySky(day), { tankLitres: tank.startLitres });
  plant.state.faults.leakLitresPerMinute = tank.leakLitresPerMinute;
  plant.state.faults.returnShare = tank.returnShare;
  const before = accountOf(plant.state);
  const worst = { water: 0, salts: 0 };
  flooded(plant, floods, DAY_MINUTES, (state) => {
    const now = accountOf(state);
    worst.water = Math.max(worst.water, Math.abs(now.litres / before.litres - 1));
    worst.salts = Math.max(worst.salts, Math.abs(now.salts / before.salts - 1));
  });
  return { ...worst, end: plant.state };
};

describe('over a day of floods with a float valve, leaks, blocked returns and an overflowing tank', () => {
  it('1 to 4 benches keep their water to 1e-11 and their salts to 1e-11 at every step', () => {
    const seen = { overflowed: 0, leaked: 0, toppedUp: 0 };
    fc.assert(
      fc.property(anyCase, (given) => {
        const found = worstShares(given);
        seen.overflowed = Math.max(seen.overflowed, found.end.tank.overflowedLitres);
        seen.leaked = Math.max(seen.leaked, found.end.tank.leakedLitres);
        seen.toppedUp = Math.max(seen.toppedUp, found.end.tank.toppedUpLitres);
        return found.water <= SHARE && found.salts <= SHARE;
      }),
      { numRuns: 120 },
    );
    // The cases were not idle: each way in and out of the tank moved litres in some of them.
    expect(Math.min(seen.overflowed, seen.leaked, seen.toppedUp)).toBeGreaterThan(10);
  });
});
