import type { Farm } from '../../src/farm/farm.ts';
import { wallMillis } from '../../src/time/instant.ts';
import { dayAfter, localClockInstant, localDayOf } from '../../src/time/local-day.ts';
import { hoursOf, type Fault } from '../faults/fault.ts';
import type { Plant } from '../plant/plant.ts';

/** The simulated grower comes at this minute of the day: fills the tank where no valve does, and may dose it. */
export const VISIT_MINUTE_OF_DAY = 7 * 60;
/** Of its reading, by which a drifting probe reads less each day. */
const DRIFT_A_DAY = 0.02;
const LEAST_READING = 0.3;

/** The next time the grower comes after `atMillis`; Infinity where there is nothing to come for. */
export const nextVisit = (farm: Farm, atMillis: number, { doses }: { readonly doses: boolean }): number => {
  if (farm.tank.topUp !== 'by-hand' && !doses) return Infinity;
  const day = localDayOf(wallMillis(atMillis), farm.place.timeZone);
  const today = localClockInstant(day, VISIT_MINUTE_OF_DAY);
  return today > atMillis ? today : localClockInstant(dayAfter(day), VISIT_MINUTE_OF_DAY);
};

/** Fills the tank to its usual level, counting what stands out in the channels, with water as warm as the air. */
export const topUpByHand = (farm: Farm, plant: Plant, airCelsius: number): void => {
  const inChannels = plant.state.benches.reduce((sum, bench) => sum + bench.drainableLitres, 0);
  const { tank } = plant.state;
  const { topUpShare, topUpSaltier } = plant.state.faults;
  const litres = topUpShare * Math.max(0, farm.tank.usualLitres - inChannels - tank.litres);
  const salts = litres * (farm.tank.topUpMillisiemensPerCm + topUpSaltier);
  if (litres > 0) tank.celsius += ((airCelsius - tank.celsius) * litres) / (tank.litres + litres);
  tank.litres += litres;
  tank.salts += salts;
  tank.toppedUpLitres += litres;
  tank.saltsLost -= salts;
};

/** What the probe shows of the true strength. */
const shownShare = (faults: readonly Fault[], atMillis: number): number => {
  const hours = hoursOf(faults, 'probe-drifting', atMillis);
  return hours === null ? 1 : Math.max(LEAST_READING, 1 - (DRIFT_A_DAY * hours) / 24);
};

/** Adds salts until the probe shows the usual strength; takes none out. */
export const dose = (farm: Farm, plant: Plant, faults: readonly Fault[]): void => {
  const { tank } = plant.state;
  const wanted = farm.tank.strengthMillisiemensPerCm / shownShare(faults, plant.state.atMillis);
  const salts = Math.max(0, wanted * tank.litres - tank.salts);
  tank.salts += salts;
  tank.saltsLost -= salts;
};

export const visit = (
  farm: Farm,
  plant: Plant,
  faults: readonly Fault[],
  { doses, airCelsius }: { readonly doses: boolean; readonly airCelsius: number },
): void => {
  if (farm.tank.topUp === 'by-hand') topUpByHand(farm, plant, airCelsius);
  if (doses) dose(farm, plant, faults);
};
