import type { Card } from '../card.ts';
import type { Facts } from '../facts.ts';
import { cut, cutAtWord, gsm7Places, toGsm7 } from './gsm7.ts';
import { briefWords, type BriefWilt, type Language } from './language.ts';

/** What one text message holds in GSM 7 bit letters: 140 octets, 3GPP TS 23.040, clause 9.2.3.16. */
export const MESSAGE_LETTERS_MAX = 160;
/** Of a name, this much is left before anything else is cut: enough to know the farm or the bench. */
const NAME_LETTERS_MIN = 20;
/** An action of which less than this is left helps nobody. */
const ACTION_LETTERS_MIN = 12;

const ended = (sentence: string): string =>
  /[.?!]$/.test(sentence) || sentence === '' ? sentence : `${sentence}.`;

interface Parts {
  /** Empty where the card does not say which farm. */
  readonly farm: string;
  readonly what: string;
  readonly wilt: BriefWilt | null;
  readonly act: string;
  /** Told after all the rest, whole or not at all. */
  readonly more: string;
}

const wiltText = ({ before, bench, after }: BriefWilt): string => `${before}${bench}${after}`;

const joined = ({ farm, what, wilt, act, more }: Parts): string =>
  [
    farm === '' ? '' : `${farm}:`,
    ended(what),
    ended(wilt === null ? '' : wiltText(wilt)),
    ended(act),
    ended(more),
  ]
    .filter((sentence) => sentence !== '')
    .join(' ');

/** How much longer than allowed the message is. */
const over = (parts: Parts, lettersMax: number): number => gsm7Places(joined(parts)) - lettersMax;

const withBench = (parts: Parts, bench: (name: string) => string): Parts =>
  parts.wilt === null ? parts : { ...parts, wilt: { ...parts.wilt, bench: bench(parts.wilt.bench) } };

const nameCut = (name: string, less: number): string => {
  const places = gsm7Places(name);
  return less <= 0 || places <= NAME_LETTERS_MIN
    ? name
    : cut(name, Math.max(NAME_LETTERS_MIN, places - less));
};

const actCut = (act: string, less: number): string => {
  if (less <= 0) return act;
  const places = gsm7Places(act) - less;
  return places < ACTION_LETTERS_MIN ? '' : cutAtWord(act, places);
};

/**
 * What does not fit gives way in this order: the pace of the buckets, the names down to 20 letters, the action from its end, what was seen
 * from its end, the names again. The wilt time stays whole, and goes only where it has no room even alone.
 */
const fitted = (whole: Parts, lettersMax: number): string => {
  let parts = over(whole, lettersMax) > 0 ? { ...whole, more: '' } : whole;
  const less = (): number => over(parts, lettersMax);
  parts = { ...parts, farm: nameCut(parts.farm, less()) };
  parts = withBench(parts, (bench) => nameCut(bench, less()));
  parts = { ...parts, act: actCut(parts.act, less()) };
  if (less() > 0) {
    const { what } = parts;
    parts = { ...parts, what: cutAtWord(what, Math.max(0, gsm7Places(what) - less())) };
  }
  if (less() <= 0) return joined(parts);
  const { wilt } = parts;
  if (wilt === null) return cut(joined({ ...whole, more: '' }), lettersMax);
  const bare = gsm7Places(ended(wiltText({ ...wilt, bench: '' })));
  if (bare > lettersMax) return cut(joined({ ...whole, wilt: null, more: '' }), lettersMax);
  return ended(wiltText({ ...wilt, bench: cut(wilt.bench, lettersMax - bare) }));
};

const hasWilt = (facts: Facts): facts is Extract<Facts, { readonly wilt: unknown }> => 'wilt' in facts;

/** A keeper that is not heard may well flood: the wilt time is then a condition. */
const conditionOf = (facts: Facts): 'surely' | 'if-not-flooded' =>
  'keeper' in facts && facts.keeper === 'keeps' ? 'if-not-flooded' : 'surely';

const briefWilt = (facts: Facts, language: Language): BriefWilt | null => {
  if (!hasWilt(facts)) return null;
  const { before, bench, after } = language.briefWilt(facts.wilt, conditionOf(facts));
  // Blanks at the seams are meant.
  const seam = (text: string): string => [/^ /.exec(text)?.[0], toGsm7(text), / $/.exec(text)?.[0]].join('');
  return { before: seam(before), bench: toGsm7(bench), after: seam(after) };
};

/** `Ribeira: `, or nothing where the card does not say which farm. */
export const farmName = ({ facts }: Card): string => (facts === undefined ? '' : farmLead(facts.farm));

/** The name of a farm at the head of a message, short enough to leave room for the rest. */
export const farmLead = (farm: string): string => `${cut(toGsm7(farm), NAME_LETTERS_MIN)}: `;

/** Of a card of which only the sentences are known, the one on wilting stays whole. */
const partsOfSentences = ({ cause, consequence, firstAction }: Card): Parts => ({
  farm: '',
  what: toGsm7(cause),
  wilt: consequence === null ? null : { before: '', bench: '', after: toGsm7(consequence) },
  act: toGsm7(firstAction),
  more: '',
});

/**
 * The card as one text message, in what matters most first: farm, what was seen, when which bench may wilt, what to do
 * first. Only letters that a text message has, and never more than `lettersMax` places.
 */
export const messageText = (
  card: Card,
  language: Language,
  lettersMax: number = MESSAGE_LETTERS_MAX,
): string => {
  const { facts } = card;
  if (facts === undefined) return fitted(partsOfSentences(card), lettersMax);
  const { what, act } = briefWords(facts, language);
  const parts: Parts = {
    farm: toGsm7(facts.farm),
    what: toGsm7(what),
    wilt: briefWilt(facts, language),
    act: toGsm7(act),
    more: 'bucket' in facts && facts.bucket !== null ? toGsm7(language.bucket.brief(facts.bucket)) : '',
  };
  return fitted(parts, lettersMax);
};
