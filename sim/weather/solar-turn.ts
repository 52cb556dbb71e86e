import { sineExponentialCelsius, WARMEST_AFTER_NOON_HOURS } from '../../src/physics/diurnal.ts';
import { sunEvents } from '../../src/physics/sun.ts';
import { assert, itemAt } from '../../src/units/assertion.ts';
import { bounded } from '../../src/units/bounded.ts';

/** From one sunrise to the next. */
export interface SolarTurn {
  readonly sunrise: number;
  /** When the sine-exponential profile is warmest. */
  readonly warmest: number;
  readonly sunset: number;
  readonly nextSunrise: number;
}

/** Lowest temperature, at sunrise, and highest, in the afternoon. */
export interface DayExtremes {
  readonly minCelsius: number;
  readonly maxCelsius: number;
}

interface Place {
  readonly latitudeDegrees: number;
  readonly longitudeDegrees: number;
}

const HOUR_MILLIS = 3_600_000;
const DAY_MILLIS = 24 * HOUR_MILLIS;
/**
 * The profile of a day needs a day and a night. Where the sun stays below the horizon or above it, or nearly so, the
 * temperature keeps the rhythm of the nearest day length in this range, about the same solar noon. With
 * three hours of day the warmest moment, an hour and a half after noon, is sunset itself.
 */
const DAY_HOURS = { least: 3, most: 22 } as const;

const daylight = (
  place: Place,
  noonNearEpochMillis: number,
): { readonly sunrise: number; readonly sunset: number } => {
  const { noon, sunrise, sunset } = sunEvents({ ...place, noonNearEpochMillis });
  const hours = (sunset - sunrise) / HOUR_MILLIS;
  const held = bounded(hours, DAY_HOURS.least, DAY_HOURS.most);
  if (held === hours) return { sunrise, sunset };
  const half = (held / 2) * HOUR_MILLIS;
  return { sunrise: noon - half, sunset: noon + half };
};

/** The turns that together hold every moment from `from` to `to`, in order. */
export const solarTurns = (place: Place, from: number, to: number): readonly SolarTurn[] => {
  const turns: SolarTurn[] = [];
  // Noons lie a day apart to within half a minute; asking near the last one found never skips one.
  let noon = sunEvents({ ...place, noonNearEpochMillis: from - DAY_MILLIS }).noon;
  let day = daylight(place, noon);
  while (day.sunrise <= to) {
    noon = sunEvents({ ...place, noonNearEpochMillis: noon + DAY_MILLIS }).noon;
    const next = daylight(place, noon);
    const warmest = (day.sunrise + day.sunset) / 2 + WARMEST_AFTER_NOON_HOURS * HOUR_MILLIS;
    turns.push({ ...day, warmest, nextSunrise: next.sunrise });
    day = next;
  }
  return turns;
};

/** Which of the turns holds the moment. @throws BrokenAssertion when none does */
export const turnAt = (turns: readonly SolarTurn[], epochMillis: number): number => {
  const first = turns[0];
  assert(first !== undefined, 'no turn of the sun');
  const guess = Math.floor((epochMillis - first.sunrise) / DAY_MILLIS);
  const found = [guess, guess - 1, guess + 1].find((place) => {
    const turn = turns[place];
    return turn !== undefined && turn.sunrise <= epochMillis && epochMillis < turn.nextSunrise;
  });
  assert(found !== undefined, `no turn of the sun at ${epochMillis}`);
  return found;
};

/**
 * The temperature of `epochMillis` by the sine-exponential profile (Goudriaan & van Laar 1994, ch. 3) on the
 * clock of the sun, whose noon is 12. The night is stretched by the minute or so by which the next sunrise
 * comes earlier or later, and runs down to the lowest temperature of the turn that follows: so days of
 * different warmth join at sunrise without a step.
 * @param extremesOf of each turn by its place, and of the one after the last
 * @throws BrokenAssertion when no turn holds the moment
 */
export const temperatureAt = (
  turns: readonly SolarTurn[],
  epochMillis: number,
  extremesOf: (turn: number) => DayExtremes,
): number => {
  const place = turnAt(turns, epochMillis);
  const turn = itemAt(turns, place);
  const dayHours = (turn.sunset - turn.sunrise) / HOUR_MILLIS;
  const sunriseHour = 12 - dayHours / 2;
  const sunsetHour = 12 + dayHours / 2;
  const hour =
    epochMillis <= turn.sunset
      ? sunriseHour + (epochMillis - turn.sunrise) / HOUR_MILLIS
      : sunsetHour + ((epochMillis - turn.sunset) / (turn.nextSunrise - turn.sunset)) * (24 - dayHours);
  const { minCelsius, maxCelsius } = extremesOf(place);
  const nextMinCelsius = extremesOf(place + 1).minCelsius;
  return sineExponentialCelsius({ minCelsius, maxCelsius, nextMinCelsius, sunriseHour, sunsetHour, hour });
};
