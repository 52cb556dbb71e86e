import { ENGLISH_REASONS } from './language/english-reasons.ts';

/**
 * Why a thing is so, on its way into an alarm. Sensors, interlocks and verdicts say it as an English sentence, and so
 * it stands in the journal and in what is kept over a restart. Here the sentence is read back into its name and its
 * numbers, so that every language has its own; what nobody here wrote (a word of the operating system) stays as it is.
 */
export type ReasonName = keyof typeof ENGLISH_REASONS;

export type Reason =
  | { readonly kind: 'named'; readonly name: ReasonName; readonly values: Readonly<Record<string, Value>> }
  | { readonly kind: 'said'; readonly text: string };

/** A number as written, a free text, or a reason inside a reason. */
type Value = string | Reason;

/** One sentence for each name; each has the same `{places}` as the English one. */
export type Reasons = Readonly<Record<ReasonName, string>>;

/** Places that take a text, or another reason; all the others take a number. */
const TEXT_PLACES: ReadonlySet<string> = new Set(['who', 'where', 'span']);
const INNER_PLACE = 'reason';
const PLACE = /\{(\w+)\}/g;
/** A sentence longer than this was made by no one here. */
const LETTERS_MAX = 300;

const patternOf = (place: string): string =>
  place === INNER_PLACE || TEXT_PLACES.has(place) ? `(?<${place}>.+?)` : `(?<${place}>\\d+(?:\\.\\d+)?)`;

const isReasonName = (name: string): name is ReasonName => Object.hasOwn(ENGLISH_REASONS, name);

const SENTENCES = Object.keys(ENGLISH_REASONS)
  .filter(isReasonName)
  .map((name) => {
    const sentence = ENGLISH_REASONS[name];
    const pattern = sentence
      .replace(/[.*+?^$()|[\]\\]/g, '\\$&')
      .replace(PLACE, (_, place: string) => patternOf(place));
    return { name, pattern: new RegExp(`^${pattern}$`, 'su') };
  });

const namedReason = (text: string): Reason | null => {
  for (const { name, pattern } of SENTENCES) {
    const found = pattern.exec(text);
    if (found === null) continue;
    const values: Record<string, Value> = { ...found.groups };
    const inner = found.groups?.[INNER_PLACE];
    if (inner !== undefined) {
      const reason = namedReason(inner);
      if (reason === null) continue;
      values[INNER_PLACE] = reason;
    }
    return { kind: 'named', name, values };
  }
  return null;
};

/** The reason that an English sentence gives; one that is not known is kept as it was said. */
export const reasonOf = (text: string): Reason =>
  (text.length > LETTERS_MAX ? null : namedReason(text)) ?? { kind: 'said', text };

/** How a language writes the parts of a reason. */
export interface ReasonStyle {
  readonly reasons: Reasons;
  /** `13.5`, or `13,5` */
  readonly figure: (digits: string) => string;
  /** What somebody else said, word for word. */
  readonly quoted: (text: string) => string;
}

/** The reason as part of a sentence. */
export const reasonText = (reason: Reason, style: ReasonStyle): string => {
  if (reason.kind === 'said') return style.quoted(reason.text);
  return style.reasons[reason.name].replace(PLACE, (_, place: string) => {
    const value = reason.values[place] ?? '';
    if (typeof value !== 'string') return reasonText(value, style);
    return TEXT_PLACES.has(place) ? value : style.figure(value);
  });
};
