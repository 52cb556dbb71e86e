import { afterConditions, type AlarmChange } from '../alarm/alarm.ts';
import { cardText } from '../alarm/card.ts';
import { standingCards, type Situation } from '../alarm/situation.ts';
import { floorSigns, wetSigns, type Interlock } from '../command/interlock.ts';
import { timeLeft, type Outlook, type TimeLeft } from '../estimate/time-left.ts';
import type { Happening } from '../journal/entry.ts';
import { airCelsius, returnLitresPerMinute, switched } from '../sense/senses.ts';
import { minutesBetween, type MonotonicMillis } from '../time/instant.ts';
import type { Sighting } from '../verify/sighting.ts';
import type { Memory } from './state.ts';
import { turnedTo, type Turn } from './turn.ts';

/** A bad sensor becomes an alarm after this long; a passing jump does not. */
const BAD_SENSOR_MINUTES = 10;
/** Contact and current follow an off command at once; the return still runs while the channels drain. */
const RUNS_ON_MINUTES = { power: 1, water: 20 } as const;
/**
 * Twelve minutes after a stop even the slowest channel of the model's range returns less than a seventh of its
 * flow; a sensor that still shows water then cannot prove the next flood. Hot rests are hardly longer.
 */
const STUCK_MINUTES = 12;

const sinceWhen = (
  before: MonotonicMillis | null,
  stands: boolean,
  now: MonotonicMillis,
): MonotonicMillis | null => (stands ? (before ?? now) : null);

const offMinutes = ({ state, now }: Turn): number => {
  const { asked } = state.guard;
  return asked.kind === 'on' || asked.since === null ? 0 : minutesBetween(asked.since, now.monotonic);
};

/** Why the pump seems to run on; a return sensor against contact and current is the one that lies. */
const runsOnWhy = (turn: Turn, seen: Sighting): string | null => {
  const minutes = offMinutes(turn);
  if (minutes > RUNS_ON_MINUTES.power) {
    if (seen.current === 'seen') return 'it has drawn current';
    if (seen.contact === 'seen') return 'its relay has been closed';
  }
  const denied = seen.current === 'not-seen' || seen.contact === 'not-seen';
  return minutes > RUNS_ON_MINUTES.water && seen.returnShows === 'seen' && !denied
    ? 'water has come back'
    : null;
};

/** Stuck from the moment it shows water after a long rest, until it shows none. */
const returnIsStuck = (turn: Turn, seen: Sighting): boolean => {
  if (seen.returnShows !== 'seen') return false;
  return turn.state.memory.returnStuckSince !== null || offMinutes(turn) > STUCK_MINUTES;
};

/**
 * What stands until it is seen to have gone: while the pump is asked on, and shortly after, nothing can tell,
 * so the alarm of a welded relay does not come and go with every flood.
 */
const runsOnNow = (turn: Turn, seen: Sighting): Memory['runsOn'] => {
  const before = turn.state.memory.runsOn;
  const why = runsOnWhy(turn, seen);
  if (why !== null) return { why, since: before?.since ?? turn.now.monotonic };
  const denied = [seen.current, seen.contact, seen.returnShows].includes('not-seen');
  return denied && offMinutes(turn) > RUNS_ON_MINUTES.power ? null : before;
};

const flowIsBad = ({ farm, state, now }: Turn): boolean => {
  switch (farm.evidence.returnFlow) {
    case 'none':
      return false;
    case 'meter':
      return returnLitresPerMinute(state.senses, now.monotonic).quality !== 'good';
    case 'switch':
      return switched(state.senses, 'return-switch', now.monotonic).quality !== 'good';
  }
};

const shutNow = (turn: Turn, lock: Interlock, left: () => TimeLeft): Memory['shut'] => {
  const { memory, tank } = turn.state;
  if (lock.kind !== 'shut' && lock.kind !== 'sips') {
    // A float that let go as the channels drained has not ended the drought; a whole flood does.
    return tank.kind === 'returning' && memory.shut?.byPerson === false ? memory.shut : null;
  }
  if (memory.shut !== null) return memory.shut;
  return {
    since: turn.now.monotonic,
    leftMinutes: left().minutes,
    reason: lock.reason,
    byPerson: lock.kind === 'shut',
  };
};

const remembered = (turn: Turn, seen: Sighting, lock: Interlock, left: () => TimeLeft): Memory => {
  const { farm, state, now } = turn;
  const { memory } = state;
  const airBad =
    farm.temperatureRule.restPercentPerDegree !== 0 &&
    airCelsius(state.senses, now.monotonic).quality !== 'good';
  return {
    ...memory,
    lastWaterAt: seen.water === 'seen' ? now.monotonic : memory.lastWaterAt,
    runsOn: runsOnNow(turn, seen),
    returnStuckSince: sinceWhen(memory.returnStuckSince, returnIsStuck(turn, seen), now.monotonic),
    airBadSince: sinceWhen(memory.airBadSince, airBad, now.monotonic),
    flowBadSince: sinceWhen(memory.flowBadSince, flowIsBad(turn), now.monotonic),
    shut: shutNow(turn, lock, left),
  };
};

const old = (since: MonotonicMillis | null, minutes: number, now: MonotonicMillis): MonotonicMillis | null =>
  since !== null && minutesBetween(since, now) >= minutes ? since : null;

/** Half of the time that was left when the floods stopped has gone. */
const shutTooLong = ({ shut }: Memory, now: MonotonicMillis): Situation['shutTooLong'] =>
  shut !== null && minutesBetween(shut.since, now) >= shut.leftMinutes / 2 ? shut : null;

const said = (change: AlarmChange): Happening => {
  const { kind: alarm, priority } = change.card;
  if (change.kind === 'raised') return { kind: 'alarm-raised', alarm, priority, text: cardText(change.card) };
  return { kind: 'alarm-returned', alarm };
};

export interface Told {
  readonly turn: Turn;
  readonly left: () => TimeLeft;
}

/** A day's outlook costs more than the rest of a turn, and most turns do not need it. */
const once = <Value>(work: () => Value): (() => Value) => {
  let known: { readonly value: Value } | null = null;
  return () => {
    known ??= { value: work() };
    return known.value;
  };
};

/** Raises and returns alarms by what stands at this moment; every card carries the time left. */
export const tell = (before: Turn, seen: Sighting, outlook: Outlook, lock: Interlock): Told => {
  const { farm, now } = before;
  const left = once(() => timeLeft(farm, before.state.belief, outlook, now.wall));
  const turn = turnedTo(before, { memory: remembered(before, seen, lock, left) });
  const { memory, tank, alarms } = turn.state;
  const cards = standingCards(farm, {
    now,
    left,
    missed: memory.missed,
    degraded: memory.degraded,
    lastWaterAt: memory.lastWaterAt,
    runsOn: memory.runsOn,
    tank: tank.kind,
    tankSince: tank.kind === 'well' ? null : tank.since,
    waterOnFloor: wetSigns(farm, floorSigns(turn.state.senses, now.monotonic)),
    shutTooLong: shutTooLong(memory, now.monotonic),
    air: airCelsius(turn.state.senses, now.monotonic),
    airBadSince: old(memory.airBadSince, BAD_SENSOR_MINUTES, now.monotonic),
    returnStuckSince: memory.runsOn === null ? memory.returnStuckSince : null,
    clockSteppedAt: turn.state.clock.steppedAt,
    flowBadSince: old(memory.flowBadSince, BAD_SENSOR_MINUTES, now.monotonic),
  });
  const after = afterConditions(alarms, cards, now.monotonic);
  return { turn: turnedTo(turn, { alarms: after.alarms }, after.changes.map(said)), left };
};
