import type { LanguageCode } from '../farm/languages-spoken.ts';
import { ENGLISH_REASONS } from './language/english-reasons.ts';
import { HOST_REASONS } from './language/reasons/host-reasons.ts';

/**
 * Why a thing is so, on its way into an alarm. Sensors, interlocks, verdicts, ports and channels say it as an English
 * sentence, and so it stands in the journal and in what is kept over a restart. Here the sentence is read back into its
 * name and its numbers, so that every language has its own; what nobody here wrote (a word of the operating system, of a
 * mail server) stays as it is, and is quoted.
 */
export type ReasonName = ShedReason | HostReason;
type ShedReason = keyof typeof ENGLISH_REASONS;
type HostReason = keyof typeof HOST_REASONS;

export type Reason =
  | { readonly kind: 'named'; readonly name: ReasonName; readonly values: Readonly<Record<string, Value>> }
  | { readonly kind: 'said'; readonly text: string };

/** A number as written, a free text, or a reason inside a reason. */
type Value = string | Reason;

/** One sentence for each reason of the shed; each has the same `{places}` as the English one. */
export type Reasons = Readonly<Record<ShedReason, string>>;

/** Places that take a text as it is; all but these and the following take a number. */
const TEXT_PLACES: ReadonlySet<string> = new Set([
  ...['who', 'where', 'span', 'code', 'state', 'serial', 'key', 'pin', 'keys', 'wanted'],
  ...['firmware', 'protocol', 'ours'],
]);
/** A text of which the other languages tell the gist, since it is made of too many parts. */
const ENGLISH_PLACE = 'unsaid';
/** What somebody else said. */
const SAID_PLACE = 'said';
/** A reason of our own, */
const INNER_PLACE = 'reason';
/** or of ours where we know it, else what somebody else said, */
const EITHER_PLACE = 'why';
/** or else a name as it is. */
const NAME_PLACES: ReadonlySet<string> = new Set(['found', 'before']);
const PLACE = /\{(\w+)\}/g;
/** One longer than this is cut in every message anyway, and takes long to look through. */
const LETTERS_MAX = 1000;

const NUMBER = '\\d+(?:\\.\\d+)?';
const isText = (place: string): boolean =>
  TEXT_PLACES.has(place) ||
  NAME_PLACES.has(place) ||
  [ENGLISH_PLACE, SAID_PLACE, INNER_PLACE, EITHER_PLACE].includes(place);
const patternOf = (place: string): string => `(?<${place}>${isText(place) ? '.+?' : NUMBER})`;

const isHostReason = (name: string): name is HostReason => Object.hasOwn(HOST_REASONS, name);
const isShedReason = (name: string): name is ShedReason => Object.hasOwn(ENGLISH_REASONS, name);

const sentenceIn = (name: ReasonName, { reasons, code }: Pick<ReasonStyle, 'reasons' | 'code'>): string =>
  isHostReason(name) ? HOST_REASONS[name][code] : reasons[name];

/** In the order in which they are tried: what is made of others comes last. */
export const REASON_NAMES: readonly ReasonName[] = [
  ...Object.keys(HOST_REASONS).filter(isHostReason),
  ...Object.keys(ENGLISH_REASONS).filter(isShedReason),
];

const SENTENCES = REASON_NAMES.map((name) => {
  const pattern = sentenceIn(name, { reasons: ENGLISH_REASONS, code: 'en' })
    .replace(/[.*+?^$()|[\]\\]/g, '\\$&')
    .replace(PLACE, (_, place: string) => patternOf(place));
  return { name, pattern: new RegExp(`^${pattern}$`, 'su') };
});

/** What stands at a place; null where it is not what belongs there. */
const valueAt = (place: string, text: string): Value | null => {
  if (place === INNER_PLACE) return namedReason(text);
  if (place === EITHER_PLACE) return namedReason(text) ?? { kind: 'said', text };
  if (place === SAID_PLACE) return { kind: 'said', text };
  return NAME_PLACES.has(place) ? (namedReason(text) ?? text) : text;
};

const namedReason = (text: string): Reason | null => {
  for (const { name, pattern } of SENTENCES) {
    const found = pattern.exec(text);
    if (found === null) continue;
    const places = Object.entries(found.groups ?? {}).map(
      ([place, said]) => [place, valueAt(place, said)] as const,
    );
    const values: Record<string, Value> = {};
    for (const [place, value] of places) if (value !== null) values[place] = value;
    if (Object.keys(values).length === places.length) return { kind: 'named', name, values };
  }
  return null;
};

/** The reason that an English sentence gives; one that is not known is kept as it was said. */
export const reasonOf = (text: string): Reason =>
  (text.length > LETTERS_MAX ? null : namedReason(text)) ?? { kind: 'said', text };

/** How a language writes the parts of a reason. */
export interface ReasonStyle {
  readonly code: LanguageCode;
  readonly reasons: Reasons;
  /** `13.5`, or `13,5` */
  readonly figure: (digits: string) => string;
  /** What somebody else said, word for word. */
  readonly quoted: (text: string) => string;
}

/** The reason as part of a sentence. */
export const reasonText = (reason: Reason, style: ReasonStyle): string => {
  if (reason.kind === 'said') return style.quoted(reason.text);
  return sentenceIn(reason.name, style).replace(PLACE, (_, place: string) => {
    const value = reason.values[place] ?? '';
    if (typeof value !== 'string') return reasonText(value, style);
    return isText(place) ? value : style.figure(value);
  });
};
