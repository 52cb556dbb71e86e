import { exp } from './portable-math.ts';

/** Lettuce, FAO-56 table 17: basal crop coefficients at the start and at full cover. */
const BASAL_START = 0.15;
const BASAL_FULL = 0.9;

/**
 * Basal crop coefficient for a leaf area index (m² of leaf per m² of ground), by FAO-56 eq. 97:
 * Kcb = Kc min + (Kcb full − Kc min)·(1 − e^(−0.7·LAI)), with the lettuce values of table 17.
 */
export const basalCropCoefficient = (leafAreaIndex: number): number =>
  BASAL_START + (BASAL_FULL - BASAL_START) * (1 - exp(-0.7 * leafAreaIndex));
