import type { Alarms } from '../alarm/alarm.ts';
import type { DayKept } from '../alarm/all-well.ts';
import type { CallsKept } from '../alarm/calls.ts';
import type { TankRule } from '../command/tank-rule.ts';
import { NO_TREND, type TankTrend } from '../estimate/tank-trend.ts';
import type { Schedule } from '../plan/schedule.ts';
import { floatWatchKept } from '../sense/float-watch.ts';
import { strengthWatchKept } from '../sense/strength-watch.ts';
import type { MonotonicMillis } from '../time/instant.ts';
import type { Flood } from '../verify/flood.ts';
import type { KeptState } from './kept-state.ts';
import type { Memory } from './state.ts';

/** Moments of an earlier process on the clock of this one. */
export interface Moved {
  /** Whether anybody knows how long ago they are; if not they are taken as if no time had passed. */
  readonly known: boolean;
  readonly any: (moment: MonotonicMillis) => MonotonicMillis;
  /** Of what has been; never after now. */
  readonly past: (moment: MonotonicMillis) => MonotonicMillis;
}

const pastOrNull = (moment: MonotonicMillis | null, { past }: Moved): MonotonicMillis | null =>
  moment === null ? null : past(moment);

export const movedSchedule = (schedule: Schedule, move: Moved): Schedule => ({
  ...schedule,
  turnAt: move.past(schedule.turnAt),
  lastStart: pastOrNull(schedule.lastStart, move),
  lastEnd: pastOrNull(schedule.lastEnd, move),
});

export const movedTank = (tank: TankRule, { past }: Moved): TankRule => {
  switch (tank.kind) {
    case 'well':
      return tank;
    case 'low':
      return { ...tank, since: past(tank.since), lowAt: past(tank.lowAt) };
    case 'float-suspect':
    case 'returning':
      return { ...tank, since: past(tank.since) };
  }
};

/** A leak that was believed is believed until the tank is seen to have stopped falling. */
export const movedTrend = (kept: KeptState['tankTrend'], { past }: Moved): TankTrend => ({
  ...NO_TREND,
  ...kept,
  slopes: kept.slopes.map((slope) => ({ ...slope, at: past(slope.at) })),
  last: kept.last === null ? null : { ...kept.last, at: past(kept.last.at) },
});

export const movedFlood = (flood: Flood, move: Moved): Flood => ({
  ...flood,
  startedAt: move.past(flood.startedAt),
  attemptAt: move.past(flood.attemptAt),
  phase: { ...flood.phase, endsAt: move.any(flood.phase.endsAt) },
  lookedAt: move.past(flood.lookedAt),
  waterFirstAt: pastOrNull(flood.waterFirstAt, move),
  goneSince: pastOrNull(flood.goneSince, move),
  // The sensors of this host have not spoken yet.
  readableSince: null,
  unwatchedUntil: pastOrNull(flood.unwatchedUntil, move),
});

export const movedAlarms = (alarms: Alarms, move: Moved): Alarms =>
  alarms.map((alarm) => ({
    ...alarm,
    raisedAt: move.past(alarm.raisedAt),
    course: {
      awaySince: pastOrNull(alarm.course.awaySince, move),
      turns: alarm.course.turns.map(move.past),
      chatteredAt: pastOrNull(alarm.course.chatteredAt, move),
    },
    shelf: alarm.shelf === null ? null : { ...alarm.shelf, until: move.any(alarm.shelf.until) },
  }));

/** A call that fell due meanwhile is due at once. */
export const movedCalls = ({ voices, recent }: CallsKept, move: Moved): CallsKept => ({
  voices: voices.map((voice) => ({
    ...voice,
    raisedAt: move.past(voice.raisedAt),
    since: move.past(voice.since),
    endedAt: pastOrNull(voice.endedAt, move),
    calledAt: pastOrNull(voice.calledAt, move),
    dueAt: voice.dueAt === null ? null : move.any(voice.dueAt),
    unexplainedAt: pastOrNull(voice.unexplainedAt, move),
  })),
  recent: recent.map((call) => ({ ...call, at: move.past(call.at) })),
});

/** Verdicts of nobody knows when are none of the last 24 hours. */
export const movedDay = ({ saidOn, verdicts }: DayKept, move: Moved): DayKept => ({
  saidOn,
  verdicts: move.known ? verdicts.map((one) => ({ ...one, at: move.past(one.at) })) : [],
});

/** What runs unasked at this moment only this moment can tell. */
export const movedMemory = (memory: KeptState['memory'], move: Moved): Memory => {
  const { missed, runsOn, returnTrust, mains, shut } = memory;
  return {
    missed:
      missed === null
        ? null
        : {
            ...missed,
            startedAt: move.past(missed.startedAt),
            stoppedAt: pastOrNull(missed.stoppedAt, move),
            deadline: move.any(missed.deadline),
          },
    degraded: memory.degraded,
    lastWaterAt: pastOrNull(memory.lastWaterAt, move),
    unasked: null,
    lineGone: null,
    runsOn: runsOn === null ? null : { ...runsOn, since: move.past(runsOn.since) },
    // What happened to it meanwhile nobody saw.
    idleSince: null,
    returnTrust: {
      stuckSince: pastOrNull(returnTrust.stuckSince, move),
      // All are of looking on, and nobody did.
      oddSince: null,
      oddTimes: [],
      noneSince: null,
      wetLong: returnTrust.wetLong,
      unproven: returnTrust.unproven,
      drained: returnTrust.drained,
      mostInRest: null,
    },
    mains: {
      ...mains,
      lostSince: pastOrNull(mains.lostSince, move),
      restedSince: pastOrNull(mains.restedSince, move),
    },
    float: floatWatchKept(memory.float),
    strength: strengthWatchKept(memory.strength, move.past),
    airBadSince: pastOrNull(memory.airBadSince, move),
    flowBadSince: pastOrNull(memory.flowBadSince, move),
    shut: shut === null ? null : { ...shut, since: move.past(shut.since) },
  };
};
