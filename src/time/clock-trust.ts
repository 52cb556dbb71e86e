import { minutesBetween, type MonotonicMillis, type Now, type WallMillis } from './instant.ts';

/** A host without a battery clock wakes in 1970; nothing before this year is a time of day. */
const PLAUSIBLE_FROM_MILLIS = Date.UTC(2000, 0, 1);
/** While a host starts, its clock is being set: a step then is the clock coming right. */
const SETTING_MINUTES = 15;
/** Smaller steps move no flood out of its day part for long. */
const STEP_MINUTES = 10;
/** After a step nobody knows which of the two times was wrong; this long the plan does without either. */
const DOUBT_MINUTES = 24 * 60;

/** How the wall clock has gone against the monotonic one. */
export interface ClockTrust {
  readonly startedAt: MonotonicMillis;
  /** Wall minus monotonic when last seen, ms; null while the wall clock was never plausible. */
  readonly offset: number | null;
  readonly steppedAt: MonotonicMillis | null;
}

export const trustAtStart = (now: Now): ClockTrust => ({
  startedAt: now.monotonic,
  offset: null,
  steppedAt: null,
});

const plausible = (wall: WallMillis | 'unknown'): wall is WallMillis =>
  wall !== 'unknown' && wall >= PLAUSIBLE_FROM_MILLIS;

/**
 * Trust after one more look. The zone plays no part: wall time is UTC, so summer time is no step.
 */
export const looked = (trust: ClockTrust, now: Now): ClockTrust => {
  if (!plausible(now.wall)) return trust;
  const offset = now.wall - now.monotonic;
  const setting = minutesBetween(trust.startedAt, now.monotonic) < SETTING_MINUTES;
  const stepped = trust.offset !== null && Math.abs(offset - trust.offset) > STEP_MINUTES * 60_000;
  return { ...trust, offset, steppedAt: stepped && !setting ? now.monotonic : trust.steppedAt };
};

/** A person has looked at the clock and says that it is right. */
export const confirmed = (trust: ClockTrust): ClockTrust => ({ ...trust, steppedAt: null });

export const inDoubt = (trust: ClockTrust, now: Now): boolean =>
  trust.steppedAt !== null && minutesBetween(trust.steppedAt, now.monotonic) < DOUBT_MINUTES;

/** The moment with its wall time only as far as it can be believed. */
export const believedNow = (trust: ClockTrust, now: Now): Now =>
  plausible(now.wall) && !inDoubt(trust, now) ? now : { ...now, wall: 'unknown' };
