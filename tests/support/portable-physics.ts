import { flowAreaSquareMetres } from '../../src/physics/circle.ts';
import {
  extraterrestrialDailyMegajoules,
  extraterrestrialHourlyMegajoules,
} from '../../src/physics/radiation.ts';
import { sunEvents, sunPosition } from '../../src/physics/sun.ts';
import { START } from './plain-plant.ts';
import { sunElevationRadians } from './sun-elevation.ts';

const DAY_MILLIS = 86_400_000;
const PLACE = { latitudeDegrees: 37.1, longitudeDegrees: -8 };

/** What `Math.exp` makes of some numbers: another engine may differ in the last bit. */
export const engineExponentials = (count: number): Float64Array =>
  Float64Array.from({ length: count }, (_, step) => Math.exp(step / 97));

/** Sun, radiation and pipe over so many days, by all that the weather and the farm are made of. */
export const physicsOf = (days: number): Float64Array =>
  Float64Array.from(
    Array.from({ length: days }, (_, day) => {
      const epochMillis = START + day * DAY_MILLIS * 1.03;
      const dayOfYear = 1 + (day % 365);
      const sun = sunPosition(epochMillis);
      const events = sunEvents({ ...PLACE, noonNearEpochMillis: epochMillis });
      return [
        sun.declinationRadians,
        sun.rightAscensionRadians,
        sunElevationRadians(epochMillis, PLACE.latitudeDegrees, PLACE.longitudeDegrees),
        events.sunrise,
        events.sunset,
        extraterrestrialDailyMegajoules(PLACE.latitudeDegrees, dayOfYear),
        extraterrestrialHourlyMegajoules({
          latitudeDegrees: PLACE.latitudeDegrees,
          longitudeDegreesEast: PLACE.longitudeDegrees,
          dayOfYear,
          utcMidHour: day % 24,
          spanHours: 1,
        }),
        flowAreaSquareMetres(0.1, (day % 97) / 96),
      ];
    }).flat(),
  );
