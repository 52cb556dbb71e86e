import type { AlarmKind } from '../alarm/card.ts';
import type { Known } from '../alarm/meant.ts';
import {
  afterMinutes,
  minutesBetween,
  type MonotonicMillis,
  type Now,
  type WallMillis,
} from '../time/instant.ts';
import { isActive, type Call } from './call.ts';
import { CLOCKS_APART_MINUTES, TEXT_OLD_DAYS } from './delivery-bounds.ts';
import type { Form } from './message.ts';
import type { Person } from './rota.ts';

/** Words of an alarm that went out to somebody. */
export interface Reach {
  readonly person: string;
  /** When the next machine on the way took them. */
  readonly at: MonotonicMillis;
  /** When the controller made the call. */
  readonly madeAt: MonotonicMillis;
}

/** To whom one alarm has been carried; plain data, bounded by people and kinds of alarm. */
export interface Told {
  readonly alarm: AlarmKind;
  /** Names of who has been called on this round of the rota, in order. */
  readonly round: readonly string[];
  /** Of all who were called and have not yet been told that it is over. */
  readonly called: readonly string[];
  /** Oldest first. */
  readonly reached: readonly Reach[];
}

/** The newest is not enough: an "ok" that was long on its way answers one before it. */
const REACHES_OF_ONE = 4;

export const toldOf = (told: readonly Told[], alarm: AlarmKind): Told =>
  told.find((one) => one.alarm === alarm) ?? { alarm, round: [], called: [], reached: [] };

const withTold = (told: readonly Told[], changed: Told): readonly Told[] => [
  ...told.filter(({ alarm }) => alarm !== changed.alarm),
  changed,
];

/** Every alarm of which a call tells. */
const kindsOf = ({ alarm, also }: Call): readonly AlarmKind[] => (alarm === null ? [] : [alarm, ...also]);

const joined = (names: readonly string[], more: readonly string[]): readonly string[] => [
  ...names,
  ...more.filter((name) => !names.includes(name)),
];

/** These are called now. `round` is whom the round had before. */
export const withCalled = (
  told: readonly Told[],
  call: Call,
  names: readonly string[],
  round: readonly string[] | null = null,
): readonly Told[] => {
  if (!isActive(call)) return told;
  return kindsOf(call).reduce((before, alarm) => {
    const one = toldOf(before, alarm);
    const was = alarm === call.alarm ? (round ?? one.round) : one.round;
    return withTold(before, { ...one, round: joined(was, names), called: joined(one.called, names) });
  }, told);
};

/** Who was called has heard that it is over; an "ok" may still answer what reached them. */
export const withOver = (told: readonly Told[], alarm: AlarmKind): readonly Told[] =>
  withTold(told, { ...toldOf(told, alarm), round: [], called: [] });

/** Words of a call have gone out to somebody; that a phone rang tells nobody of what. */
export const withReached = (told: readonly Told[], call: Call, form: Form, reach: Reach): readonly Told[] => {
  if (form === 'ring') return told;
  return kindsOf(call).reduce((before, alarm) => {
    const one = toldOf(before, alarm);
    const theirs = one.reached.filter(({ person }) => person === reach.person).slice(1 - REACHES_OF_ONE);
    const others = one.reached.filter(({ person }) => person !== reach.person);
    return withTold(before, { ...one, reached: [...others, ...theirs, reach] });
  }, told);
};

/**
 * Whom the round had before this call. A cause that shows itself later goes on with the people that were called for what
 * it explains; of a rung of which nothing is remembered the first of the order count as called.
 */
const roundBefore = (told: readonly Told[], call: Call, order: readonly Person[]): readonly string[] => {
  const { alarm, also, kind, rung } = call;
  if (alarm === null || rung === 0) return [];
  const rounds = [alarm, ...(kind === 'raised' ? also : [])].map((one) => toldOf(told, one).round);
  const longest = rounds.toSorted((one, other) => other.length - one.length)[0] ?? [];
  if (longest.length > 0) return longest;
  return order.slice(0, rung % Math.max(1, order.length)).map(({ name }) => name);
};

export interface Turn {
  readonly person: Person | undefined;
  readonly round: readonly string[];
}

/**
 * Whose turn it is for a call: whoever comes first in today's order of those who can be reached, and has not been called on
 * this round. After all have been, it goes round again. The order may be another than at the call before, as when the
 * watch changes: nobody is called twice for that, and nobody left out.
 */
export const turnOf = (told: readonly Told[], call: Call, order: readonly Person[]): Turn => {
  const round = roundBefore(told, call, order);
  // Of a cause that shows itself the call goes once more to who was called last for what it explains.
  const again = call.kind === 'raised' ? round[call.rung] : undefined;
  const person = order.find(({ name }) => name === again) ?? order.find(({ name }) => !round.includes(name));
  return person === undefined ? { person: order[0], round: [] } : { person, round };
};

/**
 * When a text was sent, on the counter of this process: by its own stamp, where that can be. One that the clocks of network
 * and host put a few minutes back, or ahead, came at once; one of a stamp that no text can have is as old as its arrival.
 */
export const sentMoment = (sentAt: WallMillis | undefined, { monotonic, wall }: Now): MonotonicMillis => {
  if (sentAt === undefined || wall === 'unknown') return monotonic;
  const minutes = (wall - sentAt) / 60_000;
  if (minutes <= CLOCKS_APART_MINUTES || minutes > TEXT_OLD_DAYS * 24 * 60) return monotonic;
  return afterMinutes(monotonic, CLOCKS_APART_MINUTES - minutes);
};

/** The alarms that somebody can have meant who said at that moment that they had seen it, each with the call that told them. */
export const knownTo = (told: readonly Told[], name: string, at: MonotonicMillis): readonly Known[] =>
  told.flatMap(({ alarm, reached }) => {
    const last = reached.findLast(({ person, at: out }) => person === name && minutesBetween(out, at) >= 0);
    return last === undefined ? [] : [{ alarm, madeAt: last.madeAt }];
  });
