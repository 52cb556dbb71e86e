import { declinationRadians, sunsetAngleRadians } from '../../src/physics/radiation.ts';
import { vapourFromHumidity } from '../../src/physics/vapour.ts';

/**
 * Steps that only the worked days of FAO-56 take. They lead to the daily uptake of its example 18, the one worked example
 * of the core that the hourly form of the product shares.
 */
const RADIANS = Math.PI / 180;

/** The extremes of one day: coldest and warmest air, highest and lowest relative humidity. */
export interface HumidityExtremes {
  readonly minCelsius: number;
  readonly maxCelsius: number;
  readonly humidityPercentMax: number;
  readonly humidityPercentMin: number;
}

/** A day's mean vapour pressure in kPa; the dampest air is taken to be the coldest. FAO-56 eq. 17. */
export const vapourFromExtremes = (day: HumidityExtremes): number =>
  (vapourFromHumidity(day.minCelsius, day.humidityPercentMax) +
    vapourFromHumidity(day.maxCelsius, day.humidityPercentMin)) /
  2;

/** Daylight hours N, 0–24; without refraction, so 6–16 min short of sunrise to sunset. FAO-56 eq. 34. */
export const daylightHours = (latitudeDegrees: number, dayOfYear: number): number =>
  (24 / Math.PI) * sunsetAngleRadians(latitudeDegrees * RADIANS, declinationRadians(dayOfYear));

/** Solar radiation from sunshine hours, in the unit of `extraterrestrial`; 0 when there is no day. FAO-56 eq. 35. */
export const solarFromSunshine = (
  extraterrestrial: number,
  sunshineHours: number,
  possibleHours: number,
): number =>
  possibleHours > 0 ? (0.25 + 0.5 * Math.min(1, sunshineHours / possibleHours)) * extraterrestrial : 0;
