import { kclFactorTo25 } from '../../../src/physics/conductivity.ts';
import {
  calibrated,
  type Calibrated,
  type CalibrationRequest,
  type StandardDip,
} from '../../../src/sense/calibrate.ts';
import { probeReading, type ProbeCalibration, type ProbeValue } from '../../../src/sense/probe.ts';
import type { AnalogModule } from '../../../src/sense/probe-module.ts';
import { wallMillis } from '../../../src/time/instant.ts';

/** 5120 µS/cm over 1024 counts: 5 µS/cm a count. */
export const MODULE: AnalogModule = { fullScaleMicrosiemensPerCm: 5120 };
export const WIDE: AnalogModule = { fullScaleMicrosiemensPerCm: 20_480 };
export const AT = wallMillis(1_700_000_000_000);

export const dip = (standard: number, counts: number | readonly number[], celsius = 25): StandardDip => ({
  standardMicrosiemensPerCmAt25: standard,
  counts: typeof counts === 'number' ? [counts, counts, counts, counts, counts] : counts,
  celsius,
});
export const calibrate = (
  dips: CalibrationRequest['dips'],
  before: ProbeCalibration | null = null,
  module = MODULE,
): Calibrated => calibrated(before, { dips, module, at: AT });
export const accepted = (result: Calibrated): Extract<Calibrated, { kind: 'accepted' }> => {
  if (result.kind === 'refused') throw new Error(result.refusal.says);
  return result;
};
export const readIn = (
  calibration: ProbeCalibration,
  counts: number,
  celsius: number,
  module = MODULE,
): ProbeValue => {
  const reading = probeReading({
    module,
    counts: [counts],
    ageSeconds: 0,
    waterCelsius: { quality: 'good', value: celsius, ageSeconds: 0 },
    waterAtProbe: 'seen',
    calibration,
  });
  if (reading.quality !== 'good') throw new Error(reading.why);
  return reading.value;
};
/** The counts that a probe of known cell factor and zero gives in a KCl standard. */
export const countsIn = (
  standard: number,
  celsius: number,
  cell: { factor: number; zero: number },
  module = MODULE,
): number => {
  const toward = kclFactorTo25(celsius);
  const raw = standard / (toward.kind === 'known' ? toward.factor : NaN);
  return ((raw / cell.factor + cell.zero) * 1024) / module.fullScaleMicrosiemensPerCm;
};
