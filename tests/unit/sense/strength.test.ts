import { describe, expect, it } from 'vitest';
import type { Wiring } from '../../../src/farm/farm.ts';
import type { Sample } from '../../../src/ports/sample.ts';
import type { ProbeCalibration, ProbeValue } from '../../../src/sense/probe.ts';
import type { Reading } from '../../../src/sense/reading.ts';
import { absorbed, NO_SENSES } from '../../../src/sense/senses.ts';
import { moduleOf, strength } from '../../../src/sense/strength.ts';
import { second } from '../../support/moments.ts';

type Probe = NonNullable<Wiring['probe']>;
const PROBE: Probe = {
  pin: 'A2',
  fullScaleMicrosiemensPerCm: 4096,
  compensation: 'linear',
  percentPerKelvin: 2,
};
const CALIBRATION: ProbeCalibration = {
  cellFactor: 1,
  zeroMicrosiemensPerCm: 0,
  at: 'unknown',
  points: [],
  module: moduleOf(PROBE),
  earlier: [],
};

/** 4 µS/cm a count. */
const countsOf = (microsiemensPerCm: number): number => microsiemensPerCm / 4;

interface Told {
  readonly counts: readonly number[];
  readonly celsius?: number;
  readonly probe?: Probe;
  readonly calibration?: ProbeCalibration | null;
  /** Since the last counts. */
  readonly later?: number;
}

const readingOf = ({
  counts,
  celsius,
  probe = PROBE,
  calibration = CALIBRATION,
  later = 0,
}: Told): Reading<ProbeValue> => {
  const last = second(counts.length - 1);
  const samples: readonly Sample[] = [
    ...counts.map((one, place): Sample => ({ at: second(place), channel: 'probe', counts: one })),
    ...(celsius === undefined ? [] : [{ at: last, channel: 'water-temperature', celsius } as const]),
  ];
  const now = second(counts.length - 1 + later);
  return strength(absorbed(NO_SENSES, samples, now), probe, calibration, now);
};
const at25 = (told: Told): number => {
  const reading = readingOf(told);
  return reading.quality !== 'absent' && reading.value.compensated
    ? reading.value.millisiemensPerCmAt25
    : NaN;
};

describe('strength by the probe in the tank', () => {
  // A lettuce solution by PHREEQC 3 with phreeqc.dat: 2627.2 µS/cm at 25 °C; 1 % is what 2 %/K leaves of it.
  it.each([
    [15, 2102.3],
    [20, 2361.6],
    [25, 2627.2],
    [30, 2898.0],
  ])('PHREEQC, a lettuce solution: at %d °C it conducts %d µS/cm and is 2.627 mS/cm', (celsius, shown) => {
    const found = at25({ counts: [countsOf(shown)], celsius });
    expect(Math.abs(found / 2.6272 - 1)).toBeLessThanOrEqual(0.01);
  });

  it.each([
    [15, 1.256],
    [20, 1.116],
    [30, 0.903],
  ])('ISO 7888:1985: 500 µS/cm of tap water at %d °C times %d', (celsius, factor) => {
    const probe: Probe = { ...PROBE, compensation: 'natural-water' };
    const found = at25({ counts: [countsOf(500)], celsius, probe });
    expect(Math.abs(found - 0.5 * factor)).toBeLessThanOrEqual(0.00025);
  });

  it.each([
    [15, 1.25],
    [30, 1 / 1.1],
  ])('linear rule with the 2 %%/K of the farm file: at %d °C times %d', (celsius, factor) => {
    expect(at25({ counts: [500], celsius })).toBeCloseTo(2 * factor, 9);
    expect(at25({ counts: [500], celsius, probe: { ...PROBE, percentPerKelvin: 0 } })).toBe(2);
  });
});

describe('what the strength hangs on', () => {
  it('is the median of the last 7 counts: three wild ones out of seven change nothing', () => {
    expect(at25({ counts: [9, 9, 9, 500, 500, 1000, 500, 1000, 500, 1000], celsius: 25 })).toBe(2);
  });

  it('is good for 600 s after the last counts, stale at 601 s', () => {
    expect(readingOf({ counts: [500], celsius: 25, later: 600 })).toMatchObject({
      quality: 'good',
      ageSeconds: 600,
    });
    expect(readingOf({ counts: [500], celsius: 25, later: 601 }).quality).toBe('stale');
  });

  it('is raw conductivity, suspect, while the water thermometer says nothing', () => {
    expect(readingOf({ counts: [500] })).toEqual({
      quality: 'suspect',
      value: { compensated: false, microsiemensPerCm: 2000 },
      ageSeconds: 0,
      why: 'not compensated, no good water temperature: the water thermometer has not spoken',
    });
  });

  it('is suspect by an open water thermometer, without calibration, and by one of another module', () => {
    const other = { ...CALIBRATION, module: { fullScaleMicrosiemensPerCm: 5000 } };
    expect(readingOf({ counts: [500], celsius: -273.15 }).quality).toBe('suspect');
    expect(readingOf({ counts: [500], celsius: 25, calibration: null }).quality).toBe('suspect');
    expect(readingOf({ counts: [500], celsius: 25, calibration: other }).quality).toBe('suspect');
  });

  it('is absent before the probe has spoken, and when it is dry', () => {
    expect(strength(NO_SENSES, PROBE, CALIBRATION, second(0)).quality).toBe('absent');
    expect(readingOf({ counts: [0, 0, 0], celsius: 25 })).toMatchObject({
      quality: 'absent',
      why: 'the probe reads near zero: it is dry, or its cable is off',
    });
  });
});
