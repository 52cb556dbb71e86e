import type { Farm } from '../farm/farm.ts';
import { minutesBetween, type MonotonicMillis, type Now } from '../time/instant.ts';
import { localClockInstant, type LocalDay } from '../time/local-day.ts';
import type { Verdict } from '../verify/verdict.ts';
import { isActive, type Alarms } from './alarm.ts';
import type { Call } from './calls.ts';
import type { FloodCounts } from './language/call-language.ts';
import { gsm7Places, toGsm7 } from './language/gsm7.ts';
import type { Language } from './language/language.ts';
import { languageOf } from './language/languages.ts';
import { farmLead, MESSAGE_LETTERS_MAX } from './language/message.ts';

/** An hour after its time nobody waits for it any more: it is left out, and that too says something. */
const LATE_MINUTES = 60;
const DAY_MINUTES = 24 * 60;
/** More verdicts than one day can bring. */
const VERDICTS_MAX = 400;

/** What is kept for the next one; plain data, bounded. */
export interface DayKept {
  /** The local day on which it was said last. */
  readonly saidOn: string | null;
  /** Verdicts of the last 24 hours, oldest first. */
  readonly verdicts: readonly { readonly at: MonotonicMillis; readonly kind: Verdict['kind'] }[];
}

export const NO_DAY: DayKept = { saidOn: null, verdicts: [] };

/** The day with the verdicts of one more moment. */
export const withVerdicts = (
  kept: DayKept,
  kinds: readonly Verdict['kind'][],
  now: MonotonicMillis,
): DayKept => {
  if (kinds.length === 0) return kept;
  const verdicts = [
    ...kept.verdicts.filter(({ at }) => minutesBetween(at, now) < DAY_MINUTES),
    ...kinds.map((kind) => ({ at: now, kind })),
  ].slice(-VERDICTS_MAX);
  return { ...kept, verdicts };
};

export interface DayFacts {
  /** Litres where a level sensor tells, else what its rule says; null where nothing looks at it. */
  readonly tank: number | 'well' | 'low' | null;
  readonly strengthMillisiemensPerCm: number | null;
  readonly minutesLeft: number;
}

const floodCounts = ({ verdicts }: DayKept, now: MonotonicMillis): FloodCounts => {
  const within = verdicts.filter(({ at }) => minutesBetween(at, now) < DAY_MINUTES);
  const count = (kind: Verdict['kind']): number => within.filter((one) => one.kind === kind).length;
  return {
    confirmed: count('confirmed'),
    weak: count('degraded'),
    unproven: count('unproven'),
    missed: count('missed'),
    withheld: count('withheld'),
  };
};

/** The sentences of the daily word, in the order of the text. */
const allWellSentences = (
  kept: DayKept,
  facts: DayFacts,
  now: MonotonicMillis,
  { calls, span }: Language,
): Readonly<Record<'well' | 'floods' | 'tank' | 'strength' | 'left', string>> => {
  const { minutesLeft, strengthMillisiemensPerCm: strength, tank } = facts;
  return {
    well: calls.allWell,
    floods: calls.floods(floodCounts(kept, now)),
    tank: tank === null ? '' : calls.tank(tank),
    strength: strength === null ? '' : calls.strength(strength),
    left: calls.withoutPump(minutesLeft >= DAY_MINUTES ? null : span(Math.floor(minutesLeft))),
  };
};

type Sentences = ReturnType<typeof allWellSentences>;

const allWellText = ({ well, floods, tank, strength, left }: Sentences): string =>
  [well, floods, tank, strength, left].filter((sentence) => sentence !== '').join(' ');

/** As one text message, what matters most first; a sentence that does not fit whole is left out. */
const allWellMessage = (farm: string, { well, floods, left, tank, strength }: Sentences): string =>
  [floods, left, tank, strength]
    .filter((sentence) => sentence !== '')
    .map(toGsm7)
    .reduce(
      (said, sentence) =>
        gsm7Places(said) + 1 + gsm7Places(sentence) <= MESSAGE_LETTERS_MAX ? `${said} ${sentence}` : said,
      `${farmLead(farm)}${toGsm7(well)}`,
    );

/** Whether this is the time of the daily word: a cheap look first, for a local day is dear to work out. */
const isTime = (day: LocalDay, atMinute: number, wall: number): boolean => {
  const roughly = (wall - day.start) / 60_000;
  // A day of clock changes is up to two hours longer or shorter before the moment.
  if (Math.abs(roughly - atMinute) > 120 + LATE_MINUTES) return false;
  const at = localClockInstant(day, atMinute);
  return wall >= at && wall < at + LATE_MINUTES * 60_000;
};

/** The daily word that all is well, so that silence means trouble; none while an alarm stands, nor where nobody knows the time. */
export const allWell = (asked: {
  readonly farm: Pick<Farm, 'farm' | 'language'>;
  readonly kept: DayKept;
  readonly alarms: Alarms;
  readonly day: LocalDay | null;
  readonly now: Now;
  readonly facts: () => DayFacts;
  /** Of the local day, by its clock. */
  readonly atMinute: number;
}): { readonly kept: DayKept; readonly call: Call | null } => {
  const { farm, kept, alarms, day, now, facts, atMinute } = asked;
  const nothing = { kept, call: null };
  if (now.wall === 'unknown' || day === null || kept.saidOn === day.date) return nothing;
  if (alarms.some(isActive) || !isTime(day, atMinute, now.wall)) return nothing;
  const told = facts();
  const sentences = allWellSentences(kept, told, now.monotonic, languageOf(farm));
  return {
    kept: { ...kept, saidOn: day.date },
    call: {
      kind: 'all-well',
      alarm: null,
      priority: 'low',
      text: allWellText(sentences),
      message: allWellMessage(farm.farm, sentences),
      card: null,
      also: [],
      seenBy: null,
      rung: 0,
      minutesLeft: Math.floor(told.minutesLeft),
    },
  };
};
