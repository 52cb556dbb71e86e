import type { PlantState } from '../plant/state.ts';

/** Everything that is or was in the loop, less what was given to it: never changes, whatever the plant does. */
export interface Account {
  readonly litres: number;
  /** Strength times volume, mS/cm·L. */
  readonly salts: number;
}

export const accountOf = ({ tank, benches }: PlantState): Account => ({
  litres: benches.reduce(
    (sum, bench) =>
      sum +
      bench.drainableLitres +
      bench.heldLitres +
      bench.drunkLitres +
      bench.evaporatedLitres +
      bench.harvestedLitres,
    tank.litres + tank.overflowedLitres + tank.leakedLitres - tank.toppedUpLitres,
  ),
  salts: benches.reduce(
    (sum, bench) => sum + bench.salts + bench.saltsTakenUp + bench.harvestedSalts,
    tank.salts + tank.saltsLost,
  ),
});
