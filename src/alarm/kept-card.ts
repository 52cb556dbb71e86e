import { LANGUAGES_SPOKEN } from '../farm/languages-spoken.ts';
import type { Card } from './card.ts';
import type { Facts } from './facts.ts';
import { cardWords } from './language/language.ts';
import { LANGUAGES } from './language/languages.ts';

const retells = ({ kind, cause, consequence, firstAction }: Card, facts: Facts): boolean =>
  facts.kind === kind &&
  typeof facts.farm === 'string' &&
  LANGUAGES_SPOKEN.some((code) => {
    const told = cardWords(facts, LANGUAGES[code]);
    return told.cause === cause && told.consequence === consequence && told.firstAction === firstAction;
  });

/**
 * A card that was kept over a restart, with its facts only where they tell its very sentences: those of another version
 * may lack what a text message is made from, and no kept file may stop the controller. Without them the message is made
 * from the sentences.
 */
export const soundCard = ({ facts, ...card }: Card): Card => {
  if (facts === undefined) return card;
  try {
    return retells(card, facts) ? { ...card, facts } : card;
  } catch {
    // Facts of another shape: what they lack is as good as a sentence that differs.
    return card;
  }
};
