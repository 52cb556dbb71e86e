import { cardText, type AlarmKind, type Card } from './card.ts';
import { ENGLISH_CALLS } from './language/english-calls.ts';
import { cutAtWord, gsm7Places, toGsm7 } from './language/gsm7.ts';
import type { Language } from './language/language.ts';
import { farmName, MESSAGE_LETTERS_MAX, messageText } from './language/message.ts';

/** Each alarm in two or three words, as the journal tells them: in English. */
export const ALARM_NAMES = ENGLISH_CALLS.names;

export interface CallFacts {
  readonly kind: 'raised' | 'again' | 'escalated' | 'returned';
  readonly card: Card;
  /** Alarms that this call speaks for besides its own. */
  readonly also: readonly AlarmKind[];
  /** Alarms that are over besides. */
  readonly over: readonly AlarmKind[];
  /** The alarm among them that came first, where it was not this one. */
  readonly first: AlarmKind | null;
  readonly comesAndGoes: 'yes' | 'no';
}

const listed = (
  list: 'with' | 'still' | 'over' | 'first',
  kinds: readonly AlarmKind[],
  { calls }: Language,
): string => `${calls.lists[list]} ${kinds.map((kind) => calls.names[kind]).join(', ')}.`;

/** What else stands; after what is over it is said that it does. */
const alsoText = ({ kind, also }: CallFacts, language: Language): string | null =>
  also.length === 0 ? null : listed(kind === 'returned' ? 'still' : 'with', also, language);

/** A call in full: what, until when, what to do first, and what else it stands for. */
export const callText = (facts: CallFacts, language: Language): string => {
  const { kind, card, over, first, comesAndGoes } = facts;
  const { calls } = language;
  const body = kind === 'returned' ? `${calls.names[card.kind]}.` : cardText(card);
  const tails = [
    comesAndGoes === 'yes' ? calls.comesAndGoes : null,
    alsoText(facts, language),
    over.length === 0 ? null : listed('over', over, language),
    first === null ? null : listed('first', [first], language),
  ].filter((tail) => tail !== null);
  return [`${calls.openings[kind]}${body}`, ...tails].join(' ');
};

/**
 * A call as one text message. What else stands is named where the names fit, and else counted: nobody may take the
 * message for all there is.
 */
export const callMessage = (facts: CallFacts, language: Language): string => {
  const { kind, card, also } = facts;
  const { calls } = language;
  const opening = toGsm7(calls.briefOpenings[kind]);
  const lead = opening === '' ? '' : `${opening} `;
  const body = (lettersMax: number): string =>
    kind === 'returned'
      ? cutAtWord(`${farmName(card)}${toGsm7(calls.names[card.kind])}.`, lettersMax)
      : messageText(card, language, lettersMax);
  const room = MESSAGE_LETTERS_MAX - gsm7Places(lead);
  const names = alsoText(facts, language);
  if (names === null) return `${lead}${body(room)}`;
  const counted = ` (+${also.length})`;
  const tail = ` ${toGsm7(names)}`;
  const bare = body(room - gsm7Places(counted));
  const isRoom = gsm7Places(bare) + gsm7Places(tail) <= room;
  return `${lead}${bare}${isRoom ? tail : counted}`;
};
