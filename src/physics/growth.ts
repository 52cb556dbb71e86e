import { exp } from './portable-math.ts';

/** How one plant of a crop grows with its age in days from sowing. */
export interface GrowthTraits {
  readonly leafSquareMetresMax: number;
  readonly rootGramsMax: number;
  /** Age at which half of the full size is reached. */
  readonly halfGrownDays: number;
  /** Rate of the logistic curve, 1/day. */
  readonly growthPerDay: number;
}

/** Share of the full size at an age in days, 0 to 1: the logistic curve of Verhulst 1838. */
export const grownShare = (ageDays: number, halfGrownDays: number, growthPerDay: number): number =>
  1 / (1 + exp(-growthPerDay * (ageDays - halfGrownDays)));

/** Fresh mass of the roots of one plant, g. Logistic form; the traits are judgement. */
export const rootGrams = (ageDays: number, traits: GrowthTraits): number =>
  traits.rootGramsMax * grownShare(ageDays, traits.halfGrownDays, traits.growthPerDay);

/** Share of the radiation that the leaves catch, 0 to 1: Monsi & Saeki 1953, 1 − e^(−K·LAI). */
export const canopyCover = (leafAreaIndex: number, extinction: number): number =>
  1 - exp(-extinction * leafAreaIndex);
