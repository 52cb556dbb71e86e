import type { Alarms } from '../alarm/alarm.ts';
import type { AlarmKind } from '../alarm/card.ts';
import { NO_DAY, type DayKept } from '../alarm/all-well.ts';
import { NO_CALLS, type CallsKept } from '../alarm/calls.ts';
import type { Shutter } from '../command/interlock.ts';
import { NO_ORDERS, type Orders } from '../command/orders.ts';
import { guardAtStart, type PumpGuard } from '../command/pump-guard.ts';
import { NO_SIPS, type Sips, type TankRule } from '../command/tank-rule.ts';
import { beliefAtStart, type Belief } from '../estimate/belief.ts';
import { factsWithoutDate, type BenchFacts } from '../estimate/bench-facts.ts';
import { referenceDay, type ReferenceDay } from '../estimate/reference-day.ts';
import { NO_TREND, type FloodBefore, type TankTrend } from '../estimate/tank-trend.ts';
import type { Farm } from '../farm/farm.ts';
import type { DayView } from '../plan/day-view.ts';
import { scheduleAtStart, type Schedule } from '../plan/schedule.ts';
import type { Link } from '../ports/board.ts';
import type { HostHealth } from '../ports/host-health.ts';
import { FLOAT_UNWATCHED, type FloatWatch } from '../sense/float-watch.ts';
import { NO_SENSES, type Senses } from '../sense/senses.ts';
import { STRENGTH_UNWATCHED, type StrengthWatch } from '../sense/strength-watch.ts';
import { wallMillis, type MonotonicMillis, type Now } from '../time/instant.ts';
import { trustAtStart, type ClockTrust } from '../time/clock-trust.ts';
import { MAINS_THERE, type MainsWatch } from '../verify/mains-watch.ts';
import type { Flood } from '../verify/flood.ts';
import { NOTHING_LEARNED, type Learned } from '../verify/learned.ts';
import { TRUSTED, type ReturnTrust } from '../verify/return-trust.ts';
import type { MissClue, Verdict } from '../verify/verdict.ts';

/** What holds for one local day; `view` is null until a wall clock has been believed. */
export interface Almanac {
  readonly view: DayView | null;
  readonly facts: readonly BenchFacts[];
  readonly reference: ReferenceDay;
}

/** What the alarms remember between moments. */
export interface Memory {
  readonly missed: MissClue | null;
  readonly degraded: Extract<Verdict, { kind: 'degraded' }> | null;
  readonly lastWaterAt: MonotonicMillis | null;
  /** What shows at this moment that the pump runs though it was asked off, and since when it has. */
  readonly unasked: { readonly why: string; readonly since: MonotonicMillis } | null;
  /** The same, once it has lasted, and until it is seen to be over. */
  readonly runsOn: { readonly why: string; readonly since: MonotonicMillis } | null;
  /** Since when the pump cannot have run: asked off, or without power by contact and current both. */
  readonly idleSince: MonotonicMillis | null;
  readonly returnTrust: ReturnTrust;
  readonly mains: MainsWatch;
  readonly float: FloatWatch;
  readonly strength: StrengthWatch;
  /** Since when the board has not been heard for a minute in one piece, and when it last was not; null while it is. */
  readonly lineGone: { readonly since: MonotonicMillis; readonly lastAt: MonotonicMillis } | null;
  readonly airBadSince: MonotonicMillis | null;
  readonly flowBadSince: MonotonicMillis | null;
  /** Since when floods are stopped, and the time that was left then. */
  readonly shut: {
    readonly since: MonotonicMillis;
    readonly leftMinutes: number;
    readonly reason: string;
    readonly by: Shutter;
  } | null;
}

/** What was believed when the board was lost, and whether it floods by a table of its own since. */
export interface Away {
  readonly belief: Belief;
  readonly keeper: 'keeps' | 'none';
}

/** What an earlier host of this farm knew of the board. */
export interface Earlier {
  /** Whether the board floods by a table of its own, and its moments can be held against those of that host. */
  readonly keeper: 'keeps' | 'none';
  readonly heardUntil: MonotonicMillis;
  /** Until when a stock board has left its relay as it was, as far as it had power for certain. */
  readonly pumpUntil: MonotonicMillis;
}

/** All that the controller carries from one moment to the next; plain data, never changed in place. */
export interface ControllerState {
  /**
   * False until the first word to a board: before it the pump may still run by a command from before the start. A
   * board that keeps the plants tells what its pump does, and is not told off.
   */
  readonly toldOff: boolean;
  /** Null at a start without a past, and once this host has heard a board by itself. */
  readonly earlier: Earlier | null;
  readonly link: Link;
  /** Since when the board has not answered. */
  readonly linkDownSince: MonotonicMillis | null;
  /** Null while the board is heard. */
  readonly away: Away | null;
  readonly clock: ClockTrust;
  readonly senses: Senses;
  readonly almanac: Almanac;
  readonly belief: Belief;
  readonly schedule: Schedule;
  readonly orders: Orders;
  readonly tank: TankRule;
  /** As at a start where no sensor reads the level. */
  readonly tankTrend: TankTrend;
  readonly sips: Sips;
  readonly guard: PumpGuard;
  readonly flood: Flood | null;
  readonly floodCount: number;
  readonly learned: Learned;
  readonly alarms: Alarms;
  /** Those that an earlier host raised and of which nobody could see yet whether they stand. */
  readonly carriedAlarms: readonly AlarmKind[];
  /** Who has been called about them. */
  readonly calls: CallsKept;
  /** For the daily word that all is well. */
  readonly day: DayKept;
  /** What the host last told of itself; null until it has. */
  readonly host: HostHealth | null;
  readonly memory: Memory;
}

/** What the last flood was judged to be: whether it left water in the channels to drain back. */
export const lastFlood = ({ missed }: Memory): FloodBefore => (missed === null ? 'not-missed' : 'missed');

/** Whether the board is out of hearing and keeps the plants meanwhile. */
export const isAway = ({ away }: ControllerState): boolean => away?.keeper === 'keeps';

/** Whether the board is heard and holds, floods and remembers by itself. */
export const isHeardKeeper = ({ link }: ControllerState): boolean =>
  link.kind === 'up' && link.kept !== undefined;

export const awayFrom = (belief: Belief, link: Link): Away | null =>
  link.kind === 'up' ? null : { belief, keeper: link.keeper ?? 'none' };

export const stateAtStart = (farm: Farm, now: Now, link: Link): ControllerState => ({
  toldOff: false,
  earlier: null,
  link,
  linkDownSince: link.kind === 'down' ? now.monotonic : null,
  away: awayFrom(beliefAtStart(farm, now.monotonic), link),
  clock: trustAtStart(now),
  senses: NO_SENSES,
  almanac: {
    view: null,
    facts: factsWithoutDate(farm),
    reference: referenceDay(farm, wallMillis(now.wall === 'unknown' ? 0 : now.wall)),
  },
  belief: beliefAtStart(farm, now.monotonic),
  schedule: scheduleAtStart(now.monotonic),
  orders: NO_ORDERS,
  tank: { kind: 'well' },
  tankTrend: NO_TREND,
  sips: NO_SIPS,
  guard: guardAtStart(now.monotonic),
  flood: null,
  floodCount: 0,
  learned: NOTHING_LEARNED,
  alarms: [],
  carriedAlarms: [],
  calls: NO_CALLS,
  day: NO_DAY,
  host: null,
  memory: {
    missed: null,
    degraded: null,
    lastWaterAt: null,
    unasked: null,
    runsOn: null,
    idleSince: null,
    returnTrust: TRUSTED,
    mains: MAINS_THERE,
    float: FLOAT_UNWATCHED,
    strength: STRENGTH_UNWATCHED,
    lineGone: null,
    airBadSince: null,
    flowBadSince: null,
    shut: null,
  },
});
