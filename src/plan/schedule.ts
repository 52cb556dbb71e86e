import { afterMinutes, minutesBetween, monotonicMillis, type MonotonicMillis } from '../time/instant.ts';
import type { Pace } from './pace.ts';

/**
 * Where the schedule stands. `turn` runs from 0 to 1 over one rest and its flood, at the pace of each
 * moment; so a part by number gets its number, whatever its neighbours do, and a change of temperature or of
 * day part half way through a rest counts for the half that is left.
 */
export interface Schedule {
  readonly turn: number;
  readonly turnAt: MonotonicMillis;
  /** How long a whole turn takes since `turnAt`; null before the first look. */
  readonly turnMinutes: number | null;
  readonly lastStart: MonotonicMillis | null;
  readonly lastEnd: MonotonicMillis | null;
  /** A flood that was withheld or missed is still owed: it comes as soon as it may. */
  readonly owed: string | null;
}

/** After a start with no history: one flood is owed. */
export const scheduleAtStart = (now: MonotonicMillis): Schedule => ({
  turn: 0,
  turnAt: now,
  turnMinutes: null,
  lastStart: null,
  lastEnd: null,
  owed: 'first flood after the start',
});

/** The turn moved to now at the pace that stood until now; `pace` stands from now on. */
export const turned = (schedule: Schedule, pace: Pace, now: MonotonicMillis): Schedule => {
  const turnMinutes = pace.restMinutes + pace.floodMinutes;
  const share = minutesBetween(schedule.turnAt, now) / (schedule.turnMinutes ?? turnMinutes);
  return { ...schedule, turn: Math.min(1, schedule.turn + share), turnAt: now, turnMinutes };
};

/**
 * A flood that is shortened by so many minutes is not followed by a longer rest: they count as had.
 */
export const floodStarted = (schedule: Schedule, now: MonotonicMillis, shortenedByMinutes = 0): Schedule => ({
  ...schedule,
  turn: schedule.turnMinutes === null ? 0 : shortenedByMinutes / schedule.turnMinutes,
  turnAt: now,
  lastStart: now,
  owed: null,
});

/** A flood under way that is ended so many minutes before its time; they count as had, as above. */
export const floodCut = (schedule: Schedule, minutes: number): Schedule =>
  schedule.turnMinutes === null
    ? schedule
    : { ...schedule, turn: Math.min(1, schedule.turn + minutes / schedule.turnMinutes) };

export const floodEnded = (schedule: Schedule, now: MonotonicMillis): Schedule => ({
  ...schedule,
  lastEnd: now,
});

/**
 * A whole flood that the board has given by itself, or still gives: the turn goes on as after one of the plan, so that
 * neither a shorter nor a longer one moves the rest that follows. `end` is null while it runs.
 */
export const floodHad = (
  schedule: Schedule,
  flood: {
    readonly start: MonotonicMillis;
    readonly end: MonotonicMillis | null;
    readonly until: MonotonicMillis;
  },
  planFloodMinutes: number,
): Schedule => ({
  ...schedule,
  turn: 0,
  turnAt: afterMinutes(flood.until, -planFloodMinutes),
  turnMinutes: null,
  lastStart: flood.start,
  lastEnd: flood.end ?? schedule.lastEnd,
  owed: null,
});

export const owing = (schedule: Schedule, why: string): Schedule => ({ ...schedule, owed: why });

/** A flood that may not run is counted as had its turn, and owed. */
export const withheld = (schedule: Schedule, why: string): Schedule => ({ ...schedule, turn: 0, owed: why });

/** Minutes of rest so far; null before the first flood. */
export const restedMinutes = (schedule: Schedule, now: MonotonicMillis): number | null =>
  schedule.lastEnd === null ? null : minutesBetween(schedule.lastEnd, now);

/** When the shortest rest is over: no flood of the plan before it. */
export const earliestStart = (schedule: Schedule, pace: Pace, now: MonotonicMillis): MonotonicMillis =>
  schedule.lastEnd === null
    ? now
    : monotonicMillis(Math.max(now, afterMinutes(schedule.lastEnd, pace.shortestRestMinutes)));

/** When the next flood is due if nothing changes: the plan's turn, or the longest rest if that is sooner. */
export const plannedStart = (schedule: Schedule, pace: Pace, now: MonotonicMillis): MonotonicMillis => {
  const byTurn = afterMinutes(now, (1 - schedule.turn) * (pace.restMinutes + pace.floodMinutes));
  const byLongest =
    schedule.lastEnd === null ? byTurn : afterMinutes(schedule.lastEnd, pace.longestRestMinutes);
  return monotonicMillis(Math.max(earliestStart(schedule, pace, now), Math.min(byTurn, byLongest)));
};
