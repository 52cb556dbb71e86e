import { exp, power } from '../../src/physics/portable-math.ts';
import type { BenchBuild, PlantBuild } from '../plant/build.ts';
import type { PlantState } from '../plant/state.ts';
import type { Air } from '../weather/sky.ts';

/** What the judge has counted by itself since it began, L. */
export interface SecondCount {
  readonly look: (state: PlantState, minutes: number) => void;
  /** Into each bench, from its inflow at every step. */
  readonly flooded: () => readonly number[];
  /** Drunk by each bench, by the trapezoid of equation 3 over the held water seen at both ends of every step. */
  readonly drunk: () => readonly number[];
  /** Gone to the air from the cups of each bench, the same way. */
  readonly evaporated: () => readonly number[];
}

const DAY_MILLIS = 86_400_000;
/** The model takes its canopies afresh this often. */
const GROWTH_MILLIS = 21_600_000;
/** FAO-56 eq. 20, MJ/kg; a millimetre on a square metre is a kilogram. */
const LATENT_MEGAJOULES = 2.45;

/** L/min that the leaves of a bench would drink, and that its cups would lose, if no root were dry. */
interface Loss {
  readonly leaves: number;
  readonly cups: number;
}

/**
 * Counts water another way than the plant moves it: it sees the plant's states and what its benches can hold, and works
 * out from planting and weather with its own lines what leaves and cups must have lost: FAO-56 eq. 7, 8, 11, 13 and 84,
 * the glasshouse form λE = A(1 − e^(−K·L))G + B·L·D, Penman's open water. Where both part by more than a trapezoid may,
 * one of them is wrong.
 */
export const secondCount = (
  build: PlantBuild,
  sky: { at(epochMillis: number): Air },
  capacities: () => readonly { readonly capacityLitres: number }[],
): SecondCount => {
  const { judgements } = build;
  const flooded = build.benches.map(() => 0);
  const drunk = build.benches.map(() => 0);
  const evaporated = build.benches.map(() => 0);
  const psychrometric = 0.665e-3 * 101.3 * power((293 - 0.0065 * build.elevationMetres) / 293, 5.26);
  let wetness: readonly number[] | null = null;

  /** The canopies stay as they are from a full quarter of a day on, or from the last moment at which a crop came. */
  const canopiesOf = (atMillis: number): number =>
    build.benches
      .flatMap(({ plantings }) => plantings.map(({ fromMillis }) => fromMillis))
      .filter((fromMillis) => fromMillis <= atMillis)
      .reduce((a, b) => Math.max(a, b), Math.floor(atMillis / GROWTH_MILLIS) * GROWTH_MILLIS);

  const lossOf = ({ plantings }: BenchBuild, atMillis: number): Loss => {
    const asOf = canopiesOf(atMillis);
    const planting = plantings.findLast(({ fromMillis }) => fromMillis <= asOf);
    if (planting === undefined) return { leaves: 0, cups: 0 };
    const { plants, plantsPerSquareMetre, growthPerDay, halfGrownDays } = planting;
    const age = Math.max(0, Math.max(0, asOf - planting.sownMillis) / DAY_MILLIS + judgements.aheadDays);
    const pace = growthPerDay * judgements.growthFactor;
    const grown = planting.leafSquareMetresMax / (1 + exp(pace * (halfGrownDays - age)));
    const leaf = judgements.leafFactor * plantsPerSquareMetre * grown;
    const shade = exp(-judgements.extinction * leaf);

    const { airCelsius, vapourKilopascals, windMetresPerSecond, ...air } = sky.at(atMillis);
    const sun = air.sunWattsPerSquareMetre * build.sunShare;
    const saturated = 0.6108 * exp((17.27 * airCelsius) / (airCelsius + 237.3));
    const deficit = Math.max(0, saturated - vapourKilopascals);
    const dark = judgements.openShareInDark;
    const open = dark + ((1 - dark) * sun) / (sun + judgements.halfOpenWatts);
    const watts =
      judgements.radiationShare * (1 - shade) * sun + judgements.deficitWatts * leaf * deficit * open;
    const ground = plants / plantsPerSquareMetre;

    const slope = (4098 * saturated) / ((airCelsius + 237.3) * (airCelsius + 237.3));
    const megajoules =
      (slope * 0.92 * sun * 0.0036 +
        (psychrometric * 6.43 * (1 + 0.536 * windMetresPerSecond) * deficit) / 24) /
      (slope + psychrometric);
    const cups = planting.startedInPlace ? plants * judgements.cupSquareMetres * shade : 0;
    return {
      leaves: (ground * watts * 60e-6) / LATENT_MEGAJOULES,
      cups: (cups * megajoules) / LATENT_MEGAJOULES / 60,
    };
  };

  const look = (state: PlantState, minutes: number): void => {
    const now = capacities();
    // The middle of the step: of its weather, and safely within its stretch of one canopy.
    const middle = state.atMillis - minutes * 30_000;
    const wet = ({ heldLitres }: { readonly heldLitres: number }, place: number): number =>
      Math.min(1, heldLitres / (now[place]?.capacityLitres ?? 1) / judgements.stressTheta);
    const after = state.benches.map(wet);
    const before = wetness ?? after;
    build.benches.forEach((bench, place) => {
      const loss = lossOf(bench, middle);
      const share = (((before[place] ?? 1) + (after[place] ?? 1)) / 2) * minutes;
      flooded[place] = (flooded[place] ?? 0) + (state.benches[place]?.inflowLitresPerMinute ?? 0) * minutes;
      drunk[place] = (drunk[place] ?? 0) + loss.leaves * share;
      evaporated[place] = (evaporated[place] ?? 0) + loss.cups * share;
    });
    wetness = after;
  };
  return { look, flooded: () => flooded, drunk: () => drunk, evaporated: () => evaporated };
};
