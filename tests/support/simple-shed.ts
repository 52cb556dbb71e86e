import type { Farm } from '../../src/farm/farm.ts';
import { dayView, shows } from '../../src/plan/day-view.ts';
import { paceNow } from '../../src/plan/pace.ts';
import {
  earliestStart,
  floodEnded,
  floodStarted,
  plannedStart,
  scheduleAtStart,
  turned,
} from '../../src/plan/schedule.ts';
import type { Reading } from '../../src/sense/reading.ts';
import { monotonicMillis, wallMillis } from '../../src/time/instant.ts';

export interface RunFlood {
  readonly start: number;
  readonly end: number;
  /** Of the hour in which it started, and of the rest before it. */
  readonly shortestRestMinutes: number;
  readonly longestRestMinutes: number;
}

const MINUTE = 60_000;
/** The schedule looks at least this often. */
const QUIET = 5 * MINUTE;

/**
 * Day plan, pace and schedule in the order in which the controller uses them, and nothing else: no belief, no
 * limits, a pump that does as told. The monotonic clock is the wall clock.
 */
export const floodsBetween = (
  farm: Farm,
  from: number,
  to: number,
  air: Reading<number>,
): readonly RunFlood[] => {
  let view = dayView(farm, wallMillis(from));
  let schedule = scheduleAtStart(monotonicMillis(from));
  let floodEnd: number | null = null;
  const floods: RunFlood[] = [];
  for (let now = from; now < to;) {
    const [wall, monotonic] = [wallMillis(now), monotonicMillis(now)];
    if (!shows(view, wall)) view = dayView(farm, wall);
    const pace = paceNow(farm, view, wall, air);
    schedule = turned(schedule, pace, monotonic);
    if (floodEnd !== null && floodEnd <= now) {
      schedule = floodEnded(schedule, monotonic);
      floodEnd = null;
    }
    const due = schedule.owed !== null || plannedStart(schedule, pace, monotonic) <= monotonic;
    if (floodEnd === null && due && earliestStart(schedule, pace, monotonic) <= monotonic) {
      schedule = floodStarted(schedule, monotonic);
      floodEnd = now + pace.floodMinutes * MINUTE;
      const { shortestRestMinutes, longestRestMinutes } = pace;
      floods.push({ start: now, end: floodEnd, shortestRestMinutes, longestRestMinutes });
    }
    const wanted = floodEnd ?? plannedStart(schedule, pace, monotonic);
    const partEnd = pace.partLeftMinutes === null ? Infinity : now + pace.partLeftMinutes * MINUTE;
    now = Math.max(now + 1000, Math.min(now + QUIET, wanted, partEnd));
  }
  return floods;
};
