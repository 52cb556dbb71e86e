import { sineExponentialCelsius } from '../../src/physics/diurnal.ts';
import { sunEvents } from '../../src/physics/sun.ts';
import { assert } from '../../src/units/assertion.ts';
import { bounded } from '../../src/units/bounded.ts';

/** From one sunrise to the next. */
export interface SolarTurn {
  readonly sunrise: number;
  readonly sunset: number;
  readonly nextSunrise: number;
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
    turns.push({ ...day, nextSunrise: next.sunrise });
    day = next;
  }
  return turns;
};

/**
 * The temperature of `epochMillis` by the sine-exponential profile (Goudriaan & van Laar 1994, ch. 3) on the
 * clock of the sun, whose noon is 12. The night is stretched by the minute or so by which the next sunrise
 * comes earlier or later, so that it ends at the lowest temperature.
 * @throws BrokenAssertion when no turn holds the moment
 */
export const temperatureAt = (
  turns: readonly SolarTurn[],
  epochMillis: number,
  range: { readonly minCelsius: number; readonly maxCelsius: number },
): number => {
  const first = turns[0];
  assert(first !== undefined, 'no turn of the sun');
  const guess = Math.floor((epochMillis - first.sunrise) / DAY_MILLIS);
  const turn = [guess, guess - 1, guess + 1]
    .map((place) => turns[place])
    .find((each) => each !== undefined && each.sunrise <= epochMillis && epochMillis < each.nextSunrise);
  assert(turn !== undefined, `no turn of the sun at ${epochMillis}`);
  const dayHours = (turn.sunset - turn.sunrise) / HOUR_MILLIS;
  const sunriseHour = 12 - dayHours / 2;
  const sunsetHour = 12 + dayHours / 2;
  const hour =
    epochMillis <= turn.sunset
      ? sunriseHour + (epochMillis - turn.sunrise) / HOUR_MILLIS
      : sunsetHour + ((epochMillis - turn.sunset) / (turn.nextSunrise - turn.sunset)) * (24 - dayHours);
  return sineExponentialCelsius({ ...range, sunriseHour, sunsetHour, hour });
};
