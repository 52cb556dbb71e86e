import { DateTime } from 'luxon';
import { MILLIS_PER_MINUTE } from './instant.ts';

const HOUR_MILLIS = 60 * MILLIS_PER_MINUTE;
/** A year of hours and more; then it begins anew. */
const HOURS_KEPT = 10_000;

const asked = (instant: number, timeZone: string): number =>
  DateTime.fromMillis(instant, { zone: timeZone }).offset;

/** By zone, the offset of hours at both of whose ends it is the same; `null` for the others. */
const known = new Map<string, Map<number, number | null>>();

const hoursOf = (timeZone: string): Map<number, number | null> => {
  const kept = known.get(timeZone);
  if (kept !== undefined && kept.size < HOURS_KEPT) return kept;
  const hours = new Map<number, number | null>();
  known.set(timeZone, hours);
  return hours;
};

/**
 * Minutes ahead of UTC at an instant, NaN where there is none or no such zone. Asking the time-zone table costs more than all else of a look at the clock, so each hour
 * is asked once at both ends: no zone has ever changed twice within one.
 */
export const offsetMinutesAt = (instant: number, timeZone: string): number => {
  const hours = hoursOf(timeZone);
  const hour = Math.floor(instant / HOUR_MILLIS);
  let offset = hours.get(hour);
  if (offset === undefined) {
    const [first, last] = [
      asked(hour * HOUR_MILLIS, timeZone),
      asked((hour + 1) * HOUR_MILLIS - 1, timeZone),
    ];
    offset = first === last ? first : null;
    hours.set(hour, offset);
  }
  return offset ?? asked(instant, timeZone);
};
