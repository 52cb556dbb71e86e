import { bounded } from '../units/bounded.ts';
import { arccosine, cosine, sine } from './portable-trigonometry.ts';
import { sunElevationSine, sunPosition } from './sun.ts';

/**
 * Radiation by FAO-56 (Allen, Pereira, Raes, Smith 1998), ch. 3 and 4. "Daily" is MJ m⁻² d⁻¹, "hourly" MJ m⁻² h⁻¹.
 * East longitudes and north latitudes are positive.
 */
const RADIANS = Math.PI / 180;
/** MJ m⁻² min⁻¹, FAO-56 eq. 21. */
const SOLAR_CONSTANT = 0.082;
const WATTS_PER_MEGAJOULE_PER_MINUTE = 1e6 / 60;
/** Share of the sun's short waves that the reference grass keeps, FAO-56 eq. 38. */
const ABSORBED_SHARE = 0.77;
/** Stefan–Boltzmann constant, MJ K⁻⁴ m⁻² d⁻¹, FAO-56 eq. 39. */
const STEFAN_BOLTZMANN_DAILY = 4.903e-9;
/** Rs/Rso runs from here (eq. 35 without sunshine over eq. 37 at sea level) to 1; FAO-56 ch. 3 names the same ends. */
const CLEARNESS_SHARE_MIN = 0.33;

/** Inverse relative distance Earth–Sun, squared, for day 1–366. FAO-56 eq. 23. */
export const inverseDistance = (dayOfYear: number): number =>
  1 + 0.033 * cosine((2 * Math.PI * dayOfYear) / 365);

/** Solar declination for day 1–366; a fit, up to 1.1° off the true one. FAO-56 eq. 24. */
export const declinationRadians = (dayOfYear: number): number =>
  0.409 * sine((2 * Math.PI * dayOfYear) / 365 - 1.39);

const tangent = (radians: number): number => sine(radians) / cosine(radians);

/** Hour angle of sunset in radians: 0 in the polar night, π under the midnight sun. FAO-56 eq. 25. */
export const sunsetAngleRadians = (latitudeRadians: number, solarDeclinationRadians: number): number =>
  arccosine(bounded(-tangent(latitudeRadians) * tangent(solarDeclinationRadians), -1, 1));

/** Extraterrestrial radiation between two hour angles that both lie within ± the sunset angle. FAO-56 eq. 28. */
const betweenAngles = (latitudeDegrees: number, dayOfYear: number, from: number, to: number): number => {
  const latitude = latitudeDegrees * RADIANS;
  const declination = declinationRadians(dayOfYear);
  return (
    ((12 * 60) / Math.PI) *
    SOLAR_CONSTANT *
    inverseDistance(dayOfYear) *
    ((to - from) * sine(latitude) * sine(declination) +
      cosine(latitude) * cosine(declination) * (sine(to) - sine(from)))
  );
};

/** Daily extraterrestrial radiation Ra in MJ m⁻² d⁻¹, any latitude. FAO-56 eq. 21. */
export const extraterrestrialDailyMegajoules = (latitudeDegrees: number, dayOfYear: number): number => {
  const sunset = sunsetAngleRadians(latitudeDegrees * RADIANS, declinationRadians(dayOfYear));
  return betweenAngles(latitudeDegrees, dayOfYear, -sunset, sunset);
};

/** Seasonal correction of solar time in hours. FAO-56 eq. 32 and 33. */
const seasonalHours = (dayOfYear: number): number => {
  const b = (2 * Math.PI * (dayOfYear - 81)) / 364;
  return 0.1645 * sine(2 * b) - 0.1255 * cosine(b) - 0.025 * sine(b);
};

/** A span of one day, by the UTC hour of its middle. */
export interface SpanOfDay {
  readonly latitudeDegrees: number;
  readonly longitudeDegreesEast: number;
  readonly dayOfYear: number;
  readonly utcMidHour: number;
  /** At most 24. */
  readonly spanHours: number;
}

/** Hour angle at the middle of the span, from −π to π. FAO-56 eq. 31, its clock being UTC. */
export const hourAngleRadians = (span: SpanOfDay): number => {
  const solarHours = span.utcMidHour + span.longitudeDegreesEast / 15 + seasonalHours(span.dayOfYear);
  return (Math.PI / 12) * (solarHours - 24 * Math.floor(solarHours / 24) - 12);
};

/**
 * Extraterrestrial radiation over the span, in MJ m⁻² per span (per hour when it lasts one). The span is clipped to
 * daylight, so that 24 hours add up to the daily value. FAO-56 eq. 28–33.
 */
export const extraterrestrialHourlyMegajoules = (span: SpanOfDay): number => {
  const { latitudeDegrees, dayOfYear } = span;
  const sunset = sunsetAngleRadians(latitudeDegrees * RADIANS, declinationRadians(dayOfYear));
  const middle = hourAngleRadians(span);
  const half = (Math.PI * span.spanHours) / 24;
  let sum = 0;
  // A span over midnight also reaches into the daylight one turn before or after.
  for (const turn of [-2 * Math.PI, 0, 2 * Math.PI]) {
    const from = bounded(middle - half + turn, -sunset, sunset);
    const to = bounded(middle + half + turn, -sunset, sunset);
    if (to > from) sum += betweenAngles(latitudeDegrees, dayOfYear, from, to);
  }
  return Math.max(0, sum);
};

/** The adjustment kRs of FAO-56 eq. 50: inland, and on or near the coast of a large water body. */
export const RANGE_COEFFICIENT = { inland: 0.16, coast: 0.19 } as const;

/**
 * Solar radiation from the range of temperature over a day, in the unit of `extraterrestrial`: clear days are wide.
 * Hargreaves and Samani as FAO-56 eq. 50 has them, before its cap at the clear sky.
 */
export const solarFromRange = (extraterrestrial: number, rangeCelsius: number, coefficient: number): number =>
  coefficient * Math.sqrt(rangeCelsius) * extraterrestrial;

/** Share of the extraterrestrial radiation that comes through a cloudless sky; up to 3000 m. FAO-56 eq. 37. */
export const clearSkyShare = (elevationMetres: number): number => 0.75 + 2e-5 * elevationMetres;

/** Short waves that the reference grass keeps, in the unit of `solar`. FAO-56 eq. 38. */
export const netShortwave = (solar: number): number => ABSORBED_SHARE * solar;

/** Damping of long-wave loss by vapour and cloud: the two brackets of FAO-56 eq. 39. */
const longwaveEscape = (vapourKilopascals: number, clearnessShare: number): number =>
  (0.34 - 0.14 * Math.sqrt(vapourKilopascals)) *
  (1.35 * bounded(clearnessShare, CLEARNESS_SHARE_MIN, 1) - 0.35);

const fourthPower = (kelvin: number): number => kelvin * kelvin * kelvin * kelvin;

export interface DailyLongwave {
  readonly minCelsius: number;
  readonly maxCelsius: number;
  readonly vapourKilopascals: number;
  /** Rs/Rso: measured over clear-sky radiation; taken as 0.33 to 1. */
  readonly clearnessShare: number;
}

/** Net outgoing long-wave radiation Rnl in MJ m⁻² d⁻¹. FAO-56 eq. 39. */
export const netLongwaveDailyMegajoules = (day: DailyLongwave): number =>
  ((STEFAN_BOLTZMANN_DAILY * (fourthPower(day.maxCelsius + 273.16) + fourthPower(day.minCelsius + 273.16))) /
    2) *
  longwaveEscape(day.vapourKilopascals, day.clearnessShare);

export interface HourlyLongwave {
  readonly airCelsius: number;
  readonly vapourKilopascals: number;
  /** Rs/Rso of the hour, by night that of the hours before sunset; taken as 0.33 to 1. */
  readonly clearnessShare: number;
}

/** Net outgoing long-wave radiation Rnl in MJ m⁻² h⁻¹. FAO-56 eq. 39 with σ/24, as ch. 4 has it for the hour. */
export const netLongwaveHourlyMegajoules = (hour: HourlyLongwave): number =>
  (STEFAN_BOLTZMANN_DAILY / 24) *
  fourthPower(hour.airCelsius + 273.16) *
  longwaveEscape(hour.vapourKilopascals, hour.clearnessShare);

export interface PlaceAndInstant {
  readonly latitudeDegrees: number;
  readonly longitudeDegrees: number;
  readonly elevationMetres: number;
  readonly epochMillis: number;
}

/**
 * Global radiation of a cloudless sky on level ground at this moment, W/m²; 0 with the sun below the horizon. FAO-56
 * eq. 37 on the extraterrestrial radiation of the instant, with height and distance of the sun by Meeus ch. 25.
 */
export const clearSkyWattsPerSquareMetre = (at: PlaceAndInstant): number => {
  const elevationSine = sunElevationSine(at.epochMillis, at.latitudeDegrees, at.longitudeDegrees);
  if (elevationSine <= 0) return 0;
  const distance = sunPosition(at.epochMillis).distanceAstronomicalUnits;
  const constantWatts = SOLAR_CONSTANT * WATTS_PER_MEGAJOULE_PER_MINUTE;
  return (clearSkyShare(at.elevationMetres) * constantWatts * elevationSine) / (distance * distance);
};
