import { DateTime } from 'luxon';
import { clearSkyWattsPerSquareMetre } from '../../src/physics/radiation.ts';
import { MILLIS_PER_MINUTE, wallMillis, type WallMillis } from '../../src/time/instant.ts';
import { dayAfter, localDayOf, type LocalDay } from '../../src/time/local-day.ts';
import { assert } from '../../src/units/assertion.ts';
import { skyThrough, type Knot } from './line.ts';
import { vapourForMeanHumidity } from './mean-humidity.ts';
import type { WeatherPlace } from './place.ts';
import type { Sky } from './sky.ts';
import { solarTurns, temperatureAt } from './solar-turn.ts';

export interface MadeDay {
  readonly place: WeatherPlace;
  readonly start: WallMillis;
  /** How many calendar days, counted on the local clock from `start`. */
  readonly days: number;
  readonly minCelsius: number;
  readonly maxCelsius: number;
  /** Mean over each local day. */
  readonly humidityPercent: number;
}

/** Five minutes: the sun's own curve bends by less than 0.1 W/m² between knots, except at rise and set. */
export const GRID_MILLIS = 5 * MILLIS_PER_MINUTE;
/** Sunrise and sunset of the neighbouring days shape the nights at both ends. */
const MARGIN_MILLIS = 36 * 60 * MILLIS_PER_MINUTE;
/** More than a year of one and the same day is a slip. */
const DAYS_MAX = 400;

const moments = (from: number, to: number): readonly number[] =>
  Array.from({ length: Math.ceil((to - from) / GRID_MILLIS) }, (_, step) => from + step * GRID_MILLIS);

const daysAcross = (start: WallMillis, end: WallMillis, timeZone: string): readonly LocalDay[] => {
  const days: LocalDay[] = [];
  for (let day = localDayOf(start, timeZone); day.start <= end; day = dayAfter(day)) days.push(day);
  return days;
};

/**
 * The same made-up day again and again: temperature by the sine-exponential profile of Goudriaan & van Laar
 * (1994) on each date's own sunrise and sunset, vapour constant over each local day so that the mean relative
 * humidity is the one asked for (at saturation where the air cannot hold it), a cloudless sun, the usual wind.
 * @throws BrokenAssertion when the span or the temperatures make no sense
 */
export const madeSky = (made: MadeDay): Sky => {
  const { place, start, days, minCelsius, maxCelsius, humidityPercent } = made;
  assert(days > 0 && days <= DAYS_MAX, `a made sky of ${days} days`);
  assert(minCelsius <= maxCelsius, `a day from ${minCelsius} up to ${maxCelsius} °C`);
  const end = wallMillis(DateTime.fromMillis(start, { zone: place.timeZone }).plus({ days }).toMillis());
  const turns = solarTurns(place, start - MARGIN_MILLIS, end + MARGIN_MILLIS);
  const celsiusAt = (epochMillis: number): number =>
    temperatureAt(turns, epochMillis, { minCelsius, maxCelsius });
  const knots: Knot[] = [];
  for (const day of daysAcross(start, end, place.timeZone)) {
    const wholeDay = moments(day.start, day.end).map(celsiusAt);
    const vapourKilopascals = vapourForMeanHumidity(wholeDay, humidityPercent);
    const from = Math.max(day.start, start);
    const seen = day.end > end ? [...moments(from, end), end] : moments(from, day.end);
    for (const epochMillis of seen) {
      const sunWattsPerSquareMetre = clearSkyWattsPerSquareMetre({ ...place, epochMillis });
      knots.push({
        epochMillis,
        airCelsius: celsiusAt(epochMillis),
        vapourKilopascals,
        sunWattsPerSquareMetre,
        windMetresPerSecond: place.windMetresPerSecond,
      });
    }
  }
  return skyThrough(knots);
};
