import { heldShares, type Plant, type Witness } from '../plant/plant.ts';

/**
 * A stretch of a run by what is to be minded in it, so that nothing between two points of a plot goes unseen: water, oxygen
 * and tank at their lowest, temperature and strength at their highest. One value for each bench where there are several.
 */
export interface Moment {
  /** The beginning of the stretch: the same in every run. */
  readonly atMillis: number;
  readonly thetas: readonly number[];
  readonly waterCelsius: readonly number[];
  readonly oxygenMilligramsPerLitre: readonly number[];
  /** Of the held water, mS/cm. */
  readonly strengths: readonly number[];
  readonly tankLitres: number;
  readonly tankCelsius: number;
  readonly tankStrength: number;
}

/** Enough for any chart; a longer span is told in longer stretches. */
const MOMENTS_MOST = 600;
const MINUTE_MILLIS = 60_000;
/** Steps of the plant end at every fifth minute, and these divide an hour or a day: no stretch reaches over midnight. */
const STRETCH_MINUTES = [5, 10, 15, 20, 30, 60, 120, 180, 240] as const;
const LONGEST_MINUTES = 24 * 60;

export interface Trace {
  readonly witness: Witness;
  readonly moments: readonly Moment[];
}

const momentOf = (plant: Plant, atMillis: number): Moment => {
  const { benches, tank } = plant.state;
  return {
    atMillis,
    thetas: heldShares(plant),
    waterCelsius: benches.map(({ waterCelsius }) => waterCelsius),
    oxygenMilligramsPerLitre: benches.map((bench) => bench.oxygenMilligramsPerLitre),
    strengths: benches.map(({ salts, drainableLitres, heldLitres }) => {
      const litres = drainableLitres + heldLitres;
      return litres > 0 ? salts / litres : 0;
    }),
    tankLitres: tank.litres,
    tankCelsius: tank.celsius,
    tankStrength: tank.litres > 0 ? tank.salts / tank.litres : 0,
  };
};

type Worse = (one: number, other: number) => number;

const each = (one: readonly number[], other: readonly number[], worse: Worse): readonly number[] =>
  one.map((value, place) => worse(value, other[place] ?? value));

const worseOf = (one: Moment, other: Moment): Moment => ({
  atMillis: one.atMillis,
  thetas: each(one.thetas, other.thetas, Math.min),
  waterCelsius: each(one.waterCelsius, other.waterCelsius, Math.max),
  oxygenMilligramsPerLitre: each(one.oxygenMilligramsPerLitre, other.oxygenMilligramsPerLitre, Math.min),
  strengths: each(one.strengths, other.strengths, Math.max),
  tankLitres: Math.min(one.tankLitres, other.tankLitres),
  tankCelsius: Math.max(one.tankCelsius, other.tankCelsius),
  tankStrength: Math.max(one.tankStrength, other.tankStrength),
});

/** The stretches of a span that begins at a full five minutes, every step of the plant in one of them. */
export const traceOf = (plant: Plant, fromMillis: number, untilMillis: number): Trace => {
  const least = (untilMillis - fromMillis) / MOMENTS_MOST / MINUTE_MILLIS;
  const every = (STRETCH_MINUTES.find((minutes) => minutes >= least) ?? LONGEST_MINUTES) * MINUTE_MILLIS;
  const moments: Moment[] = [];
  return {
    moments,
    witness: ({ atMillis }) => {
      if (atMillis <= fromMillis || atMillis > untilMillis) return;
      // A step belongs to the stretch in which it ends; one that ends with a stretch still belongs to it.
      const stretch = Math.ceil((atMillis - fromMillis) / every) - 1;
      const now = momentOf(plant, fromMillis + stretch * every);
      const last = moments.at(-1);
      if (last?.atMillis === now.atMillis) moments[moments.length - 1] = worseOf(last, now);
      else moments.push(now);
    },
  };
};
