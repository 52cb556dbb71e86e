import type { Plant } from '../plant/plant.ts';
import { standing, type Fault } from './fault.ts';

const CLOGGED_SHARE = 0.33;
const LEAK_LITRES_PER_MINUTE = 1;

/** Breaks and mends the plant as the script says for this moment. */
export const breakPlant = (plant: Plant, faults: readonly Fault[], atMillis: number): void => {
  const on = (kind: Fault['kind']): boolean => standing(faults, kind, atMillis);
  const { faults: broken } = plant.state;
  const stands = on('pump-dead') || on('pump-unplugged') || on('mains-lost');
  const pumpShare = stands ? 0 : on('filter-clogged') ? CLOGGED_SHARE : 1;
  const firstBranch = on('inlet-blocked') ? 0 : 1;
  const leak = on('leak') ? LEAK_LITRES_PER_MINUTE : 0;
  if (
    broken.pumpShare === pumpShare &&
    broken.branchShares[0] === firstBranch &&
    broken.leakLitresPerMinute === leak
  ) {
    return;
  }
  broken.pumpShare = pumpShare;
  broken.branchShares[0] = firstBranch;
  broken.leakLitresPerMinute = leak;
  plant.faultsChanged();
};
