import {
  current,
  HOLD_MINUTES_MAX,
  holdsOf,
  NO_ORDERS,
  withHold,
  type Hold,
  type Orders,
} from '../command/orders.ts';
import { guardAtStart, type PumpGuard } from '../command/pump-guard.ts';
import { beliefAtStart, type Belief } from '../estimate/belief.ts';
import { isActive } from '../alarm/alarm.ts';
import { factsOn, factsWithoutDate } from '../estimate/bench-facts.ts';
import { hotDayUptake, referenceDay } from '../estimate/reference-day.ts';
import { relived } from '../estimate/relived.ts';
import type { Farm } from '../farm/farm.ts';
import { scheduleAtStart } from '../plan/schedule.ts';
import type { Link } from '../ports/board.ts';
import { FLOAT_UNWATCHED } from '../sense/float-watch.ts';
import { NO_SENSES, type Senses } from '../sense/senses.ts';
import { STRENGTH_UNWATCHED } from '../sense/strength-watch.ts';
import { believedNow, looked, resumedTrust } from '../time/clock-trust.ts';
import {
  afterMinutes,
  minutesBetween,
  monotonicMillis,
  wallAfterMinutes,
  wallMillis,
  type MonotonicMillis,
  type Now,
  type WallMillis,
} from '../time/instant.ts';
import { localDayOf } from '../time/local-day.ts';
import { learnedUnder } from '../verify/learned.ts';
import { MAINS_THERE } from '../verify/mains-watch.ts';
import { TRUSTED } from '../verify/return-trust.ts';
import { farmLitresPerMinute } from '../verify/sighting.ts';
import type { KeptBelief, KeptState } from './kept-state.ts';
import {
  movedAlarms,
  movedCalls,
  movedDay,
  movedFlood,
  movedMemory,
  movedSchedule,
  movedTank,
  movedTrend,
  type Moved,
} from './resume-moments.ts';
import { stateAtStart, type ControllerState, type Memory } from './state.ts';

export { keptState, type KeptState } from './kept-state.ts';

/** What was believed of the benches longer ago says nothing of now. */
const BELIEVED_MINUTES = 24 * 60;

/** How long nobody was there, in minutes; `unknown` where no clock tells. */
export type Away = number | 'unknown';

/** Whether the machine went on meanwhile, and with it whatever hangs on its power, or was started anew. */
export type Boot = 'same' | 'another';

/** The wall time at a moment that has passed. */
const wallAt = (at: MonotonicMillis, now: Now): WallMillis | 'unknown' =>
  now.wall === 'unknown' ? now.wall : wallAfterMinutes(now.wall, -minutesBetween(at, now.monotonic));

/** The belief of a moment, for the benches of this farm; as at a start for one that was not known then. */
const beliefFrom = (farm: Farm, kept: KeptBelief, move: Moved): Belief => {
  const at = move.past(kept.at);
  const unknown = beliefAtStart(farm, at);
  return {
    ...unknown,
    benches: unknown.benches.map((start, place) => {
      const name = farm.benches[place]?.name;
      const known = kept.benches.find((bench) => bench.name === name);
      return known === undefined ? start : { theta: known.theta, thetaLow: known.thetaLow };
    }),
  };
};

/**
 * The belief aged to now as on the hot day, with no water since: what was given meanwhile, if anything, only the board can
 * tell.
 */
const aged = (farm: Farm, from: Belief, now: Now): Belief => {
  const { wall } = now;
  const day = wall === 'unknown' ? null : localDayOf(wall, farm.place.timeZone);
  const facts = day === null ? factsWithoutDate(farm) : factsOn(farm, day.date);
  const reference = referenceDay(farm, day?.start ?? wallMillis(0));
  const uptakeAt = (at: MonotonicMillis): number => hotDayUptake(reference, wallAt(at, now));
  return relived(from, [], facts, uptakeAt, farm.floors.stress, now.monotonic);
};

const guardFrom = ({ guard, keeper }: KeptState, move: Moved, now: MonotonicMillis): PumpGuard => {
  // Where nobody knows when they were, the wetter side is that they are long ago.
  const floodStarts = move.known ? guard.floodStarts.map(move.past) : [];
  const { asked } = guard;
  // A stock board is told off first, and nobody knows what its pump did meanwhile.
  if (keeper === 'none' || !move.known) return { ...guardAtStart(now), floodStarts };
  if (asked.kind === 'off')
    return {
      asked: { kind: 'off', since: asked.since === null ? null : move.past(asked.since) },
      floodStarts,
    };
  return { asked: { ...asked, since: move.past(asked.since), until: move.any(asked.until) }, floodStarts };
};

/**
 * The hold as it was, to its end. Where nobody knows how much of it has gone it counts whole from now: hands may be in
 * the water, and it ends all the same.
 */
const holdFrom = (hold: Hold, move: Moved, now: MonotonicMillis): Hold => ({
  ...hold,
  from: move.past(hold.from),
  until: monotonicMillis(Math.min(move.any(hold.until), afterMinutes(now, HOLD_MINUTES_MAX))),
});

const ordersFrom = ({ hold, otherHolds }: KeptState, move: Moved, now: MonotonicMillis): Orders => {
  const holds = holdsOf({ hold, others: otherHolds }).map((one) => holdFrom(one, move, now));
  return current(holds.reduce(withHold, NO_ORDERS), now);
};

const sensesFrom = ({ floorSigns }: KeptState, move: Moved): Senses => ({
  ...NO_SENSES,
  last: Object.fromEntries(floorSigns.map((sign) => [sign.channel, { ...sign, at: move.past(sign.at) }])),
});

/** Whether what told that the pump runs on is still fitted. */
const canTell = ({ evidence }: Farm, { why }: NonNullable<Memory['runsOn']>): boolean => {
  if (why.startsWith('it has drawn current')) return evidence.pumpCurrent;
  return why === 'its relay has been closed' ? evidence.relayReadBack : evidence.returnFlow !== 'none';
};

/** Of what is not fitted any more nothing would ever say that it is over. */
const memoryFrom = (farm: Farm, kept: KeptState, move: Moved): Memory => {
  const memory = movedMemory(kept.memory, move);
  return {
    ...memory,
    runsOn: memory.runsOn !== null && canTell(farm, memory.runsOn) ? memory.runsOn : null,
    degraded: farm.evidence.returnFlow === 'none' ? null : memory.degraded,
    mains: farm.evidence.mainsPresent ? memory.mains : MAINS_THERE,
    returnTrust: farm.evidence.returnFlow === 'none' ? TRUSTED : memory.returnTrust,
    float: farm.evidence.tankFloat ? memory.float : FLOAT_UNWATCHED,
    strength:
      farm.board !== undefined && farm.board.probe === undefined ? STRENGTH_UNWATCHED : memory.strength,
    lastWaterAt: move.known ? memory.lastWaterAt : null,
  };
};

/**
 * The state of a controller that goes on where an earlier one of the same farm ended. Its moments are moved to the clock
 * of `now`, `away` minutes after the last of them. What nobody can know any more is as at a start, which is the wetter side;
 * alarms stay until their conditions are seen to have gone.
 */
export const resumed = (
  farm: Farm,
  kept: KeptState,
  now: Now,
  away: Away,
  link: Link,
  boot: Boot = 'same',
): ControllerState => {
  const isKnown = away !== 'unknown' && away >= 0;
  const keptAt = isKnown ? afterMinutes(now.monotonic, -away) : now.monotonic;
  const shift = keptAt - kept.at.monotonic;
  const any = (moment: MonotonicMillis): MonotonicMillis => monotonicMillis(moment + shift);
  const move: Moved = {
    known: isKnown,
    any,
    past: (moment) => monotonicMillis(Math.min(any(moment), now.monotonic)),
  };
  const clock = looked(resumedTrust(kept.clock, shift, isKnown ? boot : 'another', now), now);
  const start = stateAtStart(farm, now, link);
  const isBelieved = isKnown && away <= BELIEVED_MINUTES;
  const belief = isBelieved ? beliefFrom(farm, kept.belief, move) : start.belief;
  const keeps = kept.keeper === 'keeps' && move.known && (link.kind === 'down' || link.kept !== undefined);
  const heardBelief = isBelieved
    ? beliefFrom(farm, kept.awayBelief ?? kept.belief, move)
    : beliefAtStart(farm, move.past(kept.heardUntil));
  return {
    ...start,
    earlier: {
      keeper: keeps ? 'keeps' : 'none',
      heardUntil: move.past(kept.heardUntil),
      // What the machine feeds has gone on with it; where it was started anew its board stood too.
      pumpUntil: boot === 'same' ? now.monotonic : move.past(kept.at.monotonic),
    },
    carriedAlarms: kept.alarms.filter(isActive).map(({ card }) => card.kind),
    linkDownSince:
      link.kind === 'up' ? null : kept.linkDownSince === null ? now.monotonic : move.past(kept.linkDownSince),
    away: keeps ? { belief: heardBelief, keeper: 'keeps' } : start.away,
    clock,
    senses: sensesFrom(kept, move),
    belief: aged(farm, belief, believedNow(clock, now)),
    schedule: move.known ? movedSchedule(kept.schedule, move) : scheduleAtStart(now.monotonic),
    orders: ordersFrom(kept, move, now.monotonic),
    tank: farm.evidence.tankFloat ? movedTank(kept.tank, move) : start.tank,
    tankTrend: farm.evidence.tankLevel ? movedTrend(kept.tankTrend, move) : start.tankTrend,
    sips: { ...kept.sips, lastAt: kept.sips.lastAt === null ? null : move.past(kept.sips.lastAt) },
    guard: guardFrom(kept, move, now.monotonic),
    flood: kept.flood === null ? null : movedFlood(kept.flood, move),
    floodCount: kept.floodCount,
    learned: learnedUnder(kept.learned, farmLitresPerMinute(farm)),
    alarms: movedAlarms(kept.alarms, move),
    calls: movedCalls(kept.calls, move),
    day: movedDay(kept.day, move),
    memory: memoryFrom(farm, kept, move),
  };
};
