import type { Farm } from '../farm/farm.ts';
import type { Belief } from '../estimate/belief.ts';
import { driestWithin, type Outlook } from '../estimate/time-left.ts';
import { afterMinutes, minutesBetween, type MonotonicMillis, type Now } from '../time/instant.ts';
import { itemAt } from '../units/assertion.ts';
import type { Pace } from './pace.ts';
import { earliestStart, plannedStart, restedMinutes, type Schedule } from './schedule.ts';

/** What the plan wants; nobody has allowed it yet. */
export type Intention =
  | { readonly kind: 'flood'; readonly minutes: number; readonly part: string; readonly reason: string }
  | { readonly kind: 'rest'; readonly until: MonotonicMillis; readonly reason: string };

const flood = (pace: Pace, reason: string): Intention => ({
  kind: 'flood',
  minutes: pace.floodMinutes,
  part: pace.part,
  reason,
});

/** A bench that would get too dry before the planned start, in words; null when none would. */
const tooDryBefore = (
  farm: Farm,
  belief: Belief,
  outlook: Outlook,
  now: Now,
  minutes: number,
): string | null => {
  const place = driestWithin(farm, belief, outlook, now.wall, minutes).findIndex(
    ({ theta, thetaLow }, bench) =>
      itemAt(outlook.facts, bench).planted && (theta < farm.floors.stress || thetaLow < farm.floors.wilt),
  );
  if (place < 0) return null;
  return `${itemAt(outlook.facts, place).name} may get too dry before the next planned flood`;
};

/** Whether one more whole rest, and a missed flood after it, would still leave the margin asked for. */
const mayStretch = (farm: Farm, belief: Belief, outlook: Outlook, now: Now, pace: Pace): boolean => {
  if (farm.stretch === 'never') return false;
  const least = farm.floors.wilt + farm.stretch.oneMissMarginMin;
  const minutes = pace.restMinutes + pace.floodMinutes;
  return driestWithin(farm, belief, outlook, now.wall, minutes).every(
    ({ theta, thetaLow }) => theta >= farm.floors.stress && thetaLow >= least,
  );
};

/** While a rest is stretched its planned end has passed; then it is looked at every minute. */
const lookAgain = (planned: MonotonicMillis, now: MonotonicMillis): MonotonicMillis =>
  planned > now ? planned : afterMinutes(now, 1);

/**
 * The schedule's wish at this moment. The belief may only make it wetter than the plan, unless the farm file
 * permits stretching. Every wish carries its reason.
 */
export const intention = (
  farm: Farm,
  schedule: Schedule,
  pace: Pace,
  belief: Belief,
  outlook: Outlook,
  now: Now,
): Intention => {
  const earliest = earliestStart(schedule, pace, now.monotonic);
  if (earliest > now.monotonic) {
    return { kind: 'rest', until: earliest, reason: `resting: ${pace.why}` };
  }
  if (schedule.owed !== null) return flood(pace, `flood now: ${schedule.owed}`);
  const planned = plannedStart(schedule, pace, now.monotonic);
  const rested = restedMinutes(schedule, now.monotonic) ?? 0;
  if (planned <= now.monotonic) {
    if (rested >= pace.longestRestMinutes) {
      return flood(
        pace,
        `flood now: the longest rest of ${pace.longestRestMinutes} min is over (${pace.part})`,
      );
    }
    if (!mayStretch(farm, belief, outlook, now, pace)) return flood(pace, `flood now: ${pace.why}`);
  }
  const minutes = Math.max(0, minutesBetween(now.monotonic, planned));
  const dry = tooDryBefore(farm, belief, outlook, now, minutes);
  if (dry !== null) return flood(pace, `flood now: ${dry}`);
  return { kind: 'rest', until: lookAgain(planned, now.monotonic), reason: `resting: ${pace.why}` };
};
