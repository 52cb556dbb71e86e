import { dayAfter, localClockInstant, localClockText, localDateWords } from '../../src/time/local-day.ts';
import { wallMillis } from '../../src/time/instant.ts';
import type { Rehearsal } from '../cli/rehearsal.ts';
import type { Moment } from '../simulated-shed.ts';

/** The stretches of all runs, which are the same ones. */
export interface Grid {
  readonly atMillis: readonly number[];
  /** By run, then by stretch. */
  readonly runs: readonly (readonly Moment[])[];
}

export const gridOf = (runs: readonly { readonly moments: readonly Moment[] }[]): Grid => ({
  atMillis: runs[0]?.moments.map((moment) => moment.atMillis) ?? [],
  runs: runs.map(({ moments }) => moments),
});

/** The days that a page tells of. */
export type Span = Pick<Rehearsal, 'farm' | 'day' | 'days' | 'endMillis'>;

/** A label at a moment. */
export interface Tick {
  readonly atMillis: number;
  readonly text: string;
}

const TICK_HOURS = [0, 3, 6, 9, 12, 15, 18, 21] as const;

/** The days of the span, in order. */
export const daysOf = ({ day, days }: Pick<Span, 'day' | 'days'>): readonly Span['day'][] => {
  const all = [day];
  for (let last = day; all.length < days; all.push(last)) last = dayAfter(last);
  return all;
};

/** `15 July` */
export const dateWords = (day: Span['day']): string => localDateWords(day.start, day.timeZone);

/** Hours of a day, or the beginning of each day by its number in the month. */
export const ticksOf = (span: Span): readonly Tick[] =>
  span.days === 1
    ? TICK_HOURS.map((hour) => ({
        atMillis: localClockInstant(span.day, hour * 60),
        text: `${String(hour).padStart(2, '0')}:00`,
      }))
    : daysOf(span).map((day) => ({ atMillis: day.start, text: String(Number(day.date.slice(8))) }));

/** The moment as a person reads it beside a plot: `13:05`, or `15 July 13:05` where there are several days. */
export const momentWords = ({ days, farm }: Span, atMillis: number): string => {
  const zone = farm.place.timeZone;
  const clock = localClockText(wallMillis(atMillis), zone);
  return days > 1 ? `${localDateWords(wallMillis(atMillis), zone)} ${clock}` : clock;
};

/** A stretch of the span that has a row in the tables: an hour of a day, or a whole day. */
export interface Stretch {
  readonly fromMillis: number;
  readonly untilMillis: number;
  readonly text: string;
}

/** Over more days than these the floods of one day lie closer than a line is wide. */
const DAYS_DRAWN_FINE = 7;

/** Whether a plot has one point for each day, its lowest or highest, rather than one for each look. */
export const drawnByDay = ({ days }: Span): boolean => days > DAYS_DRAWN_FINE;

const HOUR_MILLIS = 3_600_000;

/** Hours by what the local clock shows at their beginning: 23 or 25 of them where the clocks change. */
export const stretchesOf = (span: Span): readonly Stretch[] => {
  const { day, days, farm } = span;
  if (days > 1)
    return daysOf(span).map((each) => ({
      fromMillis: each.start,
      untilMillis: each.end,
      text: dateWords(each),
    }));
  const hours = Math.round((day.end - day.start) / HOUR_MILLIS);
  return Array.from({ length: hours }, (_, hour) => {
    const fromMillis = day.start + hour * HOUR_MILLIS;
    return {
      fromMillis,
      untilMillis: Math.min(fromMillis + HOUR_MILLIS, day.end),
      text: localClockText(wallMillis(fromMillis), farm.place.timeZone),
    };
  });
};
