import { openWaterMillimetresPerHour } from '../../src/physics/open-water.ts';
import { leafOpenShare } from '../../src/physics/uptake.ts';
import { pressureKilopascals, vapourDeficitKilopascals } from '../../src/physics/vapour.ts';
import type { Sky } from '../weather/sky.ts';

const MINUTE_MILLIS = 60_000;
const MINUTES_PER_HOUR = 60;

/**
 * What drives uptake, summed from the start of a stretch to each whole minute. Above the stress floor uptake does not depend on
 * the state of a bench, so that over any stretch it is a difference of these sums.
 */
export interface WeatherSums {
  /** W/m²·min under the net or the glass. */
  readonly sun: Float64Array;
  /** kPa·min, times the openness of the leaves. */
  readonly deficit: Float64Array;
  /** mm that a wet cup in the open gives to the air. */
  readonly openWater: Float64Array;
}

export const weatherSums = (
  sky: Sky,
  { startMillis, minutes }: { readonly startMillis: number; readonly minutes: number },
  { sunShare, elevationMetres }: { readonly sunShare: number; readonly elevationMetres: number },
): WeatherSums => {
  const sums = {
    sun: new Float64Array(minutes + 1),
    deficit: new Float64Array(minutes + 1),
    openWater: new Float64Array(minutes + 1),
  };
  const pressure = pressureKilopascals(elevationMetres);
  for (let minute = 0; minute < minutes; minute += 1) {
    const air = sky.at(startMillis + (minute + 0.5) * MINUTE_MILLIS);
    const sunWattsPerSquareMetre = air.sunWattsPerSquareMetre * sunShare;
    const deficit =
      vapourDeficitKilopascals(air.airCelsius, air.vapourKilopascals) * leafOpenShare(sunWattsPerSquareMetre);
    const openWater = openWaterMillimetresPerHour({
      ...air,
      sunWattsPerSquareMetre,
      pressureKilopascals: pressure,
    });
    sums.sun[minute + 1] = (sums.sun[minute] ?? NaN) + sunWattsPerSquareMetre;
    sums.deficit[minute + 1] = (sums.deficit[minute] ?? NaN) + deficit;
    sums.openWater[minute + 1] = (sums.openWater[minute] ?? NaN) + openWater / MINUTES_PER_HOUR;
  }
  return sums;
};
