import { saturatedOxygenMilligramsPerLitre } from '../../src/physics/oxygen.ts';
import { q10Factor } from '../../src/physics/q10.ts';
import { reaerationFactor } from '../../src/physics/reaeration.ts';
import type { BenchToday } from './bench.ts';
import { afterDecay } from './decay.ts';
import { placeInTables, tableByCelsius, tabled } from './temperature-table.ts';
import type { WaterStep } from './water.ts';

/** The range of the published law of saturation, °C. */
export const OXYGEN_LAW_CELSIUS = { least: 0, most: 40 } as const;

/** How the parts of equation 5 follow the temperature of the water, as tables. */
export interface OxygenLaws {
  /** What water in touch with the air holds, mg/L. */
  readonly saturation: Float64Array;
  /** Re-aeration against 20 °C. */
  readonly aeration: Float64Array;
  /** Respiration against 25 °C. */
  readonly respiration: Float64Array;
}

/** Of water with so much dissolved salt, under so much air. */
export const oxygenLaws = (
  airKilopascals: number,
  saltGramsPerKilogram: number,
  respirationQ10: number,
): OxygenLaws => ({
  saturation: tableByCelsius((celsius) =>
    saturatedOxygenMilligramsPerLitre(celsius, airKilopascals, saltGramsPerKilogram),
  ),
  aeration: tableByCelsius(reaerationFactor),
  respiration: tableByCelsius((celsius) => q10Factor(respirationQ10, celsius, 25)),
});

/** mg/L in water that stands in balance with the air. */
export const saturatedOxygen = (laws: OxygenLaws, celsius: number): number =>
  tabled(laws.saturation, placeInTables(celsius));

/** Keeps a bench that has run out of water from dividing by nothing. */
const LEAST_LITRES = 1e-3;

/**
 * Equation 5 for one step, mg/L in the held water:
 * C' = (kx·w + r/v)(s·Cs − C) + (kLA/v)(Cs − C) − (Rm/cap)·C/(Ko + C), w = x/(x + Vw).
 * Exponential midpoint with the saturating use taken at the middle: second order, and never below 0.
 */
export const oxygenAfter = (
  oxygen: number,
  today: BenchToday,
  before: { readonly drainableLitres: number; readonly heldLitres: number },
  water: Readonly<WaterStep>,
  celsius: number,
  laws: OxygenLaws,
  minutes: number,
): number => {
  const drainable = (before.drainableLitres + water.drainableLitres) / 2;
  const held = Math.max(LEAST_LITRES, (before.heldLitres + water.heldLitres) / 2);
  const place = placeInTables(celsius);
  const saturated = tabled(laws.saturation, place);
  const fresh =
    (today.mixingPerMinute * drainable) / (drainable + today.wettingLitres) +
    water.refilledLitres / (minutes * held);
  const air = (today.aerationLitresPerMinute * tabled(laws.aeration, place)) / held;
  const use = today.respirationPerLitre * tabled(laws.respiration, place);
  const gain = (fresh * today.floodSaturation + air) * saturated;
  const middle = afterDecay(oxygen, gain, fresh + air + use / (today.oxygenHalf + oxygen), minutes / 2);
  return afterDecay(oxygen, gain, fresh + air + use / (today.oxygenHalf + middle), minutes);
};
