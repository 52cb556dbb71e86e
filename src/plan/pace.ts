import type { Farm, DayPart } from '../farm/farm.ts';
import { MILLIS_PER_MINUTE, type WallMillis } from '../time/instant.ts';
import type { Reading } from '../sense/reading.ts';
import { bounded } from '../units/bounded.ts';
import { isByDay, spanAt, type DayView } from './day-view.ts';

/** How long to rest and to flood at this moment, and why, in words. */
export interface Pace {
  readonly part: string;
  readonly restMinutes: number;
  readonly floodMinutes: number;
  readonly shortestRestMinutes: number;
  readonly longestRestMinutes: number;
  /** Until the day part ends and another pace begins; null while nobody knows the time of day. */
  readonly partLeftMinutes: number | null;
  /** Reads after "flood now: " and "resting: ". */
  readonly why: string;
}

const whole = (minutes: number): string =>
  minutes >= 10 || Number.isInteger(minutes) ? String(Math.round(minutes)) : minutes.toFixed(1);

/** Rest that the plan itself gives, before temperature. A part by number spreads over its whole length. */
export const plannedRestMinutes = (part: DayPart, partMinutes: number): number => {
  switch (part.pace.kind) {
    case 'rest':
      return part.pace.restMinutes;
    case 'number':
      return partMinutes / part.pace.floods - part.floodMinutes;
  }
};

interface Ends {
  readonly shortest: number;
  readonly longest: number;
}

/** The rest that the temperature makes of a planned one, inside its bounds. */
export const movedRestMinutes = (
  { temperatureRule: { referenceCelsius, restPercentPerDegree } }: Farm,
  planned: number,
  { shortest, longest }: Ends,
  celsius: number,
): number => {
  const factor = Math.max(0, 1 + (restPercentPerDegree / 100) * (celsius - referenceCelsius));
  return bounded(planned * factor, shortest, longest);
};

const floodMinutesMost = ({ bounds, pump }: Farm): number =>
  Math.min(bounds.floodMinutes.longest, pump.longestOnMinutes);

/** The flood that the temperature makes of a planned one, inside its bounds; without a rule for floods the planned one. */
export const movedFloodMinutes = (farm: Farm, planned: number, celsius: number): number => {
  const { floodPercentPerDegree, referenceCelsius } = farm.temperatureRule;
  const most = floodMinutesMost(farm);
  if (floodPercentPerDegree === 0) return Math.min(planned, most);
  const factor = 1 + (floodPercentPerDegree / 100) * (celsius - referenceCelsius);
  return bounded(planned * factor, farm.bounds.floodMinutes.shortest, most);
};

const floodMinutesAt = (farm: Farm, { floodMinutes }: DayPart, air: Reading<number>): number => {
  if (air.quality === 'good') return movedFloodMinutes(farm, floodMinutes, air.value);
  const most = floodMinutesMost(farm);
  return farm.temperatureRule.floodPercentPerDegree === 0
    ? Math.min(floodMinutes, most)
    : Math.max(floodMinutes, most);
};

const restAt = (
  farm: Farm,
  part: DayPart,
  planned: number,
  ends: Ends,
  air: Reading<number>,
): { readonly minutes: number; readonly why: string } => {
  if (farm.temperatureRule.restPercentPerDegree !== 0 && air.quality !== 'good') {
    const minutes = ends.shortest;
    return { minutes, why: `no good temperature (${air.why}), so the shortest rest, ${whole(minutes)} min` };
  }
  const base = bounded(planned, ends.shortest, ends.longest);
  const unmoved = { minutes: base, why: `rest of ${whole(base)} min (${part.name})` };
  if (air.quality !== 'good') return unmoved;
  const minutes = movedRestMinutes(farm, planned, ends, air.value);
  if (whole(minutes) === whole(base)) return { ...unmoved, minutes };
  const verb = minutes < base ? 'shortens' : 'lengthens';
  const why = `${air.value.toFixed(1)} °C ${verb} the rest from ${whole(base)} to ${whole(minutes)} min (${part.name})`;
  return { minutes, why };
};

/** Where the sun ends a part, nobody knows its length without a date; four hours is that of a hot afternoon. */
const NOMINAL_PART_MINUTES = 240;
const MINUTES_PER_DAY = 24 * 60;

const nominalRestMinutes = (part: DayPart): number => {
  const { from, to } = part;
  if (from.kind === 'sun' || to.kind === 'sun') return plannedRestMinutes(part, NOMINAL_PART_MINUTES);
  const minutes = (to.minuteOfDay - from.minuteOfDay + MINUTES_PER_DAY) % MINUTES_PER_DAY;
  return plannedRestMinutes(part, minutes === 0 ? MINUTES_PER_DAY : minutes);
};

/** The part with the shortest rest: what counts while nobody knows the time of day. */
const wettestPart = (farm: Farm): DayPart =>
  farm.dayPlan.reduce((wettest, part) =>
    nominalRestMinutes(part) < nominalRestMinutes(wettest) ? part : wettest,
  );

/**
 * The pace of the day plan at this moment. Hotter and colder air moves it inside the bounds; without a good
 * temperature it stands at the wet end of them.
 */
export const paceNow = (
  farm: Farm,
  view: DayView | null,
  wall: WallMillis | 'unknown',
  air: Reading<number>,
): Pace => {
  if (view === null || wall === 'unknown') {
    const part = wettestPart(farm);
    const { shortest, longest } = farm.bounds.restMinutesByDay;
    const planned = bounded(nominalRestMinutes(part), shortest, longest);
    const rest = restAt(farm, part, planned, { shortest, longest: planned }, air);
    return {
      part: part.name,
      restMinutes: rest.minutes,
      floodMinutes: floodMinutesAt(farm, part, air),
      shortestRestMinutes: shortest,
      longestRestMinutes: longest,
      partLeftMinutes: null,
      why: `time of day unknown, so the hot part of the plan: ${rest.why}`,
    };
  }
  const span = spanAt(view, wall);
  const { restMinutesByDay, restMinutesByNight } = farm.bounds;
  const ends = isByDay(view, wall) ? restMinutesByDay : restMinutesByNight;
  const wholeMinutes = (span.wholeEnd - span.wholeStart) / MILLIS_PER_MINUTE;
  const rest = restAt(farm, span.part, plannedRestMinutes(span.part, wholeMinutes), ends, air);
  return {
    part: span.part.name,
    restMinutes: rest.minutes,
    floodMinutes: floodMinutesAt(farm, span.part, air),
    shortestRestMinutes: ends.shortest,
    longestRestMinutes: ends.longest,
    partLeftMinutes: (span.end - wall) / MILLIS_PER_MINUTE,
    why: rest.why,
  };
};
