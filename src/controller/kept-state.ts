import type { Alarms } from '../alarm/alarm.ts';
import type { DayKept } from '../alarm/all-well.ts';
import type { CallsKept } from '../alarm/calls.ts';
import type { Orders } from '../command/orders.ts';
import type { PumpGuard } from '../command/pump-guard.ts';
import type { Sips, TankRule } from '../command/tank-rule.ts';
import type { BenchBelief } from '../estimate/belief.ts';
import type { TankCourse } from '../estimate/tank-course.ts';
import type { TankTrend } from '../estimate/tank-trend.ts';
import type { Schedule } from '../plan/schedule.ts';
import { believedNow, type KeptTrust } from '../time/clock-trust.ts';
import type { MonotonicMillis, Now } from '../time/instant.ts';
import type { Flood } from '../verify/flood.ts';
import type { Learned } from '../verify/learned.ts';
import { isHeardKeeper, type ControllerState, type Memory } from './state.ts';

/** What was believed of one bench; by its name, since a farm file may have changed before the next start. */
export interface KeptBench extends BenchBelief {
  readonly name: string;
}

export interface KeptBelief {
  readonly at: MonotonicMillis;
  readonly benches: readonly KeptBench[];
}

/** A sensor for water on the floor that had spoken: one that falls silent while wet stays wet, over a restart too. */
export interface KeptFloorSign {
  readonly channel: 'leak' | 'overflow';
  readonly wet: boolean;
  readonly at: MonotonicMillis;
}

/**
 * What of a controller outlives its process: plain data, in moments of the clock of `at`. Readings are not in it, for
 * they are of the moment; what they taught is.
 */
export interface KeptState {
  /** When this was so; its wall time only as far as it was believed. */
  readonly at: Now;
  readonly clock: KeptTrust;
  /** Whether the board floods by a table of its own while no host is heard. */
  readonly keeper: 'keeps' | 'none';
  /** Until when that board was heard: what it did later nobody here has counted yet. */
  readonly heardUntil: MonotonicMillis;
  readonly linkDownSince: MonotonicMillis | null;
  readonly belief: KeptBelief;
  /** What was believed when the board was last heard; null where that is `belief`. */
  readonly awayBelief: KeptBelief | null;
  readonly floorSigns: readonly KeptFloorSign[];
  readonly schedule: Schedule;
  readonly hold: Orders['hold'];
  readonly otherHolds: Orders['others'];
  readonly tank: TankRule;
  /** What the tank did; a slope over the restart is none. */
  readonly tankTrend: Pick<TankTrend, keyof TankCourse | 'fullMoments'>;
  readonly sips: Sips;
  readonly guard: PumpGuard;
  /** The flood that was under way. */
  readonly flood: Flood | null;
  readonly floodCount: number;
  readonly learned: Learned;
  readonly alarms: Alarms;
  readonly calls: CallsKept;
  readonly day: DayKept;
  /** Without what runs unasked at this moment: only this moment can tell. */
  readonly memory: Memory;
}

const named = (
  state: ControllerState,
  { at, benches }: KeptBelief | ControllerState['belief'],
): KeptBelief => ({
  at,
  benches: benches.map(({ theta, thetaLow }, place) => ({
    name: state.almanac.facts[place]?.name ?? '',
    theta,
    thetaLow,
  })),
});

const floorSignsOf = ({ senses }: ControllerState): readonly KeptFloorSign[] =>
  [senses.last.leak, senses.last.overflow].flatMap((sample) =>
    sample !== undefined && (sample.channel === 'leak' || sample.channel === 'overflow')
      ? [{ channel: sample.channel, wet: sample.wet, at: sample.at }]
      : [],
  );

const heardUntil = (
  { earlier, link, linkDownSince }: ControllerState,
  at: MonotonicMillis,
): MonotonicMillis => {
  // No board has been heard since the start: what is known of it is what the host before knew.
  if (earlier !== null) return earlier.heardUntil;
  return link.kind === 'up' ? at : (linkDownSince ?? at);
};

/** What to keep of a controller at this moment. */
export const keptState = (state: ControllerState, now: Now): KeptState => {
  const away = state.away?.keeper === 'keeps' ? state.away.belief : null;
  return {
    at: believedNow(state.clock, now),
    clock: state.clock,
    keeper: isHeardKeeper(state) || away !== null ? 'keeps' : 'none',
    heardUntil: heardUntil(state, now.monotonic),
    linkDownSince: state.linkDownSince,
    belief: named(state, state.belief),
    awayBelief: away === null ? null : named(state, away),
    floorSigns: floorSignsOf(state),
    schedule: state.schedule,
    hold: state.orders.hold,
    otherHolds: state.orders.others,
    tank: state.tank,
    tankTrend: {
      slopes: state.tankTrend.slopes,
      last: state.tankTrend.last,
      course: state.tankTrend.course,
      unfilledLitres: state.tankTrend.unfilledLitres,
      fullMoments: state.tankTrend.fullMoments,
    },
    sips: state.sips,
    guard: state.guard,
    flood: state.flood,
    floodCount: state.floodCount,
    learned: state.learned,
    alarms: state.alarms,
    calls: state.calls,
    day: state.day,
    memory: { ...state.memory, unasked: null },
  };
};
