import type { LanguageCode } from '../../farm/languages-spoken.ts';
import type { Bucket, FactKind, Facts, FactsOfKind, HostKind, Moment, PartKind, Wilt } from '../facts.ts';
import type { ReasonStyle } from '../reason.ts';
import type { CallWords } from './call-language.ts';

/** A card in sentences: what was seen, what it may lead to, what to do first. */
export interface Told {
  readonly cause: string;
  readonly consequence: string | null;
  readonly firstAction: string;
}

/**
 * The same for a text message, where each letter counts. `act` must be safe wherever it is cut off: where hands go
 * in, the plug comes first.
 */
export interface Brief {
  readonly what: string;
  readonly act: string;
}

type TellOf<Words> = {
  readonly [Kind in FactKind]: (facts: FactsOfKind[Kind]) => Words;
};

/** What is told of the host, in a file of its own. `since` and `style` are those of the language. */
export type HostTexts = (
  since: (moment: Moment) => string,
  style: ReasonStyle,
) => {
  readonly cards: Pick<TellOf<Told>, Exclude<HostKind, PartKind>>;
  readonly briefs: Pick<TellOf<Brief>, Exclude<HostKind, PartKind>>;
};

/** What is told of single parts of the shed and of the host, in a file of its own. */
export type PartTexts = (since: (moment: Moment) => string) => {
  readonly cards: Pick<TellOf<Told>, PartKind>;
  readonly briefs: Pick<TellOf<Brief>, PartKind>;
};

/** All sentences of the alarms in one language; a language without one of them does not compile. */
export interface Language extends ReasonStyle {
  readonly code: LanguageCode;
  /** `45 min`, `3 h 20 min` */
  readonly span: (minutes: number) => string;
  /** "since 13:42", "for 15 min" */
  readonly since: (moment: Moment) => string;
  readonly wilt: (wilt: Wilt) => string;
  readonly cards: TellOf<Told>;
  readonly briefs: TellOf<Brief>;
  readonly calls: CallWords;
  readonly bucket: BucketWords;
  /** What comes before and after the name of the bench in a text message; `before` is empty but for a condition. */
  readonly briefWilt: (wilt: Wilt, condition: 'surely' | 'if-not-flooded') => BriefWilt;
}

/** Which bench gets water by hand first, how much and how often. */
export interface BucketWords {
  /** A sentence that follows the first action. */
  readonly full: (bucket: Bucket) => string;
  /** The same for a text message, without its full stop. */
  readonly brief: (bucket: Bucket) => string;
}

/** The name of the bench may be shortened; what stands round it is never cut. */
export interface BriefWilt {
  readonly before: string;
  readonly bench: string;
  readonly after: string;
}

const told = <Words, Kind extends FactKind>(
  texts: TellOf<Words>,
  kind: Kind,
  facts: FactsOfKind[Kind],
): Words => texts[kind](facts);

const toldOf = <Words>(texts: TellOf<Words>, facts: Facts): Words => told(texts, facts.kind, facts);

export const cardWords = (facts: Facts, language: Language): Told => toldOf(language.cards, facts);
export const briefWords = (facts: Facts, language: Language): Brief => toldOf(language.briefs, facts);

/** `45 min`, `3 h 20 min`: the units are written alike in all four languages (SI Brochure, 9th edition, table 8). */
export const spanOf = (minutes: number): string => {
  const whole = Math.round(minutes);
  if (whole < 90) return `${whole} min`;
  const hours = Math.floor(whole / 60);
  const rest = whole - hours * 60;
  return rest === 0 ? `${hours} h` : `${hours} h ${rest} min`;
};

/** A message to a telephone must stay short; the journal has all of it. */
const WHY_LETTERS_MAX = 60;
export const shortened = (why: string): string =>
  why.length <= WHY_LETTERS_MAX ? why : `${why.slice(0, WHY_LETTERS_MAX - 3)}...`;

export const decimalComma = (digits: string): string => digits.replace('.', ',');
