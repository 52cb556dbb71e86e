import type { Farm } from '../farm/farm.ts';
import type { PumpCommand } from '../ports/board.ts';
import { afterMinutes, afterSeconds, secondsBetween, type MonotonicMillis } from '../time/instant.ts';
import { seconds } from '../units/quantity.ts';

/** What was last asked of the pump, and when it was started of late. What it does is for the sensors to say. */
export interface PumpGuard {
  readonly asked:
    | { readonly kind: 'off'; readonly since: MonotonicMillis | null }
    | {
        readonly kind: 'on';
        readonly since: MonotonicMillis;
        readonly until: MonotonicMillis;
        readonly purpose: Purpose;
      };
  readonly floodStarts: readonly MonotonicMillis[];
}

/** Before the first command nobody knows how long the pump has been off: take it as just stopped. */
export const guardAtStart = (now: MonotonicMillis): PumpGuard => ({
  asked: { kind: 'off', since: now },
  floodStarts: [],
});

type Purpose = 'flood' | 'retry' | 'sip';

export type PumpWish =
  | { readonly kind: 'off' }
  | {
      readonly kind: 'on';
      readonly minutes: number;
      readonly purpose: Purpose;
      /** Starts an hour do not keep it back. */
      readonly despiteStarts?: true;
    };

export interface Permit {
  readonly guard: PumpGuard;
  readonly commands: readonly PumpCommand[];
  /** Why a wish was not granted, and from when it may be. */
  readonly refused: { readonly reason: string; readonly until: MonotonicMillis } | null;
}

const granted = (guard: PumpGuard, commands: readonly PumpCommand[]): Permit => ({
  guard,
  commands,
  refused: null,
});

const refusal = (guard: PumpGuard, reason: string, until: MonotonicMillis): Permit => ({
  guard,
  commands: [],
  refused: { reason, until },
});

/** Starts of the last hour; retries and sips have budgets of their own. */
const recentStarts = (guard: PumpGuard, now: MonotonicMillis): readonly MonotonicMillis[] =>
  guard.floodStarts.filter((start) => now < afterMinutes(start, 60));

/** A run of the board's that goes on under this host. */
export interface RunTakenOver {
  readonly since: MonotonicMillis;
  /** When the board would end it. */
  readonly until: MonotonicMillis;
  /** When this host wants it to end. */
  readonly wanted: MonotonicMillis;
  readonly purpose: Purpose;
}

/** An end that is so near to another is the same; and a run that ends so soon is not prolonged, lest it start anew. */
const SAME_END_SECONDS = 5;

/** The pump runs already: nothing is started, and at most its end is moved, never past longest-on. */
export const takenOver = (farm: Farm, guard: PumpGuard, run: RunTakenOver, now: MonotonicMillis): Permit => {
  const { since, purpose } = run;
  const most = afterMinutes(since, farm.pump.longestOnMinutes);
  const wanted = run.wanted <= most ? run.wanted : most;
  const moves =
    Math.abs(secondsBetween(run.until, wanted)) > SAME_END_SECONDS &&
    secondsBetween(now, run.until) > SAME_END_SECONDS &&
    wanted > now;
  const next: PumpGuard = {
    asked: { kind: 'on', since, until: moves ? wanted : run.until, purpose },
    floodStarts: guard.floodStarts,
  };
  return granted(next, moves ? [{ kind: 'pump-on', longest: secondsBetween(now, wanted) }] : []);
};

/** The pump rests, and has since then by what the board tells. */
export const restingSince = (guard: PumpGuard, since: MonotonicMillis): PumpGuard => ({
  ...guard,
  asked: { kind: 'off', since },
});

/** A run under way whose time is to be over at `end`. */
export const endingAt = (guard: PumpGuard, end: MonotonicMillis): PumpGuard =>
  guard.asked.kind === 'on' ? { ...guard, asked: { ...guard.asked, until: end } } : guard;

/** Floods of the board's count as starts like the host's own. */
export const withStarts = (guard: PumpGuard, starts: readonly MonotonicMillis[]): PumpGuard => ({
  ...guard,
  floodStarts: [...guard.floodStarts, ...starts],
});

/**
 * The last gate before the board: longest on, shortest off, starts an hour. The board holds the first two
 * again by itself.
 */
export const permitted = (farm: Farm, guard: PumpGuard, wish: PumpWish, now: MonotonicMillis): Permit => {
  const { asked } = guard;
  if (wish.kind === 'off') {
    if (asked.kind === 'off') return granted(guard, []);
    return granted({ ...guard, asked: { kind: 'off', since: now } }, [{ kind: 'pump-off' }]);
  }
  if (asked.kind === 'on') return granted(guard, []);
  const rested = asked.since === null ? now : afterSeconds(asked.since, farm.pump.shortestOffSeconds);
  if (now < rested) return refusal(guard, 'shortest off', rested);
  const starts = recentStarts(guard, now);
  const first = starts[0];
  const limited = wish.purpose === 'flood' && wish.despiteStarts !== true;
  if (limited && first !== undefined && starts.length >= farm.bounds.startsPerHour) {
    return refusal(guard, `${starts.length} starts in the last hour`, afterMinutes(first, 60));
  }
  const minutes = Math.min(wish.minutes, farm.pump.longestOnMinutes);
  const next: PumpGuard = {
    asked: { kind: 'on', since: now, until: afterMinutes(now, minutes), purpose: wish.purpose },
    floodStarts: wish.purpose === 'flood' ? [...starts, now] : starts,
  };
  return granted(next, [{ kind: 'pump-on', longest: seconds(minutes * 60) }]);
};
