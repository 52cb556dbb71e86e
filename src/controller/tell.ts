import { afterConditions } from '../alarm/alarm.ts';
import type { AlarmKind, Card } from '../alarm/card.ts';
import { hostCards, HOST_KINDS } from '../alarm/host-cards.ts';
import type { Situation } from '../alarm/situation.ts';
import { standingCards } from '../alarm/standing-cards.ts';
import { stillSeenBy } from '../alarm/wavering.ts';
import { floorSigns, wetSigns } from '../command/interlock.ts';
import { bucketNow } from '../estimate/bucket-now.ts';
import { tankFall } from '../estimate/tank-course.ts';
import { brimfulLitres } from '../estimate/tank-trend.ts';
import { timeLeft, type Outlook, type TimeLeft } from '../estimate/time-left.ts';
import { strengthBandOf } from '../farm/strength-band.ts';
import { floatLooked, floatUnmovedDays } from '../sense/float-watch.ts';
import { chattersSince, returnLitresPerMinute, switched } from '../sense/senses.ts';
import { strengthLooked } from '../sense/strength-watch.ts';
import { doubtedSince } from '../time/clock-trust.ts';
import { minutesBetween, type MonotonicMillis } from '../time/instant.ts';
import { mainsLostSince } from '../verify/mains-watch.ts';
import { lowerReturn } from '../verify/return-plateau.ts';
import { returnTrust, toldStuckSince } from '../verify/return-trust.ts';
import type { Sighting } from '../verify/sighting.ts';
import type { Acted } from './act.ts';
import { believedAir } from './air.ts';
import { boardSilent, lineGoneNow } from './board-silent.ts';
import type { Event } from './event.ts';
import { overdue } from './overdue.ts';
import { carriedOver } from './resume-alarms.ts';
import { alarmSaid } from './said.ts';
import { shelve } from './shelve.ts';
import type { Memory } from './state.ts';
import { strengthOff } from './strength-off.ts';
import { turnedTo, type Turn } from './turn.ts';

/** A bad sensor becomes an alarm after this long; a passing jump does not. */
const BAD_SENSOR_MINUTES = 10;
/** Contact and current follow an off command at once; the return still runs while the channels drain. */
const RUNS_ON_MINUTES = { power: 1, water: 20 } as const;
/** One word of a sensor is not enough to send somebody to the shed. */
const UNASKED_MINUTES = 0.5;

const sinceWhen = (
  before: MonotonicMillis | null,
  stands: boolean,
  now: MonotonicMillis,
): MonotonicMillis | null => (stands ? (before ?? now) : null);

const offMinutes = ({ state, now }: Turn): number => {
  const { asked } = state.guard;
  return asked.kind === 'on' || asked.since === null ? 0 : minutesBetween(asked.since, now.monotonic);
};

/**
 * Since when the pump cannot have run: it is asked off and draws no current past its relay, or both of its signs of power deny
 * that it does as asked; null while it may.
 */
const idleSince = ({ state, now }: Turn, seen: Sighting): MonotonicMillis | null => {
  const { asked } = state.guard;
  const before = state.memory.idleSince;
  if (asked.kind !== 'on') return seen.current === 'seen' ? now.monotonic : (before ?? asked.since);
  return seen.contact === 'not-seen' && seen.current === 'not-seen' ? (before ?? now.monotonic) : null;
};

/** Why the pump seems to run on; a return sensor against contact and current is the one that lies. */
const runsOnWhy = (turn: Turn, seen: Sighting): string | null => {
  const minutes = offMinutes(turn);
  if (minutes > RUNS_ON_MINUTES.power) {
    if (seen.current === 'seen')
      return seen.contact === 'not-seen'
        ? 'it has drawn current past its open relay'
        : 'it has drawn current';
    if (seen.contact === 'seen') return 'its relay has been closed';
  }
  const denied = seen.current === 'not-seen' || seen.contact === 'not-seen';
  return minutes > RUNS_ON_MINUTES.water && seen.returnShows === 'seen' && !denied
    ? 'water has come back'
    : null;
};

const unaskedNow = (turn: Turn, seen: Sighting): Memory['unasked'] => {
  const before = turn.state.memory.unasked;
  // The last words of a board that has gone are not about now.
  if (turn.state.link.kind === 'down') return before;
  const why = runsOnWhy(turn, seen);
  if (why !== null) return { why, since: before?.since ?? turn.now.monotonic };
  // While the pump is asked on, and shortly after, nothing can tell whether it would have stopped.
  const denied = [seen.current, seen.contact, seen.returnShows].includes('not-seen');
  // Nor does an open contact deny a current that is still seen.
  return denied && seen.current !== 'seen' && offMinutes(turn) > 0 ? null : before;
};

/**
 * A plain timer beside the relay runs the pump unasked, though no longer than the grower would. A relay that is closed is
 * no timer, but for one that was asked to.
 */
const unaskedMinutesMax = (turn: Turn, seen: Sighting): number => {
  const closedUnasked = seen.contact === 'seen' && offMinutes(turn) > RUNS_ON_MINUTES.power;
  const { deadBoard, pump } = turn.farm;
  return deadBoard === 'plain-timer' && !closedUnasked ? pump.longestOnMinutes : UNASKED_MINUTES;
};

/**
 * What stands until it is seen to have gone: while the pump is asked on, and shortly after, nothing can tell,
 * so the alarm of a welded relay does not come and go with every flood. Nor does it come then, by one word from before.
 */
const runsOnNow = (turn: Turn, unasked: Memory['unasked'], seen: Sighting): Memory['runsOn'] => {
  const before = turn.state.memory.runsOn;
  const { monotonic } = turn.now;
  const lasts = unasked !== null && minutesBetween(unasked.since, monotonic) >= unaskedMinutesMax(turn, seen);
  if (lasts && runsOnWhy(turn, seen) !== null) {
    return { why: unasked.why, since: before?.since ?? unasked.since };
  }
  if (unasked !== null) return before;
  const denied = [seen.current, seen.contact, seen.returnShows].includes('not-seen');
  return denied && offMinutes(turn) > RUNS_ON_MINUTES.power ? null : before;
};

/** Why the return sensor is not good; null when it is, or none is fitted. */
const flowDoubt = ({ farm, state, now }: Turn): string | null => {
  if (farm.evidence.returnFlow === 'none') return null;
  const reading =
    farm.evidence.returnFlow === 'meter'
      ? returnLitresPerMinute(state.senses, now.monotonic)
      : switched(state.senses, 'return-switch', now.monotonic);
  return reading.quality === 'good' ? null : reading.why;
};

/** What forbids floods now, and what the plan asks for. */
type Decided = Pick<Acted, 'lock' | 'pace'>;

const shutNow = (turn: Turn, { lock, pace }: Decided, left: () => TimeLeft): Memory['shut'] => {
  const { memory, tank } = turn.state;
  if (lock.kind !== 'shut' && lock.kind !== 'sips') {
    // A float that let go as the channels drained has not ended the drought; a whole flood does.
    return tank.kind === 'returning' && memory.shut?.by === 'water' ? memory.shut : overdue(turn, pace, left);
  }
  const by = lock.kind === 'shut' ? lock.by : 'water';
  if (memory.shut !== null) return { ...memory.shut, reason: lock.reason, by };
  return { since: turn.now.monotonic, leftMinutes: left().minutes, reason: lock.reason, by };
};

const old = (since: MonotonicMillis | null, minutes: number, now: MonotonicMillis): MonotonicMillis | null =>
  since !== null && minutesBetween(since, now) >= minutes ? since : null;

/** While the board is silent so are its sensors: that is one fault, and told as one; what was told before it stands on. */
const badSince = (
  { state, now }: Turn,
  before: MonotonicMillis | null,
  bad: boolean,
): MonotonicMillis | null =>
  state.link.kind === 'up'
    ? sinceWhen(before, bad, now.monotonic)
    : old(before, BAD_SENSOR_MINUTES, now.monotonic);

const remembered = (turn: Turn, seen: Sighting, decided: Decided, left: () => TimeLeft): Memory => {
  const { farm, state, now } = turn;
  const { memory } = state;
  const unasked = unaskedNow(turn, seen);
  const idle = idleSince(turn, seen);
  const idleMinutes = idle === null ? 0 : minutesBetween(idle, now.monotonic);
  const airBad = farm.temperatureRule.restPercentPerDegree !== 0 && believedAir(turn).quality !== 'good';
  return {
    ...memory,
    lastWaterAt: seen.water === 'seen' ? now.monotonic : memory.lastWaterAt,
    unasked,
    runsOn: runsOnNow(turn, unasked, seen),
    idleSince: idle,
    returnTrust: returnTrust(
      memory.returnTrust,
      { shows: seen.returnShows, litresPerMinute: seen.returnLitresPerMinute },
      idleMinutes,
      now.monotonic,
    ),
    float: farm.evidence.tankFloat
      ? floatLooked(memory.float, switched(state.senses, 'tank-float', now.monotonic), now.monotonic)
      : memory.float,
    strength: strengthLooked(
      memory.strength,
      strengthBandOf(farm),
      state.host?.strengthMillisiemensPerCm ?? null,
      now.monotonic,
    ),
    lineGone: lineGoneNow(turn),
    airBadSince: badSince(turn, memory.airBadSince, airBad),
    flowBadSince: badSince(turn, memory.flowBadSince, flowDoubt(turn) !== null),
    shut: shutNow(turn, decided, left),
  };
};

const flowBad = (turn: Turn): Situation['flowBad'] => {
  const since = old(turn.state.memory.flowBadSince, BAD_SENSOR_MINUTES, turn.now.monotonic);
  const why = flowDoubt(turn);
  return since === null || why === null ? null : { since, why };
};

const mainsLost = (turn: Turn, seen: Sighting): Situation['mainsLost'] => {
  const since = mainsLostSince(turn.state.memory.mains, turn.now.monotonic);
  if (since === null) return null;
  return { since, against: seen.current === 'seen' ? 'the pump draws current' : null };
};

/** Half of the time that was left when the floods stopped has gone. */
const shutTooLong = ({ shut }: Memory, now: MonotonicMillis): Situation['shutTooLong'] =>
  shut !== null && minutesBetween(shut.since, now) >= shut.leftMinutes / 2 ? shut : null;

/** What only the board's sensors can tell of. */
const SENSED_KINDS: readonly AlarmKind[] = [
  'water-on-floor',
  'flow-sensor-silent',
  'flow-sensor-stuck',
  'relay-chatters',
  'no-good-temperature',
];

/** A sensor that has said nothing since the start, or whose board is silent, has not said that all is dry. */
const floorUntold = ({ farm, state, now }: Turn): boolean => {
  const { leak, overflow } = floorSigns(state.senses, now.monotonic);
  const { leakSensor, overflowFloat } = farm.evidence;
  return (leakSensor && leak.quality === 'absent') || (overflowFloat && overflow.quality === 'absent');
};

/** Alarms of which nobody can say now whether their condition stands: none of them clears. */
const untold = (turn: Turn): ReadonlySet<AlarmKind> =>
  new Set([
    ...(turn.state.host === null ? HOST_KINDS : []),
    ...(turn.state.link.kind === 'down' ? SENSED_KINDS : []),
    ...(floorUntold(turn) ? (['water-on-floor'] as const) : []),
  ]);

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
export const tell = (
  { turn: before, ...decided }: Decided & { readonly turn: Turn },
  event: Event,
  seen: Sighting,
  outlook: Outlook,
): Told => {
  const { farm, now } = before;
  const left = once(() => timeLeft(farm, before.state.belief, outlook, now.wall));
  const turn = turnedTo(before, { memory: remembered(before, seen, decided, left) });
  const { memory, tank, alarms, host } = turn.state;
  const cards = standingCards(farm, {
    now,
    left,
    bucket: once(() => bucketNow(farm, outlook, left(), now.wall)),
    missed: memory.missed,
    degraded: memory.degraded,
    returnLower: farm.evidence.returnFlow === 'meter' ? lowerReturn(turn.state.learned.plateau) : null,
    lastWaterAt: memory.lastWaterAt,
    runsOn: memory.runsOn,
    mainsLost: mainsLost(turn, seen),
    tank: tank.kind,
    tankSince: tank.kind === 'well' ? null : tank.since,
    tankFall: tankFall(farm, turn.state.tankTrend, now.monotonic),
    brimfulLitres: brimfulLitres(farm, turn.state.tankTrend),
    waterOnFloor: wetSigns(farm, floorSigns(turn.state.senses, now.monotonic)),
    strengthOff: strengthOff(turn),
    shutTooLong: shutTooLong(memory, now.monotonic),
    air: believedAir(turn),
    boardSilent: boardSilent(turn),
    keeper: turn.state.away?.keeper ?? 'none',
    airBadSince: old(memory.airBadSince, BAD_SENSOR_MINUTES, now.monotonic),
    returnStuckSince: memory.runsOn === null ? toldStuckSince(memory.returnTrust) : null,
    relayChattersSince: farm.evidence.relayReadBack
      ? chattersSince(turn.state.senses, 'relay-read-back', now.monotonic)
      : null,
    floatUnmovedDays: floatUnmovedDays(memory.float),
    clockDoubtedAt: doubtedSince(turn.state.clock, now.monotonic),
    flowBad: flowBad(turn),
  });
  const ofHost = host === null ? [] : hostCards(farm, host, now);
  const flow = flowDoubt(turn) === null ? 'good' : 'in-doubt';
  const carried = carriedOver(turn, [...cards, ...ofHost], flow);
  const { voices } = turn.state.calls;
  const isSeen = (card: Card): boolean =>
    stillSeenBy(voices, card, () => left().minutes, now.monotonic) !== null;
  const after = afterConditions(alarms, carried.cards, now.monotonic, untold(turn), isSeen);
  const said = after.changes.map((change) => alarmSaid(change, now.monotonic));
  const raised = turnedTo(turn, { alarms: after.alarms, carriedAlarms: carried.kinds }, said);
  return { turn: shelve(raised, event, left), left };
};
