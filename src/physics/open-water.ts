import { MILLIMETRES_PER_MEGAJOULE } from './reference-uptake.ts';
import {
  psychrometricKilopascalsPerCelsius,
  vapourDeficitKilopascals,
  vapourSlopeKilopascalsPerCelsius,
} from './vapour.ts';

/** Penman's wind function, MJ m⁻² d⁻¹ kPa⁻¹: 6.43·(1 + 0.536·u), wind at 2 m. */
const STILL_AIR_MEGAJOULES = 6.43;
const PER_WIND = 0.536;
/** Of the sun; open water sends 0.08 of it back, where grass sends 0.23. Shuttleworth 1993, ch. 4 (read from memory). */
const ABSORBED_SHARE = 0.92;
const MEGAJOULES_PER_HOUR_PER_WATT = 0.0036;
const HOURS_A_DAY = 24;

export interface OverOpenWater {
  readonly airCelsius: number;
  readonly vapourKilopascals: number;
  readonly sunWattsPerSquareMetre: number;
  /** At 2 m. */
  readonly windMetresPerSecond: number;
  readonly pressureKilopascals: number;
}

/**
 * Water that an open wet surface gives to the air, mm/h, 0 or more. Penman 1948 with the constants of Shuttleworth 1993,
 * Handbook of Hydrology, eq. 4.2.30 (read from memory): (Δ·Rn + γ·6.43(1 + 0.536u)·D) / (λ(Δ + γ)). Rn is the absorbed
 * sun: what the surface sends back to the sky by night is left out, which errs towards dry.
 */
export const openWaterMillimetresPerHour = (over: OverOpenWater): number => {
  const { airCelsius, vapourKilopascals, windMetresPerSecond } = over;
  const slope = vapourSlopeKilopascalsPerCelsius(airCelsius);
  const psychrometric = psychrometricKilopascalsPerCelsius(over.pressureKilopascals);
  const sun = ABSORBED_SHARE * over.sunWattsPerSquareMetre * MEGAJOULES_PER_HOUR_PER_WATT;
  const wind = (STILL_AIR_MEGAJOULES * (1 + PER_WIND * windMetresPerSecond)) / HOURS_A_DAY;
  const deficit = vapourDeficitKilopascals(airCelsius, vapourKilopascals);
  return (
    (MILLIMETRES_PER_MEGAJOULE * (slope * sun + psychrometric * wind * deficit)) / (slope + psychrometric)
  );
};
