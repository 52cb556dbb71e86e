import { DateTime, IANAZone } from 'luxon';
import { MILLIS_PER_MINUTE, wallMillis, type WallMillis } from './instant.ts';
import { offsetMinutesAt } from './zone-offset.ts';

/** One local calendar day as instants: 23, 24 or 25 hours long. */
export interface LocalDay {
  /** `2026-07-14` */
  readonly date: string;
  readonly timeZone: string;
  readonly start: WallMillis;
  /** The start of the next day; not part of this one. */
  readonly end: WallMillis;
}

/** The first millisecond of (`from`, `to`] that has the offset of `to`. */
const offsetChange = (from: number, to: number, timeZone: string): number => {
  const after = offsetMinutesAt(to, timeZone);
  let before = from;
  let change = to;
  while (change - before > 1) {
    const middle = Math.floor((before + change) / 2);
    if (offsetMinutesAt(middle, timeZone) === after) change = middle;
    else before = middle;
  }
  return change;
};

const MILLIS_PER_DAY = 24 * 60 * MILLIS_PER_MINUTE;

/** No zone is further ahead of UTC or behind it than this; so far round a clock time its offsets are looked for. */
const OFFSET_MILLIS_MAX = 15 * 60 * MILLIS_PER_MINUTE;

/**
 * The first instant at which the local clock shows what UTC shows at `shown`; for a time that the clocks skip, the
 * moment at which they jump.
 */
const firstShowing = (shown: number, timeZone: string): WallMillis => {
  const offsets = [
    offsetMinutesAt(shown - OFFSET_MILLIS_MAX, timeZone),
    offsetMinutesAt(shown + OFFSET_MILLIS_MAX, timeZone),
  ];
  const candidates = offsets.map((offset) => shown - offset * MILLIS_PER_MINUTE).sort((a, b) => a - b);
  const found = candidates.find(
    (instant) => instant + offsetMinutesAt(instant, timeZone) * MILLIS_PER_MINUTE === shown,
  );
  return wallMillis(found ?? offsetChange(Math.min(...candidates), Math.max(...candidates), timeZone));
};

const utcMidnight = (date: string): DateTime => DateTime.fromISO(date, { zone: 'utc' });

/** Midnight may be skipped (Cairo) or come twice (Havana, the Azores): the day begins at the first instant of its date. */
const dayFrom = (moment: DateTime): LocalDay => {
  const date = moment.toFormat('yyyy-MM-dd');
  const timeZone = moment.zoneName ?? 'UTC';
  const midnight = utcMidnight(date);
  return {
    date,
    timeZone,
    start: firstShowing(midnight.toMillis(), timeZone),
    end: firstShowing(midnight.plus({ days: 1 }).toMillis(), timeZone),
  };
};

export const localDayOf = (instant: WallMillis, timeZone: string): LocalDay =>
  dayFrom(DateTime.fromMillis(instant, { zone: timeZone }));

/** @throws RangeError when `date` is not a calendar date or the zone is unknown */
export const localDayOn = (date: string, timeZone: string): LocalDay => {
  const moment = DateTime.fromISO(date, { zone: timeZone });
  if (!moment.isValid) throw new RangeError(`not a calendar date in ${timeZone}: ${date}`);
  return dayFrom(moment);
};

export const dayAfter = (day: LocalDay): LocalDay => localDayOf(day.end, day.timeZone);
export const dayBefore = (day: LocalDay): LocalDay => localDayOf(wallMillis(day.start - 1), day.timeZone);

/**
 * The instant at which the local clock first shows `minuteOfDay` (0–1440). A time that the clocks skip in
 * spring is the moment at which they jump; one that comes twice in autumn is the first of the two.
 */
export const localClockInstant = (day: LocalDay, minuteOfDay: number): WallMillis =>
  firstShowing(utcMidnight(day.date).toMillis() + minuteOfDay * MILLIS_PER_MINUTE, day.timeZone);

/** Whole days from one calendar date to another, counted on the calendar. */
export const daysBetweenDates = (from: string, to: string): number =>
  Math.round(
    DateTime.fromISO(to, { zone: 'utc' }).diff(DateTime.fromISO(from, { zone: 'utc' }), 'days').days,
  );

/** The calendar date before. */
export const dateBefore = (date: string): string =>
  utcMidnight(date).minus({ days: 1 }).toFormat('yyyy-MM-dd');

/** What the local clock shows; an hour that comes twice in autumn is shown twice. */
export const localTimeOfDay = (
  instant: WallMillis,
  timeZone: string,
): { readonly minute: number; readonly second: number } => {
  const shown = instant + offsetMinutesAt(instant, timeZone) * MILLIS_PER_MINUTE;
  const seconds = Math.floor((shown - MILLIS_PER_DAY * Math.floor(shown / MILLIS_PER_DAY)) / 1000);
  return { minute: Math.floor(seconds / 60), second: seconds % 60 };
};

/** `13:42` on the local clock. */
export const localClockText = (instant: WallMillis, timeZone: string): string =>
  DateTime.fromMillis(instant, { zone: timeZone }).toFormat('HH:mm');

/** `2026-07-14 13:42` on the local clock. */
export const localDateTimeText = (instant: WallMillis, timeZone: string): string =>
  DateTime.fromMillis(instant, { zone: timeZone }).toFormat('yyyy-MM-dd HH:mm');

/** `14 July` on the local calendar. */
export const localDateWords = (instant: WallMillis, timeZone: string): string =>
  DateTime.fromMillis(instant, { zone: timeZone, locale: 'en' }).toFormat('d LLLL');

export const isTimeZone = (name: string): boolean => IANAZone.isValidZone(name);
export const isCalendarDate = (text: string): boolean =>
  /^\d{4}-\d{2}-\d{2}$/.test(text) && DateTime.fromISO(text, { zone: 'utc' }).isValid;
