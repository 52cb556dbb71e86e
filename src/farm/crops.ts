import type { CropTraits } from './schema.ts';

/**
 * Crops known without being described in the farm file. Engineering judgement, no source: butterhead follows
 * the model's central values; the other two are guesses of the same kind, to be replaced by measurements.
 */
export const KNOWN_CROPS: Readonly<Record<string, CropTraits>> = {
  butterhead: {
    leafSquareMetresMax: 0.4,
    rootGramsMax: 40,
    halfGrownDays: 41,
    growthPerDay: 0.19,
    plantsPerSquareMetre: 16,
    harvestDays: 55,
  },
  basil: {
    leafSquareMetresMax: 0.3,
    rootGramsMax: 30,
    halfGrownDays: 38,
    growthPerDay: 0.16,
    plantsPerSquareMetre: 20,
    harvestDays: 50,
  },
  'pak-choi': {
    leafSquareMetresMax: 0.3,
    rootGramsMax: 25,
    halfGrownDays: 32,
    growthPerDay: 0.2,
    plantsPerSquareMetre: 16,
    harvestDays: 45,
  },
};
