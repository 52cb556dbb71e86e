import { DateTime } from 'luxon';
import { localDateTimeText } from '../../src/time/local-day.ts';
import { wallMillis, type WallMillis } from '../../src/time/instant.ts';
import { assert } from '../../src/units/assertion.ts';
import { calendarHoursOf, foundHour, HOUR_MILLIS, type CalendarHours } from './calendar-hours.ts';
import type { HourlyRow } from './hourly-row.ts';
import type { WeatherPlace } from './place.ts';
import { recordSky } from './record.ts';
import type { Sky } from './sky.ts';

export interface RecordDay {
  /** A record of any year or years, rising in time. */
  readonly rows: readonly HourlyRow[];
  readonly place: WeatherPlace;
  readonly start: WallMillis;
  /** How many calendar days, counted on the local clock from `start`. */
  readonly days: number;
  readonly shareOfSun?: number;
}

export type RecordDaySky =
  | {
      readonly ok: true;
      /** Reaches from a day before `start` to a day after the last of the days, or further. */
      readonly sky: Sky;
      /** The years of the record that lent their hours, rising. */
      readonly fromYears: readonly number[];
    }
  | { readonly ok: false; readonly reason: string };

/** A straight line over a longer hole would invent a noon or a dawn. */
const HOLE_MILLIS_MAX = 3 * HOUR_MILLIS;
/** Longer rehearsals than a year have no use, and each hour is looked up. */
const DAYS_MAX = 400;

const hoursBetween = (from: number, to: number): readonly number[] => {
  const first = Math.floor(from / HOUR_MILLIS);
  const last = Math.floor(to / HOUR_MILLIS);
  return Array.from({ length: last - first + 1 }, (_, step) => (first + step) * HOUR_MILLIS);
};

/** The year whose hours fill most of the span; of equals the target's own year, then the latest. */
const preferredYear = (hours: CalendarHours, asked: readonly number[], targetYear: number): number => {
  const filled = new Map<number, number>();
  for (const hourMillis of asked) {
    const key = DateTime.fromMillis(hourMillis, { zone: 'utc' }).toFormat("MM-dd'T'HH");
    for (const year of hours.get(key)?.keys() ?? []) filled.set(year, (filled.get(year) ?? 0) + 1);
  }
  const rank = ([year, count]: readonly [number, number]): readonly number[] => [
    count,
    year === targetYear ? 1 : 0,
    year,
  ];
  const ahead = (a: readonly number[], b: readonly number[]): number =>
    a.map((value, place) => value - (b[place] ?? 0)).find((difference) => difference !== 0) ?? 0;
  const best = [...filled].sort((a, b) => ahead(rank(b), rank(a)))[0];
  return best?.[0] ?? targetYear;
};

/**
 * The weather that a record of another year, such as hourly normals, has for the same days of the calendar:
 * month, day and hour in UTC, which keeps the sun where it belongs whatever the clocks did in either year.
 * The 29th of February takes the 28th when the record has none. Refused when the record leaves a
 * hole of more than three hours in the span.
 * @throws BrokenAssertion when `days` is not within 0–400
 */
export const recordDay = ({ rows, place, start, days, ...rest }: RecordDay): RecordDaySky => {
  assert(days > 0 && days <= DAYS_MAX, `a record of ${days} days`);
  const local = DateTime.fromMillis(start, { zone: place.timeZone });
  const from = local.minus({ days: 1 }).toMillis();
  const to = local.plus({ days: days + 1 }).toMillis();
  const hours = calendarHoursOf(rows);
  const asked = hoursBetween(from - HOLE_MILLIS_MAX, to + HOLE_MILLIS_MAX);
  const year = preferredYear(hours, asked, local.year);
  const found = asked.flatMap((hourMillis) => foundHour(hours, hourMillis, year) ?? []);
  const moved = found.flatMap((hour) => hour.rows);
  const hole = firstHole(moved, from, to);
  if (hole !== null) {
    const at = localDateTimeText(wallMillis(hole), place.timeZone).slice(5);
    return {
      ok: false,
      reason: `the record has no weather for more than 3 h after ${at} (month-day, local time) in any year`,
    };
  }
  const fromYears = [...new Set(found.map((hour) => hour.year))].sort((a, b) => a - b);
  return { ok: true, sky: recordSky({ rows: moved, place, ...rest }), fromYears };
};

/** The last moment before the first hole in `rows` as seen from `from` to `to`, or null when it has none. */
const firstHole = (rows: readonly HourlyRow[], from: number, to: number): number | null => {
  const first = rows[0];
  const last = rows.at(-1);
  if (first === undefined || first.epochMillis > from) return from;
  for (const [place, row] of rows.entries()) {
    const next = rows[place + 1];
    if (next !== undefined && next.epochMillis - row.epochMillis > HOLE_MILLIS_MAX) return row.epochMillis;
  }
  return last !== undefined && last.epochMillis < to ? last.epochMillis : null;
};
