import { DateTime } from 'luxon';
import { MILLIS_PER_MINUTE, wallMillis, type WallMillis } from '../../src/time/instant.ts';
import { dayAfter, dayBefore, localDayOf, type LocalDay } from '../../src/time/local-day.ts';
import { assert, itemAt } from '../../src/units/assertion.ts';
import { skyThrough, type Knot } from './line.ts';
import type { WeatherPlace } from './place.ts';
import type { Sky } from './sky.ts';
import { solarTurns, temperatureAt, type DayExtremes, type SolarTurn } from './solar-turn.ts';

/** Calendar days on the local clock for which weather is made. */
export interface MadeSpan {
  readonly place: WeatherPlace;
  readonly start: WallMillis;
  /** How many, counted from `start`. */
  readonly days: number;
}

/** Days and turns of the sun that hold the span with room on both sides. */
export interface SpanOfDays {
  readonly start: WallMillis;
  readonly end: WallMillis;
  /** From the day before the one that holds the start to the day after the one that holds the end. */
  readonly localDays: readonly LocalDay[];
  /** Hold every moment of those days. */
  readonly turns: readonly SolarTurn[];
}

/** Five minutes: the sun's own curve bends by less than 0.1 W/m² between knots, except at rise and set. */
const GRID_MILLIS = 5 * MILLIS_PER_MINUTE;
/** Further than the longest day before the one that holds the start. */
const MARGIN_MILLIS = 60 * 60 * MILLIS_PER_MINUTE;
/** More than a year of made days is a slip. */
const DAYS_MAX = 400;

/** Every five minutes from `from` on, before `to`. */
export const gridMoments = (from: number, to: number): readonly number[] =>
  Array.from({ length: Math.ceil((to - from) / GRID_MILLIS) }, (_, step) => from + step * GRID_MILLIS);

/** @throws BrokenAssertion when there are no days or more than 400 */
export const spanOfDays = ({ place, start, days }: MadeSpan): SpanOfDays => {
  assert(days > 0 && days <= DAYS_MAX, `a made sky of ${days} days`);
  const end = wallMillis(DateTime.fromMillis(start, { zone: place.timeZone }).plus({ days }).toMillis());
  const localDays = [dayBefore(localDayOf(start, place.timeZone))];
  for (let day = itemAt(localDays, 0); day.start <= end;) {
    day = dayAfter(day);
    localDays.push(day);
  }
  return { start, end, localDays, turns: solarTurns(place, start - MARGIN_MILLIS, end + MARGIN_MILLIS) };
};

/** The temperatures of one local day every five minutes. */
export const celsiusOver = (
  { turns }: SpanOfDays,
  day: LocalDay,
  extremesOf: (turn: number) => DayExtremes,
): readonly number[] =>
  gridMoments(day.start, day.end).map((moment) => temperatureAt(turns, moment, extremesOf));

/** What a made sky needs besides its temperatures. */
export interface MadeAir {
  readonly extremesOf: (turn: number) => DayExtremes;
  readonly vapourAt: (epochMillis: number, localDay: number) => number;
  readonly sunAt: (epochMillis: number) => number;
  readonly windMetresPerSecond: number;
}

/**
 * The sky through a knot every five minutes, and one at each sunrise, warmest moment and sunset, so that the extremes
 * of every turn are met exactly.
 */
export const profileSky = (span: SpanOfDays, air: MadeAir): Sky => {
  const { start, end, localDays, turns } = span;
  const turning = turns.flatMap(({ sunrise, warmest, sunset }) => [sunrise, warmest, sunset]);
  const knotsOf = (day: LocalDay): readonly number[] => {
    const from = Math.max(day.start, start);
    const to = Math.min(day.end, end);
    if (to <= from) return [];
    const within = turning.filter((moment) => moment > from && moment < to);
    return [...new Set([...gridMoments(from, to), ...within])].sort((a, b) => a - b);
  };
  const knotAt = (epochMillis: number, localDay: number): Knot => ({
    epochMillis,
    airCelsius: temperatureAt(turns, epochMillis, air.extremesOf),
    vapourKilopascals: air.vapourAt(epochMillis, localDay),
    sunWattsPerSquareMetre: air.sunAt(epochMillis),
    windMetresPerSecond: air.windMetresPerSecond,
  });
  const knots = localDays.flatMap((day, place) =>
    knotsOf(day).map((epochMillis) => knotAt(epochMillis, place)),
  );
  const ends = localDays.findIndex((day) => end < day.end);
  return skyThrough([...knots, knotAt(end, ends === -1 ? localDays.length - 1 : ends)]);
};
