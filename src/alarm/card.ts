import type { FactKind, Facts } from './facts.ts';
import { cardWords, type Language } from './language/language.ts';

/** What can go wrong in a way that needs somebody. One alarm of each kind at a time. */
export type AlarmKind = FactKind;

export type Priority = 'high' | 'medium' | 'low';

export const GRAVITY: Readonly<Record<Priority, number>> = { low: 0, medium: 1, high: 2 };

/** What a person is told: enough to get up and go to the right place. */
export interface Card {
  readonly kind: AlarmKind;
  readonly priority: Priority;
  /** What was seen, and since when. */
  readonly cause: string;
  /** Which bench may begin to wilt from when, on the dry edge of the doubt; null where water is not at stake. */
  readonly consequence: string | null;
  readonly firstAction: string;
  /** What the sentences were made from, so that others can be told it in their language, or in fewer letters. */
  readonly facts?: Facts;
}

/** The card as one message. */
export const cardText = (card: Pick<Card, 'cause' | 'consequence' | 'firstAction'>): string =>
  [card.cause, card.consequence, card.firstAction].filter((sentence) => sentence !== null).join(' ');

/** The card that tells the facts in a language. */
export const cardOf = (facts: Facts, priority: Priority, language: Language): Card => ({
  kind: facts.kind,
  priority,
  ...cardWords(facts, language),
  facts,
});
