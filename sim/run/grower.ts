import type { Farm } from '../../src/farm/farm.ts';
import { wallMillis } from '../../src/time/instant.ts';
import { dayAfter, localClockInstant, localDayOf } from '../../src/time/local-day.ts';
import type { Plant } from '../plant/plant.ts';

/** The simulated grower fills a tank that is topped up by hand at this minute of the day. */
export const TOP_UP_MINUTE_OF_DAY = 7 * 60;

/** The next time the grower comes after `atMillis`; Infinity where a float valve does the work. */
export const nextTopUp = (farm: Farm, atMillis: number): number => {
  if (farm.tank.topUp !== 'by-hand') return Infinity;
  const day = localDayOf(wallMillis(atMillis), farm.place.timeZone);
  const today = localClockInstant(day, TOP_UP_MINUTE_OF_DAY);
  return today > atMillis ? today : localClockInstant(dayAfter(day), TOP_UP_MINUTE_OF_DAY);
};

/** Fills the tank to its usual level, counting what stands out in the channels. */
export const topUpByHand = (farm: Farm, plant: Plant): void => {
  const inChannels = plant.state.benches.reduce((sum, bench) => sum + bench.drainableLitres, 0);
  const { tank } = plant.state;
  const litres = Math.max(0, farm.tank.usualLitres - inChannels - tank.litres);
  tank.litres += litres;
  tank.salts += litres * farm.tank.topUpMillisiemensPerCm;
  tank.toppedUpLitres += litres;
  tank.saltsLost -= litres * farm.tank.topUpMillisiemensPerCm;
};
