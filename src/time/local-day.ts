import { DateTime, IANAZone } from 'luxon';
import { MILLIS_PER_MINUTE, wallMillis, type WallMillis } from './instant.ts';

/** One local calendar day as instants: 23, 24 or 25 hours long. */
export interface LocalDay {
  /** `2026-07-14` */
  readonly date: string;
  readonly timeZone: string;
  readonly start: WallMillis;
  /** The start of the next day; not part of this one. */
  readonly end: WallMillis;
}

const dayFrom = (moment: DateTime): LocalDay => {
  const start = moment.startOf('day');
  return {
    date: start.toFormat('yyyy-MM-dd'),
    timeZone: start.zoneName ?? 'UTC',
    start: wallMillis(start.toMillis()),
    end: wallMillis(start.plus({ days: 1 }).startOf('day').toMillis()),
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

/** Minutes ahead of UTC at an instant. */
const offsetMinutesAt = (instant: number, timeZone: string): number =>
  DateTime.fromMillis(instant, { zone: timeZone }).offset;

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

/**
 * The instant at which the local clock first shows `minuteOfDay` (0–1440). A time that the clocks skip in
 * spring is the moment at which they jump; one that comes twice in autumn is the first of the two.
 */
export const localClockInstant = (day: LocalDay, minuteOfDay: number): WallMillis => {
  if (minuteOfDay >= 24 * 60) return day.end;
  const { timeZone } = day;
  const asUtc = DateTime.fromISO(day.date, { zone: 'utc' }).toMillis() + minuteOfDay * MILLIS_PER_MINUTE;
  const offsets = [offsetMinutesAt(day.start, timeZone), offsetMinutesAt(day.end, timeZone)];
  const candidates = offsets.map((offset) => asUtc - offset * MILLIS_PER_MINUTE).sort((a, b) => a - b);
  const shown = candidates.find(
    (instant) => instant + offsetMinutesAt(instant, timeZone) * MILLIS_PER_MINUTE === asUtc,
  );
  if (shown !== undefined) return wallMillis(Math.max(shown, day.start));
  return wallMillis(offsetChange(Math.min(...candidates), Math.max(...candidates), timeZone));
};

/** Whole days from one calendar date to another, counted on the calendar. */
export const daysBetweenDates = (from: string, to: string): number =>
  Math.round(
    DateTime.fromISO(to, { zone: 'utc' }).diff(DateTime.fromISO(from, { zone: 'utc' }), 'days').days,
  );

/** `13:42` on the local clock. */
export const localClockText = (instant: WallMillis, timeZone: string): string =>
  DateTime.fromMillis(instant, { zone: timeZone }).toFormat('HH:mm');

/** `2026-07-14 13:42` on the local clock. */
export const localDateTimeText = (instant: WallMillis, timeZone: string): string =>
  DateTime.fromMillis(instant, { zone: timeZone }).toFormat('yyyy-MM-dd HH:mm');

export const isTimeZone = (name: string): boolean => IANAZone.isValidZone(name);
export const isCalendarDate = (text: string): boolean =>
  /^\d{4}-\d{2}-\d{2}$/.test(text) && DateTime.fromISO(text, { zone: 'utc' }).isValid;
