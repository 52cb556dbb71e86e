import { DateTime } from 'luxon';
import type { HourlyRow } from './hourly-row.ts';

export const HOUR_MILLIS = 3_600_000;

/** `07-14T20`: an hour of no year in particular, in UTC, so that no change of the clocks can fold it. */
const hourKey = (moment: DateTime): string => moment.toFormat("MM-dd'T'HH");

/** The rows of a record by hour of the calendar, then by year. */
export type CalendarHours = ReadonlyMap<string, ReadonlyMap<number, readonly HourlyRow[]>>;

/** Rows that share an hour of the calendar, and the year they come from. */
export interface FoundHour {
  readonly year: number;
  /** Moved to the hour that was asked for; minutes and seconds stay. */
  readonly rows: readonly HourlyRow[];
}

export const calendarHoursOf = (rows: readonly HourlyRow[]): CalendarHours => {
  const hours = new Map<string, Map<number, HourlyRow[]>>();
  for (const row of rows) {
    const moment = DateTime.fromMillis(row.epochMillis, { zone: 'utc' });
    const key = hourKey(moment);
    const years = hours.get(key) ?? new Map<number, HourlyRow[]>();
    hours.set(key, years);
    const ofYear = years.get(moment.year) ?? [];
    years.set(moment.year, ofYear);
    ofYear.push(row);
  }
  return hours;
};

/** A leap day that the record lacks takes the hours of the day before it. */
const standInKey = (key: string): string => key.replace('02-29', '02-28');

/**
 * The record's rows for the hour that begins at `hourMillis`: of `preferredYear` where there are any, else of
 * the year nearest to it. Null when no year of the record has this hour of the calendar.
 */
export const foundHour = (
  hours: CalendarHours,
  hourMillis: number,
  preferredYear: number,
): FoundHour | null => {
  const key = hourKey(DateTime.fromMillis(hourMillis, { zone: 'utc' }));
  const years = hours.get(key) ?? hours.get(standInKey(key));
  if (years === undefined) return null;
  const distance = (year: number): number => Math.abs(year - preferredYear);
  const year = [...years.keys()].reduce((best, other) => (distance(other) < distance(best) ? other : best));
  const intoHour = (epochMillis: number): number =>
    epochMillis - Math.floor(epochMillis / HOUR_MILLIS) * HOUR_MILLIS;
  return {
    year,
    rows: (years.get(year) ?? []).map((row) => ({
      ...row,
      epochMillis: hourMillis + intoHour(row.epochMillis),
    })),
  };
};
