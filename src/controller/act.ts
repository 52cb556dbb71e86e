import { floorSigns, interlock, type Interlock } from '../command/interlock.ts';
import { floodServed } from '../command/orders.ts';
import { permitted, type PumpWish } from '../command/pump-guard.ts';
import { nextSipAt, sipSeconds } from '../command/tank-rule.ts';
import { lackedLitres } from '../estimate/belief.ts';
import { timeLeft, type Outlook } from '../estimate/time-left.ts';
import { intention, type Intention } from '../plan/intention.ts';
import { paceNow, type Pace } from '../plan/pace.ts';
import { floodEnded, floodStarted, turned, withheld } from '../plan/schedule.ts';
import { afterMinutes, minutesBetween, monotonicMillis, type MonotonicMillis } from '../time/instant.ts';
import { stopped } from '../verify/flood-verdict.ts';
import { beganFlood } from '../verify/flood.ts';
import { returnLagMinutes, tankTells } from '../verify/learned.ts';
import type { Sighting } from '../verify/sighting.ts';
import { believedAir } from './air.ts';
import { whileAway } from './away.ts';
import { closed, type PumpNeed } from './judge.ts';
import { lengthened } from './lengthened.ts';
import { MAINS_BACK } from './mains.ts';
import { isAway, isHeardKeeper } from './state.ts';
import { turnedTo, type Turn } from './turn.ts';
import { floorIsFlooded, ON_WET_FLOOR, scheduleOnFloor, wetFloorEnds } from './wet-floor.ts';

/** With less than this left a stop on two signs of water gives a last sip, and no limit of starts an hour keeps a flood back. */
const LAST_MINUTES = 15;

export interface Acted {
  readonly turn: Turn;
  readonly lock: Interlock;
  readonly pace: Pace;
  /** When the next decision may fall. */
  readonly until: MonotonicMillis;
  /** When the next flood is planned, as things stand; null while one runs or none may. */
  readonly nextFloodAt: MonotonicMillis | null;
}

/** Asks the pump for something through the last gate. */
const asked = (
  turn: Turn,
  wish: PumpWish,
): { readonly turn: Turn; readonly refusedUntil: MonotonicMillis | null } => {
  const { farm, state, now } = turn;
  const permit = permitted(farm, state.guard, wish, now.monotonic);
  const said = permit.commands.map((command) =>
    command.kind === 'pump-on'
      ? ({ kind: 'pump-asked', pump: 'on', longestSeconds: command.longest } as const)
      : ({ kind: 'pump-asked', pump: 'off', longestSeconds: null } as const),
  );
  return {
    turn: turnedTo(turn, { guard: permit.guard }, said, permit.commands),
    refusedUntil: permit.refused?.until ?? null,
  };
};

/** The pump has run its time; for roots the rest begins now, unless it was only a sip or had no mains but in its last moments. */
const timeIsUp = (turn: Turn): Turn => {
  const { guard, schedule, flood } = turn.state;
  const sip = guard.asked.kind === 'on' && guard.asked.purpose === 'sip';
  const dry = flood === null && schedule.owed === MAINS_BACK;
  const rests = sip || dry ? turn : turnedTo(turn, { schedule: floodEnded(schedule, turn.now.monotonic) });
  return asked(rests, { kind: 'off' }).turn;
};

/** The pump as the flood under way, or the end of its time, asks for it. */
const pumpServed = (turn: Turn, need: PumpNeed): Turn => {
  const { guard, flood } = turn.state;
  switch (need) {
    case 'off':
      return asked(turn, { kind: 'off' }).turn;
    case 'restart':
      return flood === null
        ? turn
        : asked(turn, { kind: 'on', minutes: flood.minutes, purpose: 'retry' }).turn;
    case 'on':
    case 'as-it-is':
      return guard.asked.kind === 'on' && guard.asked.until <= turn.now.monotonic ? timeIsUp(turn) : turn;
  }
};

/** Stops a flood that an order or an interlock no longer allows. */
const stoppedBy = (turn: Turn, reason: string): Turn => {
  const { flood, guard } = turn.state;
  const still = guard.asked.kind === 'on' ? asked(turn, { kind: 'off' }).turn : turn;
  if (flood === null) return still;
  return closed(still, flood, stopped(flood, reason, turn.now.monotonic));
};

/** A due flood that may not run gets its verdict at once, and is owed. */
const heldBack = (turn: Turn, wish: Extract<Intention, { kind: 'flood' }>, reason: string): Turn => {
  const { state } = turn;
  const id = state.floodCount + 1;
  const waits = floorIsFlooded(turn) ? ON_WET_FLOOR : '';
  return turnedTo(
    turn,
    { floodCount: id, schedule: withheld(state.schedule, `withheld before: ${reason}${waits}`) },
    [{ kind: 'verdict', flood: id, part: wish.part, verdict: { kind: 'withheld', says: reason } }],
  );
};

const begun = (
  turn: Turn,
  wish: Extract<Intention, { kind: 'flood' }>,
  { pace, seen, outlook }: { readonly pace: Pace; readonly seen: Sighting; readonly outlook: Outlook },
): Turn => {
  const { state, now } = turn;
  const { turn: next, refusedUntil } = askedAtLast(
    turn,
    { kind: 'on', minutes: wish.minutes, purpose: 'flood' },
    outlook,
  );
  if (refusedUntil !== null) return turn;
  // A pump that runs unasked has drawn the tank down before.
  const runsAlready = seen.contact === 'seen' || seen.current === 'seen';
  const flood = beganFlood(
    {
      id: state.floodCount + 1,
      part: wish.part,
      reason: wish.reason,
      minutes: wish.minutes,
      ...(pace.floodMinutes > wish.minutes ? { wantedMinutes: pace.floodMinutes } : {}),
      lagMinutes: returnLagMinutes(state.learned),
      ...(tankTells(state.learned) && !runsAlready ? { tankTells: true } : {}),
    },
    { ...seen, lackedLitres: lackedLitres(state.belief, state.almanac.facts) },
    now.monotonic,
  );
  return turnedTo(
    next,
    {
      flood,
      floodCount: flood.id,
      orders: floodServed(next.state.orders),
      schedule: floodStarted(
        next.state.schedule,
        now.monotonic,
        Math.max(0, pace.floodMinutes - wish.minutes),
      ),
    },
    [
      {
        kind: 'flood-started',
        flood: flood.id,
        part: flood.part,
        minutes: flood.minutes,
        reason: flood.reason,
      },
    ],
  );
};

/** Whether a bench is near its wilt. */
const isLast = ({ farm, state, now }: Turn, outlook: Outlook): boolean =>
  timeLeft(farm, state.belief, outlook, now.wall).minutes < LAST_MINUTES;

/** Starts an hour spare the pump; near the wilt the plants come first, and only the shortest off still counts. */
const askedAtLast = (
  turn: Turn,
  wish: Extract<PumpWish, { kind: 'on' }>,
  outlook: Outlook,
): ReturnType<typeof asked> => {
  const within = asked(turn, wish);
  if (within.refusedUntil === null || !isLast(turn, outlook)) return within;
  return asked(turn, { ...wish, despiteStarts: true });
};

/** Whether a sip is due now under a lock that allows nothing more. */
const sipIsDue = (turn: Turn, lock: Extract<Interlock, { kind: 'sips' }>, outlook: Outlook): boolean => {
  const { state, now } = turn;
  if (lock.since !== null) return nextSipAt(state.sips, lock.since) <= now.monotonic;
  const { lastAt } = state.sips;
  const rested = lastAt === null || nextSipAt(state.sips, lastAt) <= now.monotonic;
  return rested && isLast(turn, outlook);
};

const sipped = (turn: Turn, reason: string): Turn => {
  const { state, now } = turn;
  const wish = { kind: 'on', minutes: sipSeconds(state.sips) / 60, purpose: 'sip' } as const;
  const { turn: next, refusedUntil } = asked(turn, wish);
  if (refusedUntil !== null) return turn;
  const sips = { count: state.sips.count + 1, lastAt: now.monotonic };
  return turnedTo(next, { sips }, [{ kind: 'sip', reason }]);
};

const wishNow = (turn: Turn, pace: Pace, outlook: Outlook): Intention => {
  const { farm, state, now } = turn;
  const wish = intention(farm, scheduleOnFloor(turn), pace, state.belief, outlook, now);
  const { floodNow } = state.orders;
  if (floodNow === null || wish.kind === 'flood') return wish;
  return {
    kind: 'flood',
    minutes: pace.floodMinutes,
    part: pace.part,
    reason: `flood now: asked for by ${floodNow.who}`,
  };
};

/** A board that has just told of its floods has not told of the air yet. */
const AIR_AWAITED_MINUTES = 1;

/**
 * Whether the rest since a flood of the board's must wait to be measured: by the shortest rest, which stands while no air
 * is known, it would be over too soon after every absence.
 */
const airIsAwaited = (turn: Turn): boolean => {
  const { schedule, memory } = turn.state;
  if (!isHeardKeeper(turn.state) || schedule.turnMinutes !== null) return false;
  // Where no rest follows the air nobody waits for it.
  if (turn.farm.temperatureRule.restPercentPerDegree === 0) return false;
  if (believedAir(turn).quality === 'good') return false;
  const { airBadSince } = memory;
  return airBadSince === null || minutesBetween(airBadSince, turn.now.monotonic) < AIR_AWAITED_MINUTES;
};

/** Decides and acts: the flood under way first, then what the plan wants and the interlocks allow. */
export const act = (before: Turn, need: PumpNeed, seen: Sighting, outlook: Outlook): Acted => {
  const { farm, now } = before;
  const pace = paceNow(farm, before.state.almanac.view, now.wall, believedAir(before));
  const lock = interlock(
    farm,
    before.state.orders,
    before.state.link,
    floorSigns(before.state.senses, now.monotonic),
    before.state.tank,
  );
  const awaited = airIsAwaited(before);
  let turn = awaited
    ? before
    : turnedTo(before, { schedule: turned(before.state.schedule, pace, now.monotonic) });
  if (isAway(turn.state)) {
    return { turn: whileAway(turn), lock, pace, until: afterMinutes(now.monotonic, 1), nextFloodAt: null };
  }
  // A retry that falls due under a lock may not start the pump even for an instant: hands may be in the water.
  const barred = need === 'restart' && (lock.kind === 'shut' || lock.kind === 'sips');
  turn = pumpServed(turn, barred ? 'as-it-is' : need);
  const done = (next: Turn, until: MonotonicMillis, nextFloodAt: MonotonicMillis | null = null): Acted => ({
    turn: next,
    lock,
    pace,
    until,
    nextFloodAt,
  });
  const soon = afterMinutes(now.monotonic, 1);

  if (turn.state.flood !== null || turn.state.guard.asked.kind === 'on') {
    const sipping = turn.state.flood === null && lock.kind === 'sips';
    const forbidden = lock.kind === 'shut' || (lock.kind === 'sips' && !sipping);
    return done(forbidden ? stoppedBy(turn, lock.reason) : turn, wetFloorEnds(turn) ?? soon);
  }
  if (lock.kind === 'sips' && sipIsDue(turn, lock, outlook)) return done(sipped(turn, lock.reason), soon);
  const { schedule, orders } = turn.state;
  if (awaited && schedule.owed === null && orders.floodNow === null) return done(turn, soon);
  const wish = wishNow(turn, pace, outlook);
  if (wish.kind === 'rest') {
    const partEnd =
      pace.partLeftMinutes === null ? wish.until : afterMinutes(now.monotonic, pace.partLeftMinutes);
    return done(turn, monotonicMillis(Math.min(wish.until, partEnd)), wish.until);
  }
  const by = { pace, seen, outlook };
  switch (lock.kind) {
    case 'open':
      return done(begun(turn, lengthened(turn, wish), by), soon);
    case 'shortened': {
      const minutes = Math.min(wish.minutes, farm.bounds.floodMinutes.shortest);
      return done(
        begun(turn, { ...wish, minutes, reason: `${wish.reason}; shortened: ${lock.reason}` }, by),
        soon,
      );
    }
    case 'sips':
    case 'shut':
      return done(turn.state.schedule.owed === null ? heldBack(turn, wish, lock.reason) : turn, soon);
  }
};
