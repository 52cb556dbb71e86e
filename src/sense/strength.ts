import type { Wiring } from '../farm/farm.ts';
import { secondsBetween, type MonotonicMillis } from '../time/instant.ts';
import type { ProbeModule } from './probe-module.ts';
import { probeReading, type ProbeCalibration, type ProbeValue } from './probe.ts';
import type { Reading } from './reading.ts';
import { waterCelsius, type Senses } from './senses.ts';

/** The probe's module as wired to the board's 10-bit converter, or the bare cell between its pins. */
export const moduleOf = (wiring: NonNullable<Wiring['probe']>): ProbeModule =>
  'drivenBy' in wiring
    ? { seriesOhms: wiring.seriesOhms, cellPerCm: wiring.cellPerCm }
    : { fullScaleMicrosiemensPerCm: wiring.fullScaleMicrosiemensPerCm };

/** Strength by the probe in the tank, from its last counts and the water thermometer beside it. */
export const strength = (
  senses: Senses,
  wiring: NonNullable<Wiring['probe']>,
  calibration: ProbeCalibration | null,
  now: MonotonicMillis,
): Reading<ProbeValue> => {
  const last = senses.last.probe;
  return probeReading({
    module: moduleOf(wiring),
    counts: senses.probeCounts,
    ageSeconds: last === undefined ? Infinity : secondsBetween(last.at, now),
    waterCelsius: waterCelsius(senses, now),
    waterAtProbe: 'unknown',
    calibration,
    compensation:
      wiring.compensation === 'linear'
        ? { kind: 'linear', percentPerKelvin: wiring.percentPerKelvin }
        : { kind: 'natural-water' },
  });
};
