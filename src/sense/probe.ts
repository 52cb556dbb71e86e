import {
  DEFAULT_PERCENT_PER_KELVIN,
  linearFactorTo25,
  naturalWaterAt25,
  type NaturalWaterAt25,
  type WhyNoFactor,
} from '../physics/conductivity.ts';
import type { WallMillis } from '../time/instant.ts';
import { median } from '../units/median.ts';
import {
  isAtTop,
  isCount,
  isSameModule,
  isShorted,
  moduleKind,
  signalMicrosiemensPerCm,
  type ProbeModule,
} from './probe-module.ts';
import type { Reading } from './reading.ts';
import type { Seen } from './seen.ts';

/** The conductivity probe: a cell in the water, and what makes counts of it. */

/** One standard as it was measured. */
export interface CalibrationPoint {
  /** What the bottle says. */
  readonly standardMicrosiemensPerCmAt25: number;
  /** Median count in it. */
  readonly counts: number;
  readonly celsius: number;
}

/** Conductivity = cellFactor · (signal − zero), both in µS/cm as the module means them. */
export interface CalibrationFit {
  /** True cell constant over the nominal one; 1 is nominal. */
  readonly cellFactor: number;
  /** Signal at no conductivity; 0 is nominal. */
  readonly zeroMicrosiemensPerCm: number;
  readonly at: WallMillis | 'unknown';
  /** One or two, the weaker first. */
  readonly points: readonly CalibrationPoint[];
  /** The module for which it holds. */
  readonly module: ProbeModule;
}

/** The calibration in force, with those before it, newest first. */
export interface ProbeCalibration extends CalibrationFit {
  readonly earlier: readonly CalibrationFit[];
}

/** Strength where the temperature was known; else raw conductivity, which is no strength and cannot be taken for one. */
export type ProbeValue =
  | {
      readonly compensated: true;
      readonly millisiemensPerCmAt25: number;
      readonly microsiemensPerCm: number;
      readonly celsius: number;
    }
  | { readonly compensated: false; readonly microsiemensPerCm: number };

export interface ProbeInput {
  readonly module: ProbeModule;
  /** Counts taken together, one or more; the median is used. */
  readonly counts: readonly number[];
  readonly ageSeconds: number;
  readonly waterCelsius: Reading<number>;
  /** Whether water runs past the probe; `seen` for one that always lies in the tank. */
  readonly waterAtProbe: Seen;
  /** `null` when it was never calibrated. */
  readonly calibration: ProbeCalibration | null;
  /** Linear with 2 %/K when absent. */
  readonly compensation?: Compensation | undefined;
}

/** How conductivity is brought to 25 °C: linear for salts in water, ISO 7888 for natural water. */
export type Compensation =
  { readonly kind: 'linear'; readonly percentPerKelvin: number } | { readonly kind: 'natural-water' };

/** The strength of a tank changes over hours; twenty missed 30 s samples. Judgement. */
const STALE_AFTER_SECONDS = 600;
/** Weaker than any solution that is fed, µS/cm, and … Judgement. */
const DRY_MICROSIEMENS_PER_CM = 50;
/** … no more than twice the converter's ±2 counts away from nothing. */
const DRY_COUNTS = 4;
/** Median deviation of calm water: 2 % of the signal or the converter's ±2 counts. Judgement. */
const NOISE = { share: 0.02, counts: 2 } as const;

/** Below this, µS/cm, a probe counts as dry. */
const dryMicrosiemensPerCm = (module: ProbeModule): number =>
  Math.max(DRY_MICROSIEMENS_PER_CM, signalMicrosiemensPerCm(DRY_COUNTS, module));

/** Conductivity in µS/cm at the water's own temperature. */
export const fittedMicrosiemensPerCm = (
  signalMicrosiemens: number,
  { cellFactor, zeroMicrosiemensPerCm }: Pick<CalibrationFit, 'cellFactor' | 'zeroMicrosiemensPerCm'>,
): number => cellFactor * (signalMicrosiemens - zeroMicrosiemensPerCm);

/** Whether a calibration was made with this module: with another it would be wrong by their ratio. */
export const belongsTo = (fit: CalibrationFit, module: ProbeModule): boolean =>
  isSameModule(fit.module, module);

const NOMINAL = { cellFactor: 1, zeroMicrosiemensPerCm: 0 } as const;

const NO_FACTOR_WORDS: Readonly<Record<WhyNoFactor, string>> = {
  'too-cold': 'the water temperature is below 0 °C',
  'too-hot': 'the water temperature is above 50 °C, or above 35 °C by ISO 7888',
  'no-temperature': 'the water temperature is no number',
  'coefficient-out-of-range': 'the temperature coefficient is outside 0 to 3 % per degree',
};

interface Judged {
  readonly value: ProbeValue;
  readonly doubt: string | undefined;
}

const DEFAULT_COMPENSATION: Compensation = { kind: 'linear', percentPerKelvin: DEFAULT_PERCENT_PER_KELVIN };

const at25 = (microsiemensPerCm: number, celsius: number, how: Compensation): NaturalWaterAt25 => {
  if (how.kind === 'natural-water') return naturalWaterAt25(microsiemensPerCm, celsius);
  const found = linearFactorTo25(celsius, how.percentPerKelvin);
  if (found.kind === 'unknown') return found;
  const microsiemensPerCmAt25 = microsiemensPerCm * found.factor;
  return { kind: 'known', microsiemensPerCmAt25, withinStatedUse: true };
};

const compensated = (microsiemensPerCm: number, input: ProbeInput): Judged => {
  const raw: ProbeValue = { compensated: false, microsiemensPerCm };
  const { waterCelsius } = input;
  if (waterCelsius.quality !== 'good') {
    return { value: raw, doubt: `not compensated, no good water temperature: ${waterCelsius.why}` };
  }
  const celsius = waterCelsius.value;
  const found = at25(microsiemensPerCm, celsius, input.compensation ?? DEFAULT_COMPENSATION);
  if (found.kind === 'unknown')
    return { value: raw, doubt: `not compensated: ${NO_FACTOR_WORDS[found.why]}` };
  const millisiemensPerCmAt25 = found.microsiemensPerCmAt25 / 1000;
  return {
    value: { compensated: true, millisiemensPerCmAt25, microsiemensPerCm, celsius },
    doubt: found.withinStatedUse ? undefined : 'ISO 7888 is not meant for water of this strength',
  };
};

const OTHER_MODULE = {
  module: 'the calibration belongs to a module of another range',
  cell: 'the calibration belongs to another cell or resistor',
} as const;

const calibrationDoubt = ({ calibration, module }: ProbeInput): string | undefined => {
  if (calibration === null) return 'the probe was never calibrated';
  return belongsTo(calibration, module) ? undefined : OTHER_MODULE[moduleKind(module)];
};

const isNoisy = (counts: readonly number[], middle: number): boolean =>
  median(counts.map((count) => Math.abs(count - middle))) > Math.max(NOISE.counts, NOISE.share * middle);

const WATER_DOUBT: Readonly<Record<Seen, string | undefined>> = {
  seen: undefined,
  unknown: undefined,
  'not-seen': 'no water runs past the probe',
};

const dryWhy = (waterAtProbe: Seen): string => {
  switch (waterAtProbe) {
    case 'seen':
      return 'the probe reads near zero while water runs: it is dry, or its cable is off';
    case 'not-seen':
      return 'the probe is dry while no water runs past it';
    case 'unknown':
      return 'the probe reads near zero: it is dry, or its cable is off';
  }
};

/**
 * What is believed of the strength. Near zero is `absent`, whether by the signal or by the calibrated value; a signal
 * at the top, noise, no calibration, no water or no temperature leave a `suspect` number to look at, with every reason.
 */
export const probeReading = (input: ProbeInput): Reading<ProbeValue> => {
  const { module, ageSeconds, waterAtProbe } = input;
  const counts = input.counts.filter((count) => isCount(count, module));
  if (counts.length === 0) return { quality: 'absent', why: 'the probe has given no count that can be read' };
  const middle = median(counts);
  if (isShorted(middle, module)) {
    return { quality: 'absent', why: 'the bare probe reads as shorted: its tips touch, or its cable does' };
  }
  const signal = signalMicrosiemensPerCm(middle, module);
  const unfit = calibrationDoubt(input);
  const fit = input.calibration === null || unfit !== undefined ? NOMINAL : input.calibration;
  const microsiemensPerCm = fittedMicrosiemensPerCm(signal, fit);
  if (!(Math.min(signal, microsiemensPerCm) >= dryMicrosiemensPerCm(module))) {
    return { quality: 'absent', why: dryWhy(waterAtProbe) };
  }
  const { value, doubt } = compensated(microsiemensPerCm, input);
  const doubts = [
    ageSeconds <= STALE_AFTER_SECONDS ? undefined : `last reading is ${Math.round(ageSeconds)} s old`,
    isAtTop(middle, module) ? 'the signal is at its top: the solution is at least this strong' : undefined,
    unfit,
    doubt,
    WATER_DOUBT[waterAtProbe],
    isNoisy(counts, middle) ? 'the signal is noisy: clean the probe and look at its cable' : undefined,
  ].filter((words) => words !== undefined);
  if (doubts.length === 0) return { quality: 'good', value, ageSeconds };
  const quality = ageSeconds <= STALE_AFTER_SECONDS ? 'suspect' : 'stale';
  return { quality, value, ageSeconds, why: doubts.join('; ') };
};
