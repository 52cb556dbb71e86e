import { arcsine, cosine, direction, sine } from './portable-trigonometry.ts';

/**
 * Where the sun stands, by the low-accuracy method of J. Meeus, Astronomical Algorithms, 2nd ed. 1998, ch. 25
 * (0.01°, years 1900–2100). Universal time is used as dynamical time: the 70 s between them move the
 * declination by less than 0.0004°.
 */
const RADIANS = Math.PI / 180;
const MILLIS_PER_DAY = 86_400_000;
const MINUTES_PER_DAY = 1440;
/** 2000-01-01 12:00, the epoch J2000.0. */
const J2000_MILLIS = 946_728_000_000;
/** Centre of the disc at rise and set: 34′ of refraction and 16′ of radius below the horizon. Meeus ch. 15. */
const RISE_SINE = sine(-0.833 * RADIANS);
/** Noon moves by less than 30 s a day, so each round divides the error by about 3000. */
const NOON_ROUNDS = 3;
/** Half a day halved 26 times is below 1 ms. */
const HALVINGS = 26;

export interface SunPosition {
  readonly declinationSine: number;
  readonly declinationRadians: number;
  readonly rightAscensionRadians: number;
  /** True solar time less mean solar time. */
  readonly equationOfTimeMinutes: number;
  readonly distanceAstronomicalUnits: number;
  /** Apparent longitude on the ecliptic. */
  readonly longitudeRadians: number;
  readonly obliquityRadians: number;
}

/** The sun at an instant of 1900–2100. Meeus ch. 25 (apparent place) and eq. 28.3 (Smart's equation of time). */
export const sunPosition = (epochMillis: number): SunPosition => {
  const t = (epochMillis - J2000_MILLIS) / (MILLIS_PER_DAY * 36_525);
  const meanLongitude = (280.46646 + t * (36000.76983 + t * 0.0003032)) * RADIANS;
  const anomaly = (357.52911 + t * (35999.05029 - t * 0.0001537)) * RADIANS;
  const eccentricity = 0.016708634 - t * (0.000042037 + t * 0.0000001267);
  const centre =
    ((1.914602 - t * (0.004817 + t * 0.000014)) * sine(anomaly) +
      (0.019993 - t * 0.000101) * sine(2 * anomaly) +
      0.000289 * sine(3 * anomaly)) *
    RADIANS;
  const node = (125.04 - 1934.136 * t) * RADIANS;
  const longitude = meanLongitude + centre - (0.00569 + 0.00478 * sine(node)) * RADIANS;
  const meanObliquity = 23.4392911 - t * (0.0130042 + t * (1.64e-7 - t * 5.04e-7));
  const obliquity = (meanObliquity + 0.00256 * cosine(node)) * RADIANS;

  // tan² of half the obliquity
  const y = (1 - cosine(obliquity)) / (1 + cosine(obliquity));
  const equationOfTime =
    y * sine(2 * meanLongitude) -
    2 * eccentricity * sine(anomaly) +
    4 * eccentricity * y * sine(anomaly) * cosine(2 * meanLongitude) -
    0.5 * y * y * sine(4 * meanLongitude) -
    1.25 * eccentricity * eccentricity * sine(2 * anomaly);

  const declinationSine = sine(obliquity) * sine(longitude);
  return {
    declinationSine,
    declinationRadians: arcsine(declinationSine),
    rightAscensionRadians: direction(cosine(longitude), cosine(obliquity) * sine(longitude)),
    equationOfTimeMinutes: (equationOfTime / (2 * Math.PI)) * MINUTES_PER_DAY,
    distanceAstronomicalUnits:
      (1.000001018 * (1 - eccentricity * eccentricity)) / (1 + eccentricity * cosine(anomaly + centre)),
    longitudeRadians: longitude,
    obliquityRadians: obliquity,
  };
};

/** True solar time in days since 1970; its half days are solar noons. Meeus ch. 28. East is positive. */
const solarDays = (epochMillis: number, sun: SunPosition, longitudeDegrees: number): number =>
  epochMillis / MILLIS_PER_DAY + longitudeDegrees / 360 + sun.equationOfTimeMinutes / MINUTES_PER_DAY;

/**
 * Sine of the height of the sun's centre over the level horizon, without refraction. Meeus eq. 13.6; it leans on no
 * engine's own trigonometry. East is positive.
 */
export const sunElevationSine = (
  epochMillis: number,
  latitudeDegrees: number,
  longitudeDegrees: number,
): number => {
  const sun = sunPosition(epochMillis);
  const days = solarDays(epochMillis, sun, longitudeDegrees);
  const hourAngle = 2 * Math.PI * (days - Math.floor(days) - 0.5);
  const latitude = latitudeDegrees * RADIANS;
  const declinationCosine = Math.sqrt(1 - sun.declinationSine * sun.declinationSine);
  return sine(latitude) * sun.declinationSine + cosine(latitude) * declinationCosine * cosine(hourAngle);
};

export interface SunEvents {
  readonly noon: number;
  readonly sunrise: number;
  readonly sunset: number;
  readonly kind: 'rises' | 'never-rises' | 'never-sets';
}

export interface SunEventsAsked {
  readonly latitudeDegrees: number;
  /** East of Greenwich is positive. */
  readonly longitudeDegrees: number;
  readonly noonNearEpochMillis: number;
}

/** The instant of a given true solar time, in days since 1970. */
const instantOfSolarDays = (days: number, longitudeDegrees: number): number => {
  let instant = (days - longitudeDegrees / 360) * MILLIS_PER_DAY;
  for (let round = 0; round < NOON_ROUNDS; round += 1) {
    instant -= (solarDays(instant, sunPosition(instant), longitudeDegrees) - days) * MILLIS_PER_DAY;
  }
  return instant;
};

/**
 * Sunrise, solar noon and sunset as UTC milliseconds, of the solar day whose noon is nearest; rise and set with the
 * centre of the disc at −0.833° (Meeus ch. 15), within 30 s up to 60° of latitude. A sun that never rises has
 * sunrise = sunset = noon; a sun that never sets has the solar midnights before and after. On the one day where
 * only one of both crossings exists the other is the solar midnight.
 */
export const sunEvents = (asked: SunEventsAsked): SunEvents => {
  const { latitudeDegrees, longitudeDegrees, noonNearEpochMillis } = asked;
  const days = solarDays(noonNearEpochMillis, sunPosition(noonNearEpochMillis), longitudeDegrees);
  const noonDays = Math.round(days - 0.5) + 0.5;
  const noon = instantOfSolarDays(noonDays, longitudeDegrees);
  const isUp = (instant: number): boolean =>
    sunElevationSine(instant, latitudeDegrees, longitudeDegrees) > RISE_SINE;
  if (!isUp(noon)) return { noon, sunrise: noon, sunset: noon, kind: 'never-rises' };

  /** Between noon, when the sun is up, and a midnight; that midnight itself if it is up then too. */
  const crossing = (midnight: number): number => {
    let up = noon;
    let down = midnight;
    for (let halving = 0; halving < HALVINGS; halving += 1) {
      const middle = (up + down) / 2;
      if (isUp(middle)) up = middle;
      else down = middle;
    }
    return (up + down) / 2;
  };
  const before = instantOfSolarDays(noonDays - 0.5, longitudeDegrees);
  const after = instantOfSolarDays(noonDays + 0.5, longitudeDegrees);
  const upBefore = isUp(before);
  const upAfter = isUp(after);
  return {
    noon,
    sunrise: upBefore ? before : crossing(before),
    sunset: upAfter ? after : crossing(after),
    kind: upBefore && upAfter ? 'never-sets' : 'rises',
  };
};
