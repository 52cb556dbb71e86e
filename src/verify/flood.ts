import type { Farm } from '../farm/farm.ts';
import type { Seen } from '../sense/seen.ts';
import { afterMinutes, minutesBetween, type MonotonicMillis } from '../time/instant.ts';

/** Tries after the first; each is a stop of shortest off and a run of prime minutes. */
export const RETRIES_MAX = 2;
export const PRIME_MINUTES = 3;
/** Water that was there and has been gone for so long while the pump should run has failed. */
export const GONE_MINUTES = 2;

/** Water that came back in the last minutes of an attempt: one reading of a cheap meter may be off by a tenth, the mean of ten is not. */
export interface Plateau {
  readonly litres: number;
  readonly minutes: number;
}
export const PLATEAU_UNREAD: Plateau = { litres: 0, minutes: 0 };
/** So long before its end a flood runs as it will to the end. */
export const PLATEAU_MINUTES = 5;

/**
 * Shorter floods reach no steady return: in ten minutes more comes back after the short rests of the day than after those of
 * the night, by more than an eighth, and less than after twenty, by up to a third. Longer ones are all alike.
 */
export const STEADY_MINUTES = 15;

/** What came back a minute at the end, L/min; null where less than half of that time was read. */
export const plateauFlow = ({ litres, minutes }: Plateau): number | null =>
  minutes < PLATEAU_MINUTES / 2 ? null : litres / minutes;

/** One due flood from its start to its verdict. */
export interface Flood {
  readonly id: number;
  readonly part: string;
  readonly reason: string;
  readonly minutes: number;
  /** What the plan wanted, where that was longer; not there where it was not. */
  readonly wantedMinutes?: number;
  /** How long it was to be, and what ended it before; not there where nothing did. */
  readonly cut?: { readonly ofMinutes: number; readonly why: string };
  readonly lagMinutes: number;
  /** Floods before it have been confirmed by the tank alone: it tells also of one that gave no water. Not there where it does not. */
  readonly tankTells?: true;
  /** What its roots may have lacked as it began and take of it, litres. */
  readonly lackedLitres: number;
  readonly startedAt: MonotonicMillis;
  readonly retries: number;
  readonly attemptAt: MonotonicMillis;
  readonly phase:
    | { readonly kind: 'running'; readonly endsAt: MonotonicMillis }
    /** The pump has stopped, but the water of a short flood may still be on its way. */
    | { readonly kind: 'draining'; readonly endsAt: MonotonicMillis }
    | { readonly kind: 'pausing'; readonly endsAt: MonotonicMillis };
  readonly lookedAt: MonotonicMillis;
  readonly waterFirstAt: MonotonicMillis | null;
  /** Since when what had been seen of it, in this attempt or one before, is gone; null while it is there and before it ever was. */
  readonly goneSince: MonotonicMillis | null;
  readonly waterMinutes: number;
  /** Minutes of this attempt in which the return could be read at all. */
  readonly readMinutes: number;
  /** Since when it can be read; null while it cannot. */
  readonly readableSince: MonotonicMillis | null;
  /** Minutes in which the level of the tank could be read. */
  readonly levelMinutes: number;
  readonly contact: Seen;
  readonly current: Seen;
  readonly mains: Seen;
  readonly endLitresPerMinute: number | null;
  /** What came back in its last minutes, as far as they were read. */
  readonly plateau: Plateau;
  /** What the return sensor showed as it began: where that was water, the channels were full still, or it sticks. */
  readonly returnAtStart: Seen;
  readonly tankAtStart: number | null;
  readonly tankLowest: number | null;
  /** Until when the board went on with it and nobody here could see it; null when it was watched throughout. */
  readonly unwatchedUntil: MonotonicMillis | null;
}

/** What is seen of the pump's power before anything has been. */
export const NO_POWER_SEEN = { contact: 'unknown', current: 'unknown', mains: 'unknown' } as const;

/** A new attempt has been seen to do nothing yet. */
export const NOTHING_SEEN = {
  waterFirstAt: null,
  waterMinutes: 0,
  readMinutes: 0,
  plateau: PLATEAU_UNREAD,
  ...NO_POWER_SEEN,
} as const;

export const beganFlood = (
  facts: Pick<Flood, 'id' | 'part' | 'reason' | 'minutes' | 'lagMinutes' | 'tankTells' | 'wantedMinutes'>,
  atStart: {
    readonly tankLitres: number | null;
    readonly returnShows: Seen;
    readonly lackedLitres?: number;
  } | null,
  now: MonotonicMillis,
): Flood => ({
  ...facts,
  startedAt: now,
  retries: 0,
  attemptAt: now,
  phase: { kind: 'running', endsAt: afterMinutes(now, facts.minutes) },
  lookedAt: now,
  ...NOTHING_SEEN,
  goneSince: null,
  endLitresPerMinute: null,
  readableSince: atStart?.returnShows === 'unknown' ? null : now,
  levelMinutes: 0,
  lackedLitres: atStart?.lackedLitres ?? 0,
  returnAtStart: atStart?.returnShows ?? 'unknown',
  tankAtStart: atStart?.tankLitres ?? null,
  tankLowest: atStart?.tankLitres ?? null,
  unwatchedUntil: null,
});

/** The same, ended now; its water may still be on its way. */
export const cutFlood = (flood: Flood, why: string, now: MonotonicMillis): Flood =>
  flood.phase.kind === 'running'
    ? {
        ...flood,
        minutes: minutesBetween(flood.attemptAt, now),
        cut: { ofMinutes: flood.minutes, why },
        phase: { kind: 'running', endsAt: now },
      }
    : flood;

const retryMinutes = (farm: Farm): number => farm.pump.shortestOffSeconds / 60 + PRIME_MINUTES;

/** By when the flood must have shown water: start, return lag, and the bounded time for retries. */
export const deadlineMinutes = (farm: Farm, lagMinutes: number): number =>
  lagMinutes + RETRIES_MAX * retryMinutes(farm);

/** By when it is missed; one whose water stopped half way has the time for all its retries from there on. */
export const deadlineOf = (farm: Farm, { startedAt, lagMinutes, goneSince }: Flood): MonotonicMillis =>
  goneSince === null
    ? afterMinutes(startedAt, deadlineMinutes(farm, lagMinutes))
    : afterMinutes(goneSince, deadlineMinutes(farm, GONE_MINUTES));
