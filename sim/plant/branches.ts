import { splitFlows } from '../../src/physics/pump-split.ts';
import type { PlantBuild } from './build.ts';

/**
 * L/min into each bench with the pump on. `branchShares`: of its flow at the same head, what each branch still lets
 * through. A branch that clogs has more resistance, and one that is blocked is not there: the pump gives what they do
 * not take to the others, as far as its curve goes.
 */
export const flowsThrough = (build: PlantBuild, branchShares: readonly number[]): readonly number[] => {
  const open = build.benches.flatMap(({ liftMetres, branchResistance }, place) => {
    const share = branchShares[place] ?? 1;
    return share > 0 ? [{ place, liftMetres, resistance: branchResistance / (share * share) }] : [];
  });
  const split = splitFlows({ ...build.pump, branches: open });
  const flows = build.benches.map(() => 0);
  open.forEach(({ place }, index) => {
    flows[place] = split[index] ?? 0;
  });
  return flows;
};
