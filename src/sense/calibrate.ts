import { kclFactorTo25 } from '../physics/conductivity.ts';
import type { WallMillis } from '../time/instant.ts';
import { assert, itemAt } from '../units/assertion.ts';
import { median } from '../units/median.ts';
import {
  isAtBottom,
  isAtTop,
  isCount,
  signalAtShare,
  signalMicrosiemensPerCm,
  strongestMicrosiemensPerCm,
  type ProbeModule,
} from './probe-module.ts';
import { belongsTo, fittedMicrosiemensPerCm, type CalibrationFit, type ProbeCalibration } from './probe.ts';

/** One standard with the probe held in it. */
export interface StandardDip {
  /** What the bottle says at 25 °C: 84, 1413 and 12 880 are common, any other may be typed. Taken to be KCl. */
  readonly standardMicrosiemensPerCmAt25: number;
  /** Counts of some seconds, at least five. */
  readonly counts: readonly number[];
  /** Of the solution in the cup. */
  readonly celsius: number;
}

export interface CalibrationRequest {
  readonly dips: readonly [StandardDip] | readonly [StandardDip, StandardDip];
  readonly module: ProbeModule;
  readonly at: WallMillis | 'unknown';
}

export type WhyRefused =
  | 'standard-out-of-range'
  | 'temperature-out-of-range'
  | 'too-few-counts'
  | 'impossible-count'
  | 'dry'
  | 'at-top'
  | 'unstable'
  | 'points-too-close'
  | 'wrong-order'
  | 'cell-factor-out-of-range'
  | 'zero-out-of-range';

export interface Refusal {
  readonly why: WhyRefused;
  /** What is wrong. */
  readonly says: string;
  /** What to do about it. */
  readonly toDo: string;
}

export type Calibrated =
  | {
      readonly kind: 'accepted';
      readonly calibration: ProbeCalibration;
      /** How much too high (+) or low (−) the old calibration read in the strongest standard; `null` without one. */
      readonly driftPercent: number | null;
      readonly note: string | null;
    }
  /** The calibration is the one from before, untouched. */
  | { readonly kind: 'refused'; readonly calibration: ProbeCalibration | null; readonly refusal: Refusal };

/** Weaker than this the air's carbon dioxide changes a standard while it is open; also catches mS typed as µS. Judgement. */
const STANDARD_MICROSIEMENS_PER_CM_MIN = 50;
/** Under 8 counts the weak point of two is lost in the converter's ±2; under 100 one count is more than 1 %. */
const STANDARD_COUNTS_MIN = { weak: 8, strong: 100 } as const;
const SOLUTION_CELSIUS = { least: 5, most: 40 } as const;
const COUNTS_MIN = 5;
/** Counts may spread by 1 %; one count is the converter's own step. */
const SPREAD = { share: 0.01, counts: 1 } as const;
/** 1 % of error in each of two standards this far apart is 5 % in the slope; closer is worse. */
const STANDARD_RATIO_MIN = 1.5;
/** Two signals closer than this come from one bottle. Judgement. */
const SIGNAL_RATIO_MIN = 1.2;
const CELL_FACTOR = { least: 0.5, most: 2 } as const;
/** 20 of 1024 counts, ten times the converter's ±2: no module is that far off; a wrong bottle is. Judgement. */
const ZERO_SHARE_MAX = 0.02;
/** More than this in one go is dirt, damage or a bad bottle rather than ageing. Judgement. */
const DRIFT_PERCENT_MAX = 10;
/** A calibration a week for a year. */
export const EARLIER_KEPT = 52;

const TO_DO: Readonly<Record<WhyRefused, string>> = {
  'standard-out-of-range':
    'Type what the bottle says at 25 °C in µS/cm (1.413 mS/cm is 1413), or take another.',
  'temperature-out-of-range':
    'Let the bottle stand in the shade until it is near 25 °C; look at the thermometer.',
  'too-few-counts': 'Hold the probe in the standard for ten seconds.',
  'impossible-count': 'Check the board and the number of bits set for it.',
  dry: 'Dip both tips fully, shake off bubbles, check the cable.',
  'at-top': 'Take a weaker standard, and check the probe for a short.',
  unstable: 'Stir, wait a minute, hold still and try again.',
  'points-too-close': 'Take two standards further apart, or only one, and rinse the probe in between.',
  'wrong-order': 'The bottles were swapped: dip again, rinsing in between.',
  'cell-factor-out-of-range': 'Check which bottle it was and what it says; use a fresh one; clean the probe.',
  'zero-out-of-range': 'One standard is wrong or spoilt: use fresh ones, rinsing in between.',
};

const refusal = (why: WhyRefused, says: string): Refusal => ({ why, says, toDo: TO_DO[why] });

const standardRefusal = (dips: readonly StandardDip[], module: ProbeModule): Refusal | undefined => {
  const ofCounts = (counts: number): number => signalMicrosiemensPerCm(counts, module);
  const least = Math.max(STANDARD_MICROSIEMENS_PER_CM_MIN, ofCounts(STANDARD_COUNTS_MIN.weak));
  const strongLeast = Math.max(least, ofCounts(STANDARD_COUNTS_MIN.strong));
  const most = strongestMicrosiemensPerCm(module);
  const standards = dips.map((dip) => dip.standardMicrosiemensPerCmAt25);
  const within = standards.every((standard) => standard >= least && standard <= most);
  if (within && Math.max(...standards) >= strongLeast) return undefined;
  return refusal(
    'standard-out-of-range',
    `This module needs a standard of ${Math.ceil(strongLeast)} to ${Math.floor(most)} µS/cm; ` +
      `a second, weaker one may go down to ${Math.ceil(least)}.`,
  );
};

const dipRefusal = (dip: StandardDip, module: ProbeModule): Refusal | undefined => {
  const { counts, celsius } = dip;
  const bottle = `the ${dip.standardMicrosiemensPerCmAt25} µS/cm standard`;
  if (!(celsius >= SOLUTION_CELSIUS.least && celsius <= SOLUTION_CELSIUS.most)) {
    return refusal('temperature-out-of-range', `${celsius} °C in ${bottle}; 5 to 40 °C is needed.`);
  }
  if (counts.length < COUNTS_MIN) {
    return refusal('too-few-counts', `${counts.length} counts in ${bottle}; ${COUNTS_MIN} are needed.`);
  }
  if (!counts.every((count) => isCount(count, module))) {
    return refusal('impossible-count', `A count in ${bottle} cannot come from this converter.`);
  }
  const middle = median(counts);
  if (isAtBottom(middle)) return refusal('dry', `The probe reads nothing in ${bottle}.`);
  if (isAtTop(middle, module)) return refusal('at-top', `The signal is at its top in ${bottle}.`);
  const spread = Math.max(...counts) - Math.min(...counts);
  if (spread <= Math.max(SPREAD.counts, SPREAD.share * middle)) return undefined;
  return refusal(
    'unstable',
    `The counts in ${bottle} spread by ${((100 * spread) / middle).toFixed(1)} %; 1 % is the most.`,
  );
};

/** A dip in numbers: the module's signal and what it should have been, at the solution's own temperature. */
interface Measured {
  readonly signal: number;
  readonly factorTo25: number;
  readonly trueMicrosiemensPerCm: number;
}

const measured = (dip: StandardDip, module: ProbeModule): Measured => {
  const found = kclFactorTo25(dip.celsius);
  assert(found.kind === 'known', 'a solution of 5 to 40 °C lies in the KCl table');
  const signal = signalMicrosiemensPerCm(median(dip.counts), module);
  const trueMicrosiemensPerCm = dip.standardMicrosiemensPerCmAt25 / found.factor;
  return { signal, factorTo25: found.factor, trueMicrosiemensPerCm };
};

const pairRefusal = (weak: StandardDip, strong: StandardDip, module: ProbeModule): Refusal | undefined => {
  const standardRatio = strong.standardMicrosiemensPerCmAt25 / weak.standardMicrosiemensPerCmAt25;
  if (standardRatio < STANDARD_RATIO_MIN) {
    return refusal('points-too-close', 'The two standards are less than a factor of 1.5 apart.');
  }
  const [low, high] = [measured(weak, module), measured(strong, module)];
  const signalRatio = (high.signal * high.factorTo25) / (low.signal * low.factorTo25);
  if (signalRatio < 1 / SIGNAL_RATIO_MIN) {
    return refusal('wrong-order', 'The stronger standard gave the weaker signal.');
  }
  return signalRatio < SIGNAL_RATIO_MIN
    ? refusal('points-too-close', 'Both standards gave nearly the same signal: was one bottle used twice?')
    : undefined;
};

type Fit = Pick<CalibrationFit, 'cellFactor' | 'zeroMicrosiemensPerCm'>;

/** One point sets the cell factor and keeps the zero that was measured before; two points set both. */
const fitted = (points: readonly Measured[], zeroBefore: number): Fit => {
  const weak = itemAt(points, 0);
  const strong = points[1];
  if (strong === undefined) {
    return {
      cellFactor: weak.trueMicrosiemensPerCm / (weak.signal - zeroBefore),
      zeroMicrosiemensPerCm: zeroBefore,
    };
  }
  const cellFactor =
    (strong.trueMicrosiemensPerCm - weak.trueMicrosiemensPerCm) / (strong.signal - weak.signal);
  return { cellFactor, zeroMicrosiemensPerCm: weak.signal - weak.trueMicrosiemensPerCm / cellFactor };
};

const fitRefusal = (fit: Fit, module: ProbeModule): Refusal | undefined => {
  const { cellFactor, zeroMicrosiemensPerCm } = fit;
  if (!(cellFactor >= CELL_FACTOR.least && cellFactor <= CELL_FACTOR.most)) {
    return refusal(
      'cell-factor-out-of-range',
      `The cell would be ${cellFactor.toFixed(2)} times its nominal value; 0.5 to 2 is possible.`,
    );
  }
  const zeroMost = signalAtShare(ZERO_SHARE_MAX, module);
  if (Math.abs(zeroMicrosiemensPerCm) <= zeroMost) return undefined;
  return refusal(
    'zero-out-of-range',
    `The module would mean ${zeroMicrosiemensPerCm.toFixed(0)} µS/cm by nothing; ${zeroMost.toFixed(0)} is the most.`,
  );
};

const driftPercentOf = (old: CalibrationFit, { signal, trueMicrosiemensPerCm }: Measured): number =>
  100 * (fittedMicrosiemensPerCm(signal, old) / trueMicrosiemensPerCm - 1);

const driftNote = (driftPercent: number): string | null =>
  Math.abs(driftPercent) <= DRIFT_PERCENT_MAX
    ? null
    : `The probe had read ${Math.abs(driftPercent).toFixed(0)} % ${driftPercent > 0 ? 'high' : 'low'}: ` +
      'clean it and calibrate once more; if it stays, check the bottle.';

const withoutHistory = ({ earlier: _, ...fit }: ProbeCalibration): CalibrationFit => fit;

const dipsRefusal = (dips: readonly StandardDip[], module: ProbeModule): Refusal | undefined => {
  const standards = standardRefusal(dips, module);
  if (standards !== undefined) return standards;
  for (const dip of dips) {
    const single = dipRefusal(dip, module);
    if (single !== undefined) return single;
  }
  const [weak, strong] = dips;
  return weak === undefined || strong === undefined ? undefined : pairRefusal(weak, strong, module);
};

/**
 * The calibration after one or two dips, given in any order, or the first reason to keep the old one. The standards
 * follow the KCl table to the temperature of the cup, so that the cell factor does not depend on it.
 */
export const calibrated = (before: ProbeCalibration | null, request: CalibrationRequest): Calibrated => {
  const { module, at } = request;
  const dips = [...request.dips].sort(
    (a, b) => a.standardMicrosiemensPerCmAt25 - b.standardMicrosiemensPerCmAt25,
  );
  const unusable = dipsRefusal(dips, module);
  if (unusable !== undefined) return { kind: 'refused', calibration: before, refusal: unusable };
  const points = dips.map((dip) => measured(dip, module));
  const current = before !== null && belongsTo(before, module) ? before : null;
  const fit = fitted(points, current?.zeroMicrosiemensPerCm ?? 0);
  const nonsense = fitRefusal(fit, module);
  if (nonsense !== undefined) return { kind: 'refused', calibration: before, refusal: nonsense };
  const driftPercent = current === null ? null : driftPercentOf(current, itemAt(points, points.length - 1));
  const calibration: ProbeCalibration = {
    ...fit,
    at,
    points: dips.map((dip) => ({
      standardMicrosiemensPerCmAt25: dip.standardMicrosiemensPerCmAt25,
      counts: median(dip.counts),
      celsius: dip.celsius,
    })),
    module,
    earlier: before === null ? [] : [withoutHistory(before), ...before.earlier].slice(0, EARLIER_KEPT),
  };
  const note = driftPercent === null ? null : driftNote(driftPercent);
  return { kind: 'accepted', calibration, driftPercent, note };
};
