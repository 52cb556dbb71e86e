import { itemAt } from '../units/assertion.ts';

/**
 * Electrical conductivity κ of water at its own temperature, brought to 25 °C, and the ppm scales of meters. Every
 * factor here multiplies: κ25 = κT · factor, whatever the unit of κ.
 */

/** Linear coefficient taken for nutrient solutions, %/K: a lettuce solution has 2.00–2.06 (PHREEQC, 15–30 °C). */
export const DEFAULT_PERCENT_PER_KELVIN = 2;
/** Water solutions have 1 (acids) to 3 (nearly pure water); 0 means no compensation. Judgement. */
const PERCENT_PER_KELVIN = { least: 0, most: 3 } as const;
/** The linear rule is used on liquid water no warmer than the KCl table that it was held against. */
const LINEAR_CELSIUS = { least: 0, most: 50 } as const;

export type WhyNoFactor = 'too-cold' | 'too-hot' | 'no-temperature' | 'coefficient-out-of-range';

/** What κT is multiplied by, or the reason why there is no such number: never a guess past the end of a rule. */
export type FactorTo25 =
  | { readonly kind: 'known'; readonly factor: number }
  | { readonly kind: 'unknown'; readonly why: WhyNoFactor };

const known = (factor: number): FactorTo25 => ({ kind: 'known', factor });
const unknown = (why: WhyNoFactor): FactorTo25 => ({ kind: 'unknown', why });

const outside = (celsius: number, least: number, most: number): WhyNoFactor | undefined => {
  if (celsius < least) return 'too-cold';
  if (celsius > most) return 'too-hot';
  return Number.isNaN(celsius) ? 'no-temperature' : undefined;
};

/**
 * Factor by the linear rule 1/(1 + α(T − 25)), as instrument manuals give it; 0–50 °C, α of 0–3 %/K.
 * KCl bends away from it in the cold: with α = 2 % it reads 0.5 % high at 20 °C and 5.5 % high at 5 °C.
 */
export const linearFactorTo25 = (
  celsius: number,
  percentPerKelvin: number = DEFAULT_PERCENT_PER_KELVIN,
): FactorTo25 => {
  if (!(percentPerKelvin >= PERCENT_PER_KELVIN.least && percentPerKelvin <= PERCENT_PER_KELVIN.most)) {
    return unknown('coefficient-out-of-range');
  }
  const why = outside(celsius, LINEAR_CELSIUS.least, LINEAR_CELSIUS.most);
  return why === undefined ? known(1 / (1 + (percentPerKelvin / 100) * (celsius - 25))) : unknown(why);
};

/** A table from 0 °C in equal steps, read on straight lines; the temperature lies inside it. */
const interpolated = (table: readonly number[], stepCelsius: number, celsius: number): number => {
  const place = celsius / stepCelsius;
  const below = Math.min(Math.floor(place), table.length - 2);
  const lower = itemAt(table, below);
  return lower + (place - below) * (itemAt(table, below + 1) - lower);
};

/** f25 of ISO 7888:1985 (EN 27888:1993) at 0, 1, 2 … 35 °C, as instrument manuals print it. */
// prettier-ignore
const NATURAL_WATER_F25 = [
  1.918, 1.857, 1.8, 1.745, 1.693, 1.643, 1.596, 1.551, 1.508, 1.467,
  1.428, 1.39, 1.354, 1.32, 1.287, 1.256, 1.225, 1.196, 1.168, 1.141,
  1.116, 1.091, 1.067, 1.044, 1.021, 1.0, 0.979, 0.959, 0.94, 0.921,
  0.903, 0.886, 0.869, 0.853, 0.837, 0.822,
];
/** Conductivity at 25 °C for which f25 is meant, as an instrument manual states it. Most tanks are stronger. */
export const NATURAL_WATER_MICROSIEMENS_PER_CM = { least: 60, most: 1000 } as const;

/**
 * Factor for natural water (rain, borehole, tap), 0–35 °C: f25 of ISO 7888 / EN 27888, straight lines between the
 * whole degrees (within 0.001 of the tenths of its table). Meant for 60–1000 µS/cm; see `naturalWaterAt25`.
 */
export const naturalWaterFactorTo25 = (celsius: number): FactorTo25 => {
  const why = outside(celsius, 0, NATURAL_WATER_F25.length - 1);
  return why === undefined ? known(interpolated(NATURAL_WATER_F25, 1, celsius)) : unknown(why);
};

export type NaturalWaterAt25 =
  | {
      readonly kind: 'known';
      readonly microsiemensPerCmAt25: number;
      /** False outside 60–1000 µS/cm, where f25 was not made for the water. */
      readonly withinStatedUse: boolean;
    }
  | { readonly kind: 'unknown'; readonly why: WhyNoFactor };

/** Conductivity of natural water at 25 °C by ISO 7888 / EN 27888, and whether f25 is meant for such water. */
export const naturalWaterAt25 = (microsiemensPerCm: number, celsius: number): NaturalWaterAt25 => {
  const found = naturalWaterFactorTo25(celsius);
  if (found.kind === 'unknown') return found;
  const microsiemensPerCmAt25 = microsiemensPerCm * found.factor;
  const { least, most } = NATURAL_WATER_MICROSIEMENS_PER_CM;
  const withinStatedUse = microsiemensPerCmAt25 >= least && microsiemensPerCmAt25 <= most;
  return { kind: 'known', microsiemensPerCmAt25, withinStatedUse };
};

/**
 * µS/cm of 0.01 mol/kg KCl at 0, 5, 10 … 50 °C. CRC Handbook after Wu, Koch & Pratt 1991, J. Res. NIST 96:191; Pratt
 * et al. 2001, Pure Appl. Chem. 73:1783.
 */
// prettier-ignore
const KCL_MICROSIEMENS_PER_CM = [
  772.92, 890.96, 1013.95, 1141.45, 1273.03, 1408.23, 1546.63, 1687.79, 1831.27, 1976.62, 2123.43,
];
const KCL_STEP_CELSIUS = 5;
const KCL_AT_25 = itemAt(KCL_MICROSIEMENS_PER_CM, 25 / KCL_STEP_CELSIUS);

/**
 * Factor for a bottle of KCl standard, 0–50 °C: the course of 0.01 mol/kg, straight lines in κ (within 0.1 %). The
 * bottles of 84, 1413 and 12 880 µS/cm follow it within 1 % from 5 to 30 °C.
 */
export const kclFactorTo25 = (celsius: number): FactorTo25 => {
  const why = outside(celsius, 0, KCL_STEP_CELSIUS * (KCL_MICROSIEMENS_PER_CM.length - 1));
  return why === undefined
    ? known(KCL_AT_25 / interpolated(KCL_MICROSIEMENS_PER_CM, KCL_STEP_CELSIUS, celsius))
    : unknown(why);
};

/**
 * ppm that a meter shows for each µS/cm at 25 °C, by convention and not by weighing: 0.5 (NaCl), 0.64, 0.7 ("442").
 * Real nutrient solutions hold about 0.8 mg/L of salts per µS/cm.
 */
export type PpmScale = 0.5 | 0.64 | 0.7;

/** What a meter on a ppm scale shows for a conductivity at 25 °C. */
export const ppmFromMicrosiemens = (microsiemensPerCmAt25: number, scale: PpmScale): number =>
  microsiemensPerCmAt25 * scale;

/** The conductivity at 25 °C, µS/cm, behind a number read on a ppm scale. */
export const microsiemensFromPpm = (ppm: number, scale: PpmScale): number => ppm / scale;
