import { heldShares, type Plant, type Witness } from '../plant/plant.ts';

/** How things stood at one moment; one value for each bench where there are several. */
export interface Moment {
  readonly atMillis: number;
  readonly pumpOn: boolean;
  readonly thetas: readonly number[];
  readonly waterCelsius: readonly number[];
  readonly oxygenMilligramsPerLitre: readonly number[];
  /** Of the held water, mS/cm. */
  readonly strengths: readonly number[];
  readonly tankLitres: number;
  readonly tankCelsius: number;
  readonly tankStrength: number;
}

/** Enough for any chart; a longer stretch is looked at less often. */
const MOMENTS_MOST = 600;
const EVERY_MILLIS_LEAST = 5 * 60_000;
/** So that moments of different runs are the same ones. */
const GRID_MILLIS = 60_000;

export interface Trace {
  readonly witness: Witness;
  readonly moments: readonly Moment[];
}

const momentOf = (plant: Plant): Moment => {
  const { atMillis, pumpOn, benches, tank } = plant.state;
  return {
    atMillis,
    pumpOn,
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

/** The moments of a stretch, evenly spread: of each the first step that ends at or after it. */
export const traceOf = (plant: Plant, fromMillis: number, untilMillis: number): Trace => {
  const wanted = (untilMillis - fromMillis) / MOMENTS_MOST;
  const every = Math.max(EVERY_MILLIS_LEAST, Math.ceil(wanted / GRID_MILLIS) * GRID_MILLIS);
  const moments: Moment[] = [];
  let next = fromMillis;
  return {
    moments,
    witness: (state) => {
      if (state.atMillis < next || state.atMillis > untilMillis) return;
      moments.push(momentOf(plant));
      next += every * (Math.floor((state.atMillis - next) / every) + 1);
    },
  };
};

/** Strongest held water of a bench while it is above its wilt floor, mS/cm; null where it never is. */
export const strongestOf = (moments: readonly Moment[], place: number, wilt: number): number | null => {
  const alive = moments.filter(({ thetas }) => (thetas[place] ?? 0) > wilt);
  return alive.length === 0 ? null : Math.max(...alive.map(({ strengths }) => strengths[place] ?? 0));
};
