import { plantingAt } from '../plant/bench.ts';
import type { PlantBuild } from '../plant/build.ts';
import type { Plant } from '../plant/plant.ts';
import type { PlantFaults } from '../plant/state.ts';
import { hoursOf, standing, type Fault } from './fault.ts';

/** How bad each fault is; engineering judgement, no source. */
const CLOGGED_SHARE = 0.33;
const CLOGGING = { hours: 21 * 24, endShare: 0.1 } as const;
const LEAK_LITRES_PER_MINUTE = 1;
const SALTY_MILLISIEMENS_PER_CM = 2;

const cloggingShare = (hours: number | null): number =>
  hours === null ? 1 : 1 - (1 - CLOGGING.endShare) * Math.min(1, hours / CLOGGING.hours);

/** The place of each bench whose inlet is blocked. */
const blockedAt = (faults: readonly Fault[], { benches }: PlantBuild, atMillis: number): readonly number[] =>
  faults
    .filter((fault) => standing([fault], 'inlet-blocked', atMillis))
    .map(({ bench }) => bench ?? benches.findIndex((build) => plantingAt(build, atMillis).plants > 0));

/** What the script has broken at this moment. */
const brokenAt = (faults: readonly Fault[], build: PlantBuild, atMillis: number): PlantFaults => {
  const on = (kind: Fault['kind']): boolean => standing(faults, kind, atMillis);
  const stands = on('pump-dead') || on('pump-unplugged') || on('mains-lost');
  const filter =
    (on('filter-clogged') ? CLOGGED_SHARE : 1) * cloggingShare(hoursOf(faults, 'filter-clogging', atMillis));
  const blocked = blockedAt(faults, build, atMillis);
  return {
    pumpShare: stands ? 0 : filter,
    branchShares: build.benches.map((_, place) => (blocked.includes(place) ? 0 : 1)),
    leakLitresPerMinute: on('leak') ? LEAK_LITRES_PER_MINUTE : 0,
    topUpShare: on('top-up-stopped') ? 0 : 1,
    topUpSaltier: on('top-up-salty') ? SALTY_MILLISIEMENS_PER_CM : 0,
  };
};

const isSame = (one: PlantFaults, other: PlantFaults): boolean =>
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
