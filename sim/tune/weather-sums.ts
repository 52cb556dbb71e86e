import { openWaterMillimetresPerHour } from '../../src/physics/open-water.ts';
import { leafOpenShare, type LeafOpening } from '../../src/physics/uptake.ts';
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

/** The sums under one sky, for plants whose leaves open as told: all but that is worked out once. */
export const weatherSums = (
  sky: Sky,
  { startMillis, minutes }: { readonly startMillis: number; readonly minutes: number },
  { sunShare, elevationMetres }: { readonly sunShare: number; readonly elevationMetres: number },
): ((opening: LeafOpening) => WeatherSums) => {
  const sun = new Float64Array(minutes + 1);
  const openWater = new Float64Array(minutes + 1);
  /** Of each minute by itself. */
  const watts = new Float64Array(minutes);
  const kilopascals = new Float64Array(minutes);
  const pressure = pressureKilopascals(elevationMetres);
  for (let minute = 0; minute < minutes; minute += 1) {
    const air = sky.at(startMillis + (minute + 0.5) * MINUTE_MILLIS);
    const sunWattsPerSquareMetre = air.sunWattsPerSquareMetre * sunShare;
    const open = openWaterMillimetresPerHour({
      ...air,
      sunWattsPerSquareMetre,
      pressureKilopascals: pressure,
    });
    watts[minute] = sunWattsPerSquareMetre;
    kilopascals[minute] = vapourDeficitKilopascals(air.airCelsius, air.vapourKilopascals);
    sun[minute + 1] = (sun[minute] ?? NaN) + sunWattsPerSquareMetre;
    openWater[minute + 1] = (openWater[minute] ?? NaN) + open / MINUTES_PER_HOUR;
  }
  return (opening) => {
    const deficit = new Float64Array(minutes + 1);
    for (let minute = 0; minute < minutes; minute += 1) {
      const opened = (kilopascals[minute] ?? NaN) * leafOpenShare(opening, watts[minute] ?? NaN);
      deficit[minute + 1] = (deficit[minute] ?? NaN) + opened;
    }
    return { sun, deficit, openWater };
  };
};
