import type { Seen } from '../sense/seen.ts';
import { minutesBetween, type MonotonicMillis } from '../time/instant.ts';

/** Whether the return sensor can prove a flood. */
export interface ReturnTrust {
  /** It shows water in rests; until it has shown none for a while it proves nothing. */
  readonly stuckSince: MonotonicMillis | null;
  /** Since when it has shown water late in this rest, and has not denied it. */
  readonly oddSince: MonotonicMillis | null;
  /** When it began to show water so, each a minute or more after the one before; none once it was quiet. */
  readonly oddTimes: readonly MonotonicMillis[];
  /** Since when it has shown none. */
  readonly noneSince: MonotonicMillis | null;
  /** In this doubt it has shown water for longer after a stop than channels drain. */
  readonly wetLong: boolean;
  /** In this doubt a flood has ended unproven. */
  readonly unproven: boolean;
  /** Its last doubt was over before it had shown water for so long. */
  readonly drained: boolean;
  /** The most that a meter has read since the pump stopped, as far as somebody looked on, L/min; null where it could not be read. */
  readonly mostInRest: number | null;
}

export const TRUSTED: ReturnTrust = {
  stuckSince: null,
  oddSince: null,
  oddTimes: [],
  noneSince: null,
  wetLong: false,
  unproven: false,
  drained: false,
  mostInRest: null,
};

/**
 * Twelve minutes after a stop a pipe of the model's range returns less than a seventh of its flow; one in which water seeps
 * through roots may still return a third, and its sensor is then doubted too: it cannot prove the next flood either. Hot
 * rests are hardly longer.
 */
const STUCK_MINUTES = 12;
/** A meter that has fallen to this share of what it read as the pump stopped shows what drains, and one that sticks falls no more; */
const FALLEN_SHARE = 0.5;
/** but not for ever. */
const DRAINED_MINUTES = 20;
/** One false word is a glitch on the line; the same a minute later, not denied between, is not. */
const AGAIN_MINUTES = 1;
/**
 * What was denied between may be two glitches, or what still drains in a meter that scatters; so many times are neither, unless
 * the channels surely still drain: at its limit a switch says one thing and another.
 */
const DENIED_TIMES = 3;
/** A sensor that says one thing and another must be quiet for this long, or it would prove by chance. */
const QUIET_MINUTES = 10;

/**
 * Since when people are to be told that it is stuck; null while it is not. Where its last doubt was of channels that drain for
 * longer than most, they are told once it shows more than that, or a flood is unproven for it: a sensor that comes back by itself
 * in each rest is none to free or to replace.
 */
export const toldStuckSince = ({
  stuckSince,
  wetLong,
  unproven,
  drained,
}: ReturnTrust): MonotonicMillis | null => (drained && !wetLong && !unproven ? null : stuckSince);

/** The same after a flood that was watched to its end and is unproven. */
export const unprovenBeside = (trust: ReturnTrust): ReturnTrust =>
  trust.stuckSince === null ? trust : { ...trust, unproven: true };

/** What the return sensor shows, and the L/min of a meter that can be read. */
export interface ReturnLook {
  readonly shows: Seen;
  readonly litresPerMinute: number | null;
}

const mostInRest = (
  before: number | null,
  litresPerMinute: number | null,
  idleMinutes: number,
): number | null => {
  if (idleMinutes === 0) return litresPerMinute;
  return litresPerMinute === null ? before : Math.max(before ?? 0, litresPerMinute);
};

/** The moments of `oddTimes` after one more look that showed water. */
const oddTimesAfter = (
  { oddSince: undenied, oddTimes }: ReturnTrust,
  oddSince: MonotonicMillis | null,
): readonly MonotonicMillis[] => {
  if (oddSince === null) return [];
  const last = oddTimes.at(-1);
  const isOneMore = last === undefined || minutesBetween(last, oddSince) >= AGAIN_MINUTES;
  return undenied === null && isOneMore ? [...oddTimes, oddSince].slice(-DENIED_TIMES) : oddTimes;
};

/** `idleMinutes` is how long the pump cannot have run, for it was asked off or had no power; 0 while it may run. */
export const returnTrust = (
  before: ReturnTrust,
  { shows, litresPerMinute }: ReturnLook,
  idleMinutes: number,
  now: MonotonicMillis,
): ReturnTrust => {
  const late = idleMinutes > STUCK_MINUTES;
  const most = mostInRest(before.mostInRest, litresPerMinute, idleMinutes);
  switch (shows) {
    case 'unknown':
      return {
        ...before,
        ...(late ? {} : { oddSince: null, oddTimes: [] }),
        noneSince: null,
        mostInRest: most,
      };
    case 'seen': {
      const fallen = most !== null && litresPerMinute !== null && litresPerMinute <= FALLEN_SHARE * most;
      const drains = fallen && idleMinutes <= DRAINED_MINUTES;
      const oddSince = late ? (before.oddSince ?? (drains ? null : now)) : null;
      const oddTimes = oddTimesAfter(before, oddSince);
      const lasts = oddSince !== null && minutesBetween(oddSince, now) >= AGAIN_MINUTES;
      const again = !drains && (lasts || oddTimes.length >= DENIED_TIMES);
      return {
        ...before,
        stuckSince: before.stuckSince ?? (again ? now : null),
        wetLong: before.wetLong || (again && idleMinutes > DRAINED_MINUTES),
        oddSince,
        oddTimes,
        noneSince: null,
        mostInRest: most,
      };
    }
    case 'not-seen': {
      const noneSince = before.noneSince ?? now;
      const quiet = minutesBetween(noneSince, now) >= QUIET_MINUTES;
      return {
        stuckSince: quiet ? null : before.stuckSince,
        wetLong: !quiet && before.wetLong,
        unproven: !quiet && before.unproven,
        drained: quiet && before.stuckSince !== null ? !before.wetLong : before.drained,
        oddSince: null,
        oddTimes: idleMinutes > DRAINED_MINUTES && !quiet ? before.oddTimes : [],
        noneSince,
        mostInRest: most,
      };
    }
  }
};
