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

/** Leaf area of one plant, m², one side. Logistic form; the traits are judgement. */
export const leafSquareMetres = (ageDays: number, traits: GrowthTraits): number =>
  traits.leafSquareMetresMax * grownShare(ageDays, traits.halfGrownDays, traits.growthPerDay);

/** Fresh mass of the roots of one plant, g. Logistic form; the traits are judgement. */
export const rootGrams = (ageDays: number, traits: GrowthTraits): number =>
  traits.rootGramsMax * grownShare(ageDays, traits.halfGrownDays, traits.growthPerDay);

/** Share of the radiation that the leaves catch, 0 to 1: Monsi & Saeki 1953, 1 − e^(−K·LAI). */
export const canopyCover = (leafAreaIndex: number, extinction: number): number =>
  1 - exp(-extinction * leafAreaIndex);

/** Lettuce, FAO-56 Table 12. */
const COEFFICIENT_FIRST = 0.7;
const COEFFICIENT_MIDDLE = 1.0;
const COEFFICIENT_END = 0.95;
/** Lettuce, FAO-56 Table 11: stages of 20, 30, 15 and 10 days; here the ages at which the first three end. */
const STAGE_END_DAYS = { first: 20, development: 50, middle: 65, late: 75 } as const;

/**
 * Crop coefficient of lettuce at an age, for a crop cut at `harvestDays` (above 0). FAO-56 Tables 11 and 12, the
 * stages of the 75-day field crop scaled to the harvest age, straight lines between; held at both ends.
 */
export const lettuceCropCoefficient = (ageDays: number, harvestDays: number): number => {
  const day = (ageDays * STAGE_END_DAYS.late) / harvestDays;
  const { first, development, middle, late } = STAGE_END_DAYS;
  if (day <= first) return COEFFICIENT_FIRST;
  if (day < development) {
    const share = (day - first) / (development - first);
    return COEFFICIENT_FIRST + share * (COEFFICIENT_MIDDLE - COEFFICIENT_FIRST);
  }
  if (day <= middle) return COEFFICIENT_MIDDLE;
  if (day >= late) return COEFFICIENT_END;
  return COEFFICIENT_MIDDLE + ((day - middle) / (late - middle)) * (COEFFICIENT_END - COEFFICIENT_MIDDLE);
};
