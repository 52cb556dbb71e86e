import type { Seen } from '../sense/seen.ts';
import { minutesBetween, type MonotonicMillis } from '../time/instant.ts';

/** Whether the return sensor can prove a flood. */
export interface ReturnTrust {
  /** It shows water in rests; until it has shown none for a while it proves nothing. */
  readonly stuckSince: MonotonicMillis | null;
  /** When it first showed water late in this rest. */
  readonly oddSince: MonotonicMillis | null;
  /** Since when it has shown none. */
  readonly noneSince: MonotonicMillis | null;
}

export const TRUSTED: ReturnTrust = { stuckSince: null, oddSince: null, noneSince: null };

/**
 * Twelve minutes after a stop a pipe of the model's range returns less than a seventh of its flow; one in which water seeps
 * through roots may still return a third, and its sensor is then doubted too: it cannot prove the next flood either. Hot
 * rests are hardly longer.
 */
const STUCK_MINUTES = 12;
/** One false word is a glitch on the line; the same again a minute later is not. */
const AGAIN_MINUTES = 1;
/** A sensor that says one thing and another must be quiet for this long, or it would prove by chance. */
const QUIET_MINUTES = 10;

/** `idleMinutes` is how long the pump cannot have run, for it was asked off or had no power; 0 while it may run. */
export const returnTrust = (
  before: ReturnTrust,
  shows: Seen,
  idleMinutes: number,
  now: MonotonicMillis,
): ReturnTrust => {
  const late = idleMinutes > STUCK_MINUTES;
  switch (shows) {
    case 'unknown':
      return { ...before, oddSince: late ? before.oddSince : null, noneSince: null };
    case 'seen': {
      const oddSince = late ? (before.oddSince ?? now) : null;
      const again = oddSince !== null && minutesBetween(oddSince, now) >= AGAIN_MINUTES;
      return { stuckSince: before.stuckSince ?? (again ? now : null), oddSince, noneSince: null };
    }
    case 'not-seen': {
      const noneSince = before.noneSince ?? now;
      const quiet = minutesBetween(noneSince, now) >= QUIET_MINUTES;
      return {
        stuckSince: quiet ? null : before.stuckSince,
        oddSince: late && !quiet ? before.oddSince : null,
        noneSince,
      };
    }
  }
};
