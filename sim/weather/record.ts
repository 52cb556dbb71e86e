import { clearSkyWattsPerSquareMetre } from '../../src/physics/radiation.ts';
import { saturationVapourKilopascals, vapourFromHumidity } from '../../src/physics/vapour.ts';
import { MILLIS_PER_MINUTE } from '../../src/time/instant.ts';
import { assert, itemAt } from '../../src/units/assertion.ts';
import { dewPointsFromMinimum } from './dew-point.ts';
import type { HourlyRow } from './hourly-row.ts';
import { skyThrough, type Knot } from './line.ts';
import type { WeatherPlace } from './place.ts';
import type { Sky } from './sky.ts';

export interface WeatherRecord {
  /** Rising in time; a hole is bridged by a straight line, so the reader refuses long ones. */
  readonly rows: readonly HourlyRow[];
  readonly place: WeatherPlace;
  /** Share of the cloudless sun taken where the record has no sun; 1, the thirstiest, unless told. */
  readonly shareOfSun?: number;
}

/** Between two rows without sun the cloudless curve is followed in steps of this size. */
const SUN_STEP_MILLIS = 5 * MILLIS_PER_MINUTE;

const between = (before: number, after: number, share: number): number => before + (after - before) * share;

/** Knots strictly between two rows that follow the cloudless sun; the rest runs straight. */
const sunKnots = (before: Knot, after: Knot, sunAt: (epochMillis: number) => number): readonly Knot[] => {
  const span = after.epochMillis - before.epochMillis;
  return Array.from({ length: Math.max(0, Math.ceil(span / SUN_STEP_MILLIS) - 1) }, (_, step): Knot => {
    const epochMillis = before.epochMillis + (step + 1) * SUN_STEP_MILLIS;
    const share = (epochMillis - before.epochMillis) / span;
    return {
      epochMillis,
      airCelsius: between(before.airCelsius, after.airCelsius, share),
      vapourKilopascals: between(before.vapourKilopascals, after.vapourKilopascals, share),
      sunWattsPerSquareMetre: sunAt(epochMillis),
      windMetresPerSecond: between(before.windMetresPerSecond, after.windMetresPerSecond, share),
    };
  });
};

/**
 * The sky that hourly rows describe, straight lines between them and exact at each. What a row does not say
 * is taken so: vapour from a dew point at the local day's minimum temperature (FAO-56, chapter 3,
 * equation 48), sun from the cloudless sky, wind from the place.
 * @throws BrokenAssertion when there are fewer than two rows or they do not rise in time
 */
export const recordSky = ({ rows, place, shareOfSun = 1 }: WeatherRecord): Sky => {
  assert(rows.length >= 2, `a record needs two rows at least, found ${rows.length}`);
  assert(shareOfSun >= 0 && shareOfSun <= 1, `a share of the sun of ${shareOfSun}`);
  const sunAt = (epochMillis: number): number =>
    shareOfSun * clearSkyWattsPerSquareMetre({ ...place, epochMillis });
  const dewPoints = dewPointsFromMinimum(rows, place.timeZone);
  const knotOf = (row: HourlyRow, index: number): Knot => ({
    epochMillis: row.epochMillis,
    airCelsius: row.airCelsius,
    vapourKilopascals:
      row.humidityPercent === undefined
        ? saturationVapourKilopascals(itemAt(dewPoints, index))
        : vapourFromHumidity(row.airCelsius, row.humidityPercent),
    sunWattsPerSquareMetre: row.sunWattsPerSquareMetre ?? sunAt(row.epochMillis),
    windMetresPerSecond: row.windMetresPerSecond ?? place.windMetresPerSecond,
  });
  const knots = rows.map(knotOf);
  const isMeasured = (index: number): boolean => rows[index]?.sunWattsPerSquareMetre !== undefined;
  return skyThrough(
    knots.flatMap((knot, index) => {
      const next = knots[index + 1];
      if (next === undefined || (isMeasured(index) && isMeasured(index + 1))) return [knot];
      return [knot, ...sunKnots(knot, next, sunAt)];
    }),
  );
};
