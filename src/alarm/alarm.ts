import { minutesBetween, monotonicMillis, type MonotonicMillis } from '../time/instant.ts';
import { assert } from '../units/assertion.ts';
import { GRAVITY, type AlarmKind, type Card } from './card.ts';
import { beginning, courseAfter, goneAt, type Course } from './deadband.ts';
import { TRANSITIONS, type AlarmState, type Happens, type Tells } from './states.ts';

export type { AlarmState } from './states.ts';

/** What a person has put off, until when. */
export interface Shelf {
  readonly until: MonotonicMillis;
  readonly who: string;
}

export interface Alarm {
  readonly state: AlarmState;
  /** When it was raised this time; one that comes back or gets graver is raised anew. */
  readonly raisedAt: MonotonicMillis;
  readonly card: Card;
  readonly course: Course;
  /** Null unless the state is shelved. */
  readonly shelf: Shelf | null;
}

/** In the order in which they were raised: the first is the first that came. One of each kind. */
export type Alarms = readonly Alarm[];

export type AlarmChange =
  | { readonly kind: 'raised' | 'returned' | 'unshelved'; readonly card: Card }
  | { readonly kind: 'acknowledged'; readonly card: Card; readonly who: string }
  | { readonly kind: 'shelved'; readonly card: Card; readonly who: string; readonly until: MonotonicMillis };

export interface Changed {
  readonly alarms: Alarms;
  readonly changes: readonly AlarmChange[];
}

/** Whether its condition counts as standing, also while a person has put it off. */
export const isActive = (alarm: Alarm): boolean => alarm.state !== 'returned-unacknowledged';

interface One {
  readonly alarm: Alarm | null;
  readonly changes: readonly AlarmChange[];
}

const change = (kind: Tells, card: Card, by: Shelf | null): AlarmChange => {
  if (kind !== 'acknowledged' && kind !== 'shelved') return { kind, card };
  assert(by !== null, `only a person can have ${kind} an alarm`);
  return kind === 'acknowledged' ? { kind, card, who: by.who } : { kind, card, ...by };
};

/** One alarm, as its state and what happens to it ask for; `by` is the person, where one acts. */
const moved = (alarm: Alarm, happens: Happens, by: Shelf | null, now: MonotonicMillis): One => {
  const { to, tells } = TRANSITIONS[alarm.state][happens];
  const changes = tells.map((kind) => change(kind, alarm.card, by));
  if (to === 'normal') return { alarm: null, changes };
  return {
    alarm: {
      ...alarm,
      state: to,
      raisedAt: tells.includes('raised') ? now : alarm.raisedAt,
      shelf: to === 'shelved' ? (happens === 'shelved' ? by : alarm.shelf) : null,
    },
    changes,
  };
};

/** Channels that die one after the other within this die of one thing; one that dies later is another fault. Judgement. */
const JOINS_MINUTES = 10;

const deadChannels = ({ facts }: Card): readonly string[] =>
  facts?.kind === 'channel-dead' ? [facts.name, ...facts.others] : [];

/** Whether it has got worse since it was last looked at: graver, or a channel more is dead that nobody has been told of. */
const isWorse = (alarm: Alarm, card: Card, now: MonotonicMillis): boolean => {
  if (GRAVITY[card.priority] > GRAVITY[alarm.card.priority]) return true;
  const before = deadChannels(alarm.card);
  const joined = before.length > 0 && deadChannels(card).some((name) => !before.includes(name));
  return joined && minutesBetween(alarm.raisedAt, now) > JOINS_MINUTES;
};

/** What a look at its condition means to an alarm; `card` is null when the condition is away. */
const meaning = (alarm: Alarm, card: Card | null, now: MonotonicMillis): Happens => {
  const gone = goneAt(alarm.card.kind, alarm.course);
  const isGone = gone !== null && gone <= now;
  if (card !== null && isWorse(alarm, card, now)) return 'got-graver';
  if (alarm.shelf !== null && alarm.shelf.until <= now) {
    return isGone ? 'shelf-ends-gone' : 'shelf-ends-standing';
  }
  if (card !== null) return 'stands';
  // A returned alarm has been gone; one whose condition is away not long enough still counts as standing.
  return isGone || alarm.state === 'returned-unacknowledged' ? 'gone' : 'stands';
};

/** While it stands it does not become less grave: one that is now this and now that would be told anew each time. */
const asGraveAs = (alarm: Alarm, card: Card): Card =>
  isActive(alarm) && GRAVITY[card.priority] < GRAVITY[alarm.card.priority]
    ? { ...card, priority: alarm.card.priority }
    : card;

const carriedOn = (alarm: Alarm, found: Card | null, now: MonotonicMillis): One => {
  const card = found === null ? null : asGraveAs(alarm, found);
  const looked = { ...alarm, course: courseAfter(alarm.course, card !== null, now) };
  const happens = meaning(looked, card, now);
  return moved(card === null ? looked : { ...looked, card }, happens, null, now);
};

/** Alarms that were raised now go behind those from before. */
const inOrder = (alarms: Alarms, now: MonotonicMillis): Alarms => [
  ...alarms.filter(({ raisedAt }) => raisedAt < now),
  ...alarms.filter(({ raisedAt }) => raisedAt >= now),
];

/**
 * The alarms after the conditions of this moment. An alarm that stands keeps its moment and takes the newest words. Of
 * the kinds in `untold` nobody can say at this moment whether their condition stands: they stay as they are. What comes now
 * and `isSeen` says that somebody has seen it is acknowledged from the beginning: it only came and went.
 */
export const afterConditions = (
  alarms: Alarms,
  cards: readonly Card[],
  now: MonotonicMillis,
  untold: ReadonlySet<AlarmKind> = new Set(),
  isSeen: (card: Card) => boolean = () => false,
): Changed => {
  const changes: AlarmChange[] = [];
  const kept: Alarm[] = [];
  const standing = new Map<AlarmKind, Card>(cards.map((card) => [card.kind, card]));
  for (const alarm of alarms) {
    const { kind } = alarm.card;
    const card = standing.get(kind) ?? (untold.has(kind) && isActive(alarm) ? alarm.card : null);
    const next = carriedOn(alarm, card, now);
    standing.delete(kind);
    if (next.alarm !== null) kept.push(next.alarm);
    changes.push(...next.changes);
  }
  for (const card of standing.values()) {
    const { to, tells } = TRANSITIONS.normal.stands;
    if (to === 'normal') continue;
    const state = isSeen(card) ? 'active-acknowledged' : to;
    kept.push({ state, raisedAt: now, card, course: beginning(now), shelf: null });
    changes.push(...tells.map((kind) => change(kind, card, null)));
  }
  return { alarms: inOrder(kept, now), changes };
};

const byPerson = (
  alarms: Alarms,
  kind: AlarmKind,
  happens: Happens,
  by: Shelf,
  now: MonotonicMillis,
): Changed => {
  const changes: AlarmChange[] = [];
  const kept: Alarm[] = [];
  for (const alarm of alarms) {
    const next = alarm.card.kind === kind ? moved(alarm, happens, by, now) : { alarm, changes: [] };
    if (next.alarm !== null) kept.push(next.alarm);
    changes.push(...next.changes);
  }
  return { alarms: kept, changes };
};

/** Somebody has seen it. A returned alarm is normal again; an active one stays until its condition goes. */
export const acknowledged = (alarms: Alarms, kind: AlarmKind, who: string, now: MonotonicMillis): Changed =>
  byPerson(alarms, kind, 'acknowledged', { who, until: now }, now);

/** Somebody puts it off; whether they may is for `shelving.ts` to say. */
export const shelvedUntil = (alarms: Alarms, kind: AlarmKind, shelf: Shelf, now: MonotonicMillis): Changed =>
  byPerson(alarms, kind, 'shelved', shelf, now);

/** The next moment at which an alarm may change although nothing new is seen; null when none will. */
export const nextAlarmChange = (alarms: Alarms): MonotonicMillis | null => {
  const moments = alarms.flatMap(({ state, card, course, shelf }) => {
    if (state === 'shelved') return shelf === null ? [] : [shelf.until];
    const gone = state === 'returned-unacknowledged' ? null : goneAt(card.kind, course);
    return gone === null ? [] : [gone];
  });
  return moments.length === 0 ? null : monotonicMillis(Math.min(...moments));
};
