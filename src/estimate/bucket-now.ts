import type { Farm } from '../farm/farm.ts';
import { wallAfterMinutes, type WallMillis } from '../time/instant.ts';
import { bucketRounds, EVERY_MINUTES_MAX, type BucketRound } from './bucket-round.ts';
import { hotDayUptake } from './reference-day.ts';
import { believedShare, type Outlook, type TimeLeft } from './time-left.ts';

const STEP_MINUTES = 20;

/**
 * The most that is believed to be drunk until the longest pace is over, mm/h: at dawn a pace for this moment alone
 * would let the benches wilt before the next pour.
 */
const mostUptake = (outlook: Outlook, wall: WallMillis | 'unknown'): number => {
  if (wall === 'unknown') return hotDayUptake(outlook.day, wall) * believedShare(outlook);
  let most = 0;
  for (let minutes = 0; minutes <= EVERY_MINUTES_MAX; minutes += STEP_MINUTES) {
    most = Math.max(most, hotDayUptake(outlook.day, wallAfterMinutes(wall, minutes)));
  }
  return most * believedShare(outlook);
};

/** Water by hand from now on: the bench that wilts first, else the one that dries fastest; null where none is planted. */
export const bucketNow = (
  farm: Farm,
  outlook: Outlook,
  left: TimeLeft,
  wall: WallMillis | 'unknown',
): BucketRound | null => {
  const rounds = bucketRounds(farm, outlook.facts, mostUptake(outlook, wall));
  return rounds.find(({ bench }) => bench === left.bench) ?? rounds[0] ?? null;
};
