import { plantingAt } from '../plant/bench.ts';
import type { PlantBuild } from '../plant/build.ts';
import type { Plant } from '../plant/plant.ts';
import type { PlantFaults } from '../plant/state.ts';
import { CLOGGING, hoursOf, isOfOneBench, standing, type Clogging, type Fault } from './fault.ts';

/** How bad each fault is; engineering judgement, no source. */
const CLOGGED_SHARE = 0.33;
export const LEAK_LITRES_PER_MINUTE = 1;
const SALTY_MILLISIEMENS_PER_CM = 2;

const cloggingShare = (hours: number | null, { endShare, days }: Clogging): number =>
  hours === null ? 1 : 1 - (1 - endShare) * Math.min(1, hours / (24 * days));

/** The place of the bench that a fault breaks; −1 where nothing was planted when it began. */
const benchOf = ({ bench, fromMillis }: Fault, { benches }: PlantBuild): number =>
  bench ?? benches.findIndex((build) => plantingAt(build, fromMillis).plants > 0);

/** What one fault leaves of the flow into its bench. */
const branchShare = (fault: Fault, atMillis: number): number =>
  fault.kind === 'inlet-blocked'
    ? Number(!standing([fault], 'inlet-blocked', atMillis))
    : cloggingShare(hoursOf([fault], 'branch-clogging', atMillis), fault.clogging ?? CLOGGING);

const branchShares = (faults: readonly Fault[], build: PlantBuild, atMillis: number): number[] => {
  const shares = build.benches.map(() => 1);
  for (const fault of faults) {
    const place = isOfOneBench(fault.kind) ? benchOf(fault, build) : -1;
    const share = shares[place];
    if (share !== undefined) shares[place] = share * branchShare(fault, atMillis);
  }
  return shares;
};

/** All that a script can break; no script blocks the return. */
type Scripted = Omit<PlantFaults, 'returnShare'>;

/** What the script has broken at this moment. */
const brokenAt = (faults: readonly Fault[], build: PlantBuild, atMillis: number): Scripted => {
  const on = (kind: Fault['kind']): boolean => standing(faults, kind, atMillis);
  const stands = on('pump-dead') || on('pump-unplugged') || on('mains-lost');
  const filter =
    (on('filter-clogged') ? CLOGGED_SHARE : 1) *
    cloggingShare(hoursOf(faults, 'filter-clogging', atMillis), CLOGGING);
  return {
    pumpShare: stands ? 0 : filter,
    branchShares: branchShares(faults, build, atMillis),
    leakLitresPerMinute: on('leak') ? LEAK_LITRES_PER_MINUTE : 0,
    topUpShare: on('top-up-stopped') ? 0 : 1,
    topUpSaltier: on('top-up-salty') ? SALTY_MILLISIEMENS_PER_CM : 0,
  };
};

const isSame = (one: Scripted, other: Scripted): boolean =>
  one.pumpShare === other.pumpShare &&
  one.branchShares.every((share, place) => share === other.branchShares[place]) &&
  one.leakLitresPerMinute === other.leakLitresPerMinute &&
  one.topUpShare === other.topUpShare &&
  one.topUpSaltier === other.topUpSaltier;

/** Breaks and mends the plant as the script says for this moment. */
export const breakPlant = (plant: Plant, faults: readonly Fault[], atMillis: number): void => {
  if (faults.length === 0) return;
  const { build, state } = plant;
  const broken = brokenAt(faults, build, atMillis);
  if (isSame(broken, state.faults)) return;
  Object.assign(state.faults, broken);
  plant.faultsChanged();
};
