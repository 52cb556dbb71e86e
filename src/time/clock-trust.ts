import {
  minutesBetween,
  monotonicMillis,
  wallMillis,
  type MonotonicMillis,
  type Now,
  type WallMillis,
} from './instant.ts';

/** A host without a battery clock wakes in 1970, a clock chip that lost its battery in 2000. */
const PLAUSIBLE_FROM_MILLIS = Date.UTC(2020, 0, 1);
/** While a host starts, its clock is being set: a step then is the clock coming right. */
const SETTING_MINUTES = 15;
/** Smaller steps move no flood out of its day part for long. */
const STEP_MINUTES = 10;

/** How the wall clock has gone against the monotonic one. */
export interface ClockTrust {
  readonly startedAt: MonotonicMillis;
  /** Wall minus monotonic when last seen, ms; null while the wall clock was never plausible. */
  readonly offset: number | null;
  /** The same when it was last believed. */
  readonly goodOffset: number | null;
  /** Since when the wall clock is astray. Waiting does not make a wrong clock right: see `confirmed`. */
  readonly steppedAt: MonotonicMillis | null;
  /** Whether nothing is known to have set the wall clock since the machine was started: it may be behind by as long as that had no power. */
  readonly isUnset: boolean;
  /** Whether a person has said since this host began that it is right. */
  readonly isConfirmed: boolean;
}

/** Trust as it is kept. A version that did not ask what had set the clock has left out `isUnset`, which is no word that something had. */
export type KeptTrust = Omit<ClockTrust, 'isUnset'> & Partial<Pick<ClockTrust, 'isUnset'>>;

/** Whether what was kept tells what had set the clock: of this start of the machine, by a version that asked. */
export const tellsWhatSet = ({ isUnset }: KeptTrust, boot: 'same' | 'another'): boolean =>
  boot === 'same' && isUnset !== undefined;

export const trustAtStart = (now: Now): ClockTrust => ({
  startedAt: now.monotonic,
  offset: null,
  goodOffset: null,
  steppedAt: null,
  isUnset: false,
  isConfirmed: false,
});

/** Trust at a start of the machine after which nothing is known to have set its clock. */
export const asUnset = (trust: KeptTrust): ClockTrust => ({ ...trust, goodOffset: null, isUnset: true });

/**
 * Trust once something has set it, from the next look on. A jump stays in doubt, over a start of the machine too: what made it may
 * be what sets the clock now.
 */
export const asSet = (trust: ClockTrust): ClockTrust => ({ ...trust, isUnset: false });

/**
 * Trust as an earlier process had it; `shift` brings its moments to the clock of this one. Where the machine has gone on, a
 * step while nobody looked is a step. Where it was started anew its clock is being set once more; only a doubt stays, and
 * then there is nothing left to hold the clock against.
 */
export const resumedTrust = (
  kept: KeptTrust,
  shift: number,
  boot: 'same' | 'another',
  now: Now,
): ClockTrust => {
  const moved = (offset: number | null): number | null => (offset === null ? null : offset - shift);
  const earlier = (moment: number): MonotonicMillis =>
    monotonicMillis(Math.min(moment + shift, now.monotonic));
  const steppedAt = kept.steppedAt === null ? null : earlier(kept.steppedAt);
  if (boot === 'another') return { ...trustAtStart(now), steppedAt };
  // Of a version that did not ask what had set the clock: what it believed is nothing to hold the clock against, and the asking begins.
  const hasAsked = kept.isUnset !== undefined;
  return {
    startedAt: hasAsked ? earlier(kept.startedAt) : now.monotonic,
    offset: moved(kept.offset),
    goodOffset: hasAsked ? moved(kept.goodOffset) : null,
    steppedAt,
    isUnset: kept.isUnset ?? false,
    isConfirmed: false,
  };
};

/** Whether a wall clock may be right at all. */
export const isPlausible = (wall: WallMillis | 'unknown'): wall is WallMillis =>
  wall !== 'unknown' && wall >= PLAUSIBLE_FROM_MILLIS;

const isSetting = (trust: ClockTrust, now: MonotonicMillis): boolean =>
  minutesBetween(trust.startedAt, now) < SETTING_MINUTES;

/**
 * Trust after one more look. The zone plays no part: wall time is UTC, so summer time is no step. A clock
 * that steps back to where it was is believed again.
 */
export const looked = (trust: ClockTrust, now: Now): ClockTrust => {
  if (!isPlausible(now.wall)) return trust;
  const offset = now.wall - now.monotonic;
  const { goodOffset } = trust;
  if (trust.isUnset) return { ...trust, offset };
  // In doubt since before a start, with nothing to hold the clock against: only a person's word ends that.
  if (goodOffset === null && inDoubt(trust)) return { ...trust, offset };
  const astray = goodOffset !== null && Math.abs(offset - goodOffset) > STEP_MINUTES * 60_000;
  if (!astray || isSetting(trust, now.monotonic))
    return { ...trust, offset, goodOffset: offset, steppedAt: null };
  return { ...trust, offset, steppedAt: trust.steppedAt ?? now.monotonic };
};

/** A person has looked at the clock and says that it is right as it is now. */
export const confirmed = (trust: ClockTrust): ClockTrust => ({
  ...trust,
  goodOffset: trust.offset,
  steppedAt: null,
  isUnset: false,
  isConfirmed: true,
});

export const inDoubt = (trust: ClockTrust): boolean => trust.steppedAt !== null || trust.isUnset;

/** While nothing is known to have set the clock, and the network may yet: nobody is told of that doubt so early. */
export const mayBeSet = (trust: ClockTrust, now: MonotonicMillis): boolean =>
  trust.isUnset && trust.steppedAt === null && isSetting(trust, now);

/** Since when people are to be told of the doubt; null while there is none, or while the network may still set the clock. */
export const doubtedSince = (trust: ClockTrust, now: MonotonicMillis): MonotonicMillis | null => {
  if (trust.steppedAt !== null) return trust.steppedAt;
  return trust.isUnset && !mayBeSet(trust, now) ? trust.startedAt : null;
};

/** The moment with its wall time only as far as it can be believed. */
export const believedNow = (trust: ClockTrust, now: Now): Now =>
  isPlausible(now.wall) && !inDoubt(trust) ? now : { ...now, wall: 'unknown' };

/**
 * The wall time counted on from the last look: believed already in the turn in which something sets the clock, and still while the
 * clock shows 1970 for an hour.
 */
export const believedWall = (trust: ClockTrust, now: MonotonicMillis): WallMillis | 'unknown' =>
  trust.offset === null || inDoubt(trust) ? 'unknown' : wallMillis(now + trust.offset);
