import { HOLD_MINUTES_MAX } from '../command/orders.ts';
import type { Farm } from '../farm/farm.ts';
import type { Kept } from '../ports/board.ts';
import { afterMinutes, afterSeconds, monotonicMillis, type MonotonicMillis } from '../time/instant.ts';
import { runEnd } from './kept-run.ts';

/** The board tells whole seconds, and its word takes a moment on the line. */
const AHEAD_SECONDS = 5;

const earlier = (one: MonotonicMillis, other: MonotonicMillis): MonotonicMillis =>
  monotonicMillis(Math.min(one, other));

const runningStill = (farm: Farm, running: Kept['running'], now: MonotonicMillis): Kept['running'] => {
  if (running === null) return null;
  const startedAt = earlier(running.startedAt, now);
  const until = earlier(running.until, afterMinutes(startedAt, farm.pump.longestOnMinutes));
  return until <= now ? null : { ...running, startedAt, until };
};

/**
 * What a board tells, as far as it can be: nothing has ended in the future, no run is longer than longest-on lets it,
 * no hold longer than anybody may ask for. A flood that was never given must not put off the next.
 */
export const plausibleKept = (farm: Farm, kept: Kept, now: MonotonicMillis): Kept => {
  const soon = afterSeconds(now, AHEAD_SECONDS);
  const isPast = (run: Parameters<typeof runEnd>[0]): boolean => run.seconds >= 0 && runEnd(run) <= soon;
  const runs = kept.runs.filter(isPast);
  const { running, lastFlood, holdUntil } = kept;
  return {
    runs,
    forgotten: kept.forgotten + kept.runs.length - runs.length,
    running: runningStill(farm, running, now),
    lastFlood: lastFlood !== null && isPast(lastFlood) ? lastFlood : null,
    holdUntil: holdUntil === null ? null : earlier(holdUntil, afterMinutes(now, HOLD_MINUTES_MAX)),
  };
};
