import { exp } from './portable-math.ts';
import { sine } from './portable-trigonometry.ts';

/**
 * The course of air temperature over a day from its lowest and highest value. Hours are hours of the local solar
 * day; 0 ≤ sunriseHour < sunsetHour ≤ 24. The night belongs to the day before it: an hour after midnight may be
 * asked as 24–48 of that day, which joins days of different warmth without a step at midnight. An hour before
 * sunrise asked as itself is given by this day's own extremes.
 */
export interface DayTemperature {
  readonly minCelsius: number;
  readonly maxCelsius: number;
  /** Lowest value of the coming night; this day's own if absent. */
  readonly nextMinCelsius?: number | undefined;
  readonly sunriseHour: number;
  readonly sunsetHour: number;
  readonly hour: number;
}

/** Hours from solar noon to the warmest hour, Goudriaan & van Laar. */
export const WARMEST_AFTER_NOON_HOURS = 1.5;
/** Time constant of the cooling at night, Goudriaan & van Laar. */
const NIGHT_COOLING_HOURS = 4;

interface Night {
  readonly sinceSunsetHours: number;
  readonly lengthHours: number;
  readonly minCelsius: number;
}

/** The night that holds the hour: the one before a sunrise still to come, or the one after sunset. */
const nightOf = (day: DayTemperature): Night => {
  const lengthHours = 24 - (day.sunsetHour - day.sunriseHour);
  return day.hour < day.sunsetHour
    ? { sinceSunsetHours: day.hour + 24 - day.sunsetHour, lengthHours, minCelsius: day.minCelsius }
    : {
        sinceSunsetHours: day.hour - day.sunsetHour,
        lengthHours,
        minCelsius: day.nextMinCelsius ?? day.minCelsius,
      };
};

/**
 * Sine by day, exponential by night, continuous at sunrise and sunset. Goudriaan & van Laar 1994, Modelling
 * Potential Crop Growth Processes, ch. 3 (warmest 1.5 h after noon, night time constant 4 h).
 */
export const sineExponentialCelsius = (day: DayTemperature): number => {
  const { minCelsius, maxCelsius, sunriseHour, sunsetHour, hour } = day;
  const dayHours = sunsetHour - sunriseHour;
  const byDay = (at: number): number =>
    minCelsius +
    (maxCelsius - minCelsius) *
      sine((Math.PI * (at - sunriseHour)) / (dayHours + 2 * WARMEST_AFTER_NOON_HOURS));
  if (hour >= sunriseHour && hour <= sunsetHour) return byDay(hour);
  const night = nightOf(day);
  const atSunset = byDay(sunsetHour);
  const atSunrise = exp(-night.lengthHours / NIGHT_COOLING_HOURS);
  return (
    (night.minCelsius -
      atSunset * atSunrise +
      (atSunset - night.minCelsius) * exp(-night.sinceSunsetHours / NIGHT_COOLING_HOURS)) /
    (1 - atSunrise)
  );
};
