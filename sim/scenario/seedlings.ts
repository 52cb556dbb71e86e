import { DateTime } from 'luxon';
import type { Farm } from '../../src/farm/farm.ts';
import type { LocalDay } from '../../src/time/local-day.ts';

const DAYS_OLD = 2;

/** The farm with seedlings that were started in place, two days old on the day, in the first bench that has plants. */
export const withSeedlings = (farm: Farm, day: LocalDay): Farm => {
  const sown = DateTime.fromISO(day.date, { zone: 'utc' }).minus({ days: DAYS_OLD }).toISODate() ?? day.date;
  const first = farm.benches.findIndex(({ plants }) => plants > 0);
  return {
    ...farm,
    benches: farm.benches.map((bench, place) =>
      place === first ? { ...bench, sown, startedInPlace: true, next: [] } : bench,
    ),
  };
};
