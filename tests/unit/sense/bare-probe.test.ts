import { describe, expect, it } from 'vitest';
import { probeCounts } from '../../../sim/board/encode.ts';
import { calibrated } from '../../../src/sense/calibrate.ts';
import {
  isAtTop,
  isCount,
  isSameModule,
  isShorted,
  signalMicrosiemensPerCm,
  strongestMicrosiemensPerCm,
} from '../../../src/sense/probe-module.ts';
import { belongsTo, probeReading, type ProbeValue } from '../../../src/sense/probe.ts';
import type { Reading } from '../../../src/sense/reading.ts';
import { moduleOf } from '../../../src/sense/strength.ts';
import { good } from '../../support/moments.ts';

/** A cell of K = 1 behind 1 kΩ, as the farm file has it by default. */
const PROBE = {
  pin: 'A2',
  drivenBy: [11, 12],
  seriesOhms: 1000,
  cellPerCm: 1,
  compensation: 'linear',
  percentPerKelvin: 2,
} as const;
const CELL = moduleOf(PROBE);
/** Counts of a divider of 1 kΩ and so many ohms; the formula of docs/board-protocol.md, Probe. */
const countsBehind = (cellOhms: number, seriesOhms = 1000): number =>
  (1023 * seriesOhms) / (seriesOhms + cellOhms);

const reading = (counts: number): Reading<ProbeValue> =>
  probeReading({
    module: CELL,
    counts: [counts],
    ageSeconds: 0,
    waterCelsius: good(25),
    waterAtProbe: 'seen',
    calibration: {
      cellFactor: 1,
      zeroMicrosiemensPerCm: 0,
      at: 'unknown',
      points: [],
      module: CELL,
      earlier: [],
    },
  });

describe('a bare cell driven by the board', () => {
  // By the definition of the cell constant, R = K / conductivity: K = 1 in 2 mS/cm is 500 Ω.
  it.each([
    [500, 1000, 1, 2000],
    [1000, 1000, 1, 1000],
    [10_000, 1000, 1, 100],
    [500, 470, 1, 2000],
    [50, 1000, 0.1, 2000],
    [5000, 10_000, 10, 2000],
  ])('of %d Ω behind %d Ω with K = %d means %d µS/cm', (cellOhms, seriesOhms, cellPerCm, microsiemens) => {
    const counts = countsBehind(cellOhms, seriesOhms);
    expect(signalMicrosiemensPerCm(counts, { seriesOhms, cellPerCm })).toBeCloseTo(microsiemens, 6);
  });

  it('gives 682 counts in 2 mS/cm, in the shed and back again', () => {
    expect(countsBehind(500)).toBeCloseTo(682, 9);
    expect(probeCounts(2, 25, PROBE)).toBeCloseTo(682, 9);
    expect(signalMicrosiemensPerCm(probeCounts(1.6, 31, PROBE), CELL)).toBeCloseTo(1600 * 1.12, 6);
  });

  it('reads as 0 counts in no salts at all, and never above 1023', () => {
    expect(probeCounts(0, 25, PROBE)).toBe(0);
    expect(probeCounts(1e9, 25, PROBE)).toBeLessThanOrEqual(1023);
  });

  it('reads 2 mS/cm at 682 counts, good', () => {
    expect(reading(682)).toMatchObject({ quality: 'good', value: { millisiemensPerCmAt25: 2 } });
  });

  it('is absent when it is open, dry or its cable is off: 0 and 40 counts, 41 µS/cm', () => {
    for (const counts of [0, 40]) {
      expect(reading(counts)).toMatchObject({
        quality: 'absent',
        why: expect.stringMatching(/dry, or its cable is off/) as unknown,
      });
    }
  });

  it('is absent when it is shorted, from 1021 counts, and says so', () => {
    expect([1020, 1021, 1023].map((counts) => isShorted(counts, CELL))).toEqual([false, true, true]);
    expect(reading(1023)).toEqual({
      quality: 'absent',
      why: 'the bare probe reads as shorted: its tips touch, or its cable does',
    });
  });

  it('is suspect above 981 counts, where two counts of the converter are more than 5 %', () => {
    expect([981, 982].map((counts) => isAtTop(counts, CELL))).toEqual([false, true]);
    const wrong = signalMicrosiemensPerCm(984, CELL) / signalMicrosiemensPerCm(982, CELL) - 1;
    expect(wrong).toBeGreaterThan(0.05);
    expect(reading(990)).toMatchObject({
      quality: 'suspect',
      why: 'the signal is at its top: the solution is at least this strong',
    });
    expect(strongestMicrosiemensPerCm(CELL)).toBeCloseTo((1000 * 981) / 42, 6);
  });

  it('takes counts up to 1023 and no more', () => {
    expect([-1, 0, 1023, 1023.5, NaN].map((count) => isCount(count, CELL))).toEqual([
      false,
      true,
      true,
      false,
      false,
    ]);
  });
});

describe('the calibration of a bare cell', () => {
  const dip = (microsiemens: number, factor: number): Parameters<typeof calibrated>[1]['dips'][0] => ({
    standardMicrosiemensPerCmAt25: microsiemens,
    counts: Array.from({ length: 7 }, () => countsBehind(1e6 / (microsiemens / factor))),
    celsius: 25,
  });

  it('of true K = 1.1 finds the factor 1.1 in 1413 µS/cm', () => {
    const found = calibrated(null, { dips: [dip(1413, 1.1)], module: CELL, at: 'unknown' });
    expect(found.kind).toBe('accepted');
    expect(found.calibration?.cellFactor).toBeCloseTo(1.1, 3);
  });

  it('with two standards, 447 and 2764, finds the factor and a zero of less than 1 µS/cm', () => {
    const found = calibrated(null, { dips: [dip(2764, 0.9), dip(447, 0.9)], module: CELL, at: 'unknown' });
    expect(found.calibration?.cellFactor).toBeCloseTo(0.9, 3);
    expect(Math.abs(found.calibration!.zeroMicrosiemensPerCm)).toBeLessThan(1);
  });

  it('refuses 111 900 µS/cm, which 1 kΩ cannot tell from a short', () => {
    const found = calibrated(null, { dips: [dip(111_900, 1)], module: CELL, at: 'unknown' });
    expect(found).toMatchObject({ kind: 'refused', refusal: { why: 'standard-out-of-range' } });
  });

  it('belongs to this cell and resistor, and to no module', () => {
    const other = { seriesOhms: 470, cellPerCm: 1 };
    const module = { fullScaleMicrosiemensPerCm: 5000 };
    expect([CELL, other, module].map((one) => isSameModule(CELL, one))).toEqual([true, false, false]);
    const fit = { cellFactor: 1, zeroMicrosiemensPerCm: 0, at: 'unknown', points: [], module: CELL } as const;
    expect([CELL, { ...CELL, cellPerCm: 0.1 }, module].map((one) => belongsTo(fit, one))).toEqual([
      true,
      false,
      false,
    ]);
    expect(isSameModule(module, CELL)).toBe(false);
  });
});
