import { MILLIS_PER_MINUTE } from '../time/instant.ts';
import { localDayOn } from '../time/local-day.ts';
import { itemAt } from '../units/assertion.ts';
import { boundaryInstant, type SunPlace } from './day-boundaries.ts';
import {
  lapDaysAfter,
  lapDaysOf,
  lapOrderOf,
  partMillis,
  wholeLap,
  YEAR_OF_JUDGEMENT,
  type InstantOf,
} from './day-laps.ts';
import type { Boundary } from './schema.ts';

/**
 * Sun times of one date differ by a minute or two between years; a part that is this little out of order is
 * taken as having no time.
 */
const TURN_MINUTES_MAX = 2;
export const DAYS_OF_YEAR = 366;

export type ZonedPlace = SunPlace & { readonly timeZone: string };

/** A part that would end before it begins, on the worst day of the year. */
export interface Turn {
  /** `2028-06-21` */
  readonly date: string;
  /** Place of the part in the plan. */
  readonly place: number;
  readonly minutes: number;
  readonly start: number;
  readonly end: number;
  readonly daysOfYear: number;
}

/** What a year does to the parts of a day plan. `turn` is null when they keep their order on every day. */
export interface PlanYear {
  readonly turn: Turn | null;
  /** Of each part, in the order of the plan. */
  readonly shortestMinutes: readonly number[];
  readonly longestMinutes: readonly number[];
}

/** The parts that begin at these boundaries on each of the 366 days of a leap year. */
export const planYear = (boundaries: readonly Boundary[], place: ZonedPlace): PlanYear => {
  const instantOf: InstantOf = (boundary, day) => boundaryInstant(boundary, day, place);
  const order = lapOrderOf(boundaries, place.timeZone, instantOf);
  const shortestMinutes = boundaries.map(() => Infinity);
  const longestMinutes = boundaries.map(() => 0);
  let worst: Omit<Turn, 'daysOfYear'> | null = null;
  let daysOfYear = 0;
  let days = lapDaysOf(localDayOn(`${YEAR_OF_JUDGEMENT}-01-01`, place.timeZone));
  for (let count = 0; count < DAYS_OF_YEAR; count += 1) {
    const lap = wholeLap(boundaries, order, days, instantOf);
    const minutes = partMillis(lap).map((millis) => millis / MILLIS_PER_MINUTE);
    minutes.forEach((length, at) => {
      shortestMinutes[at] = Math.min(itemAt(shortestMinutes, at), Math.max(0, length));
      longestMinutes[at] = Math.max(itemAt(longestMinutes, at), length);
    });
    const least = Math.min(...minutes);
    if (least < -TURN_MINUTES_MAX) {
      daysOfYear += 1;
      if (worst === null || -least > worst.minutes) {
        const at = minutes.indexOf(least);
        worst = {
          date: days.on.date,
          place: at,
          minutes: -least,
          start: itemAt(lap, at),
          end: itemAt(lap, at + 1),
        };
      }
    }
    days = lapDaysAfter(days);
  }
  return { turn: worst === null ? null : { ...worst, daysOfYear }, shortestMinutes, longestMinutes };
};
