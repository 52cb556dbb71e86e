import { minutesBetween, type MonotonicMillis, type Now } from '../time/instant.ts';
import { localClockInstant, type LocalDay } from '../time/local-day.ts';
import type { Verdict } from '../verify/verdict.ts';
import { isActive, type Alarms } from './alarm.ts';
import type { Call } from './calls.ts';
import { spanText } from './words.ts';

/** When all is well it is said once a day, so that silence means trouble; 7:30 by the clock of the farm. */
export const ALL_WELL_MINUTE = 7 * 60 + 30;
/** An hour later nobody waits for it any more: it is left out, and that too says something. */
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
  /** `well`, or its rule; litres where a level sensor tells. */
  readonly tank: string;
  readonly strengthMillisiemensPerCm: number | null;
  readonly minutesLeft: number;
}

const floodWords = ({ verdicts }: DayKept, now: MonotonicMillis): string => {
  const within = verdicts.filter(({ at }) => minutesBetween(at, now) < DAY_MINUTES);
  const count = (kind: Verdict['kind']): number => within.filter((one) => one.kind === kind).length;
  const others = (['degraded', 'unproven', 'missed', 'withheld'] as const).flatMap((kind) =>
    kind === 'missed' || count(kind) > 0 ? [`${count(kind)} ${kind === 'degraded' ? 'weak' : kind}`] : [],
  );
  const confirmed = count('confirmed');
  return `${confirmed} ${confirmed === 1 ? 'flood' : 'floods'} confirmed in 24 h, ${others.join(', ')}`;
};

const allWellText = (kept: DayKept, facts: DayFacts, now: MonotonicMillis): string => {
  const { minutesLeft, strengthMillisiemensPerCm: strength } = facts;
  const left =
    minutesLeft >= DAY_MINUTES ? 'more than a day left' : `about ${spanText(Math.floor(minutesLeft))} left`;
  return [
    'All well.',
    `${floodWords(kept, now)}.`,
    `Tank ${facts.tank}.`,
    ...(strength === null ? [] : [`Strength ${strength.toFixed(1)} mS/cm.`]),
    `Without the pump: ${left}.`,
  ].join(' ');
};

/** Whether this is the time of the daily word: a cheap look first, for a local day is dear to work out. */
const isTime = (day: LocalDay, atMinute: number, wall: number): boolean => {
  const roughly = (wall - day.start) / 60_000;
  // A day of clock changes is up to two hours longer or shorter before the moment.
  if (Math.abs(roughly - atMinute) > 120 + LATE_MINUTES) return false;
  const at = localClockInstant(day, atMinute);
  return wall >= at && wall < at + LATE_MINUTES * 60_000;
};

/** The daily word that all is well; none while an alarm stands, nor where nobody knows the time. */
export const allWell = (asked: {
  readonly kept: DayKept;
  readonly alarms: Alarms;
  readonly day: LocalDay | null;
  readonly now: Now;
  readonly facts: () => DayFacts;
  readonly atMinute?: number;
}): { readonly kept: DayKept; readonly call: Call | null } => {
  const { kept, alarms, day, now, facts, atMinute = ALL_WELL_MINUTE } = asked;
  const nothing = { kept, call: null };
  if (now.wall === 'unknown' || day === null || kept.saidOn === day.date) return nothing;
  if (alarms.some(isActive) || !isTime(day, atMinute, now.wall)) return nothing;
  const told = facts();
  return {
    kept: { ...kept, saidOn: day.date },
    call: {
      kind: 'all-well',
      alarm: null,
      priority: 'low',
      text: allWellText(kept, told, now.monotonic),
      card: null,
      also: [],
      rung: 0,
      minutesLeft: Math.floor(told.minutesLeft),
    },
  };
};
