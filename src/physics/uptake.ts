import { exp } from './portable-math.ts';

/** Heat that turns one kilogram of water into vapour, J/kg. FAO-56 eq. 20 (2.45 MJ/kg). */
export const LATENT_HEAT_JOULES_PER_KILOGRAM = 2.45e6;
const SECONDS_PER_MINUTE = 60;

/** How leaves open with the sun, which weighs what they lose to dry air. The form is judgement, no source. */
export interface LeafOpening {
  /** Openness in the dark, 0 to 1. */
  readonly openShareInDark: number;
  /** The sun at which half of the rest has opened, W/m². */
  readonly halfOpenWatts: number;
}

/** Equal plants as they stand for a while, whatever the weather. */
export interface Canopy extends LeafOpening {
  readonly plants: number;
  readonly plantsPerSquareMetre: number;
  /** One-sided leaf area of one plant. */
  readonly leafSquareMetresPerPlant: number;
  /** A: share of the caught radiation that goes into vapour, 0.2–0.6. */
  readonly radiationShare: number;
  /** K: extinction of radiation per unit of leaf area index, about 0.64. */
  readonly extinction: number;
  /** B: W m⁻² kPa⁻¹ per unit of leaf area index, 10–30. */
  readonly deficitWatts: number;
}

/** What all plants of a canopy drink per unit of weather: worked out once, used every minute. */
export interface CanopyResponse extends LeafOpening {
  /** L/min per W/m² of sun. */
  readonly litresPerMinutePerWatt: number;
  /** L/min per kPa of vapour deficit, leaves fully open. */
  readonly litresPerMinutePerKilopascal: number;
}

/** How far the leaves are open, up to 1 in full sun. */
export const leafOpenShare = (
  { openShareInDark, halfOpenWatts }: LeafOpening,
  sunWattsPerSquareMetre: number,
): number =>
  openShareInDark +
  ((1 - openShareInDark) * sunWattsPerSquareMetre) / (sunWattsPerSquareMetre + halfOpenWatts);

/**
 * The two coefficients of the form of Baille, Baille & Laury 1994, Scientia Hortic. 59:83–97,
 * λE = A(1−e^(−K·LAI))G + B·LAI·D. Theirs are for pot crops; those for leaf crops are judgement.
 */
export const canopyResponse = (canopy: Canopy): CanopyResponse => {
  const leafAreaIndex = canopy.leafSquareMetresPerPlant * canopy.plantsPerSquareMetre;
  const groundSquareMetres = canopy.plants / canopy.plantsPerSquareMetre;
  const litresPerMinutePerGroundWatt =
    (groundSquareMetres * SECONDS_PER_MINUTE) / LATENT_HEAT_JOULES_PER_KILOGRAM;
  return {
    litresPerMinutePerWatt:
      litresPerMinutePerGroundWatt * canopy.radiationShare * (1 - exp(-canopy.extinction * leafAreaIndex)),
    litresPerMinutePerKilopascal: litresPerMinutePerGroundWatt * canopy.deficitWatts * leafAreaIndex,
    openShareInDark: canopy.openShareInDark,
    halfOpenWatts: canopy.halfOpenWatts,
  };
};

/**
 * Water that all plants drink together while their roots are wet, L/min. Baille form, the deficit term weakened in
 * the dark (`leafOpenShare`).
 */
export const uptakeLitresPerMinute = (
  response: CanopyResponse,
  sunWattsPerSquareMetre: number,
  deficitKilopascals: number,
): number =>
  response.litresPerMinutePerWatt * sunWattsPerSquareMetre +
  response.litresPerMinutePerKilopascal *
    deficitKilopascals *
    leafOpenShare(response, sunWattsPerSquareMetre);
