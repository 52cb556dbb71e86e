import { describe, expect, it } from 'vitest';
import { EARLIER_KEPT, type CalibrationRequest } from '../../../src/sense/calibrate.ts';
import type { AnalogModule } from '../../../src/sense/probe-module.ts';
import { accepted, AT, calibrate, dip, MODULE, WIDE } from './dips.ts';

describe('a calibration that is accepted', () => {
  it('one point: 314 counts (1570 µS/cm) in 1413 at 25 °C make a cell factor of 0.9, zero untouched', () => {
    const { calibration, driftPercent, note } = accepted(calibrate([dip(1413, 314)]));
    expect(calibration).toEqual({
      cellFactor: 0.9,
      zeroMicrosiemensPerCm: 0,
      at: AT,
      points: [{ standardMicrosiemensPerCmAt25: 1413, counts: 314, celsius: 25 }],
      module: MODULE,
      earlier: [],
    });
    expect([driftPercent, note]).toEqual([null, null]);
  });

  // Slope (4000 − 500)/(3300 − 500) = 1.25, zero 500 − 500/1.25 = 100 µS/cm.
  it.each([[[dip(500, 100), dip(4000, 660)]], [[dip(4000, 660), dip(500, 100)]]] as [
    CalibrationRequest['dips'],
  ][])(
    'two points, 500 and 4000 µS/cm, in either order: cell factor 1.25 and zero 100 µS/cm, weaker first in the book',
    (dips) => {
      const { calibration } = accepted(calibrate(dips));
      expect(calibration.cellFactor).toBeCloseTo(1.25, 12);
      expect(calibration.zeroMicrosiemensPerCm).toBeCloseTo(100, 9);
      expect(calibration.points.map((point) => point.standardMicrosiemensPerCmAt25)).toEqual([500, 4000]);
    },
  );

  it('one point later keeps the zero of 100 µS/cm that two points had found', () => {
    const first = accepted(calibrate([dip(500, 100), dip(4000, 660)])).calibration;
    const { calibration } = accepted(calibrate([dip(1413, 302.6)], first));
    expect(calibration.zeroMicrosiemensPerCm).toBe(first.zeroMicrosiemensPerCm);
    expect(calibration.cellFactor).toBeCloseTo(1, 9);
  });

  it.each([
    ['84 and 1413', MODULE, [dip(84, 17), dip(1413, 283)]],
    ['1413 and 12 880', WIDE, [dip(1413, 71), dip(12_880, 644)]],
    ['a typed 2765', MODULE, [dip(2765, 553)]],
  ] as [string, AnalogModule, CalibrationRequest['dips']][])('takes the standards %s', (_, module, dips) => {
    expect(Math.abs(accepted(calibrate(dips, null, module)).calibration.cellFactor - 1)).toBeLessThan(0.01);
  });

  // CRC Handbook, 0.01 mol/kg KCl: 1141.45/1408.23 at 15 °C. A nominal probe must come out nominal in the cold too.
  it('CRC Handbook KCl: a nominal probe in 1408.23 at 15 °C, 1141.45 µS/cm, has the cell factor 1', () => {
    const { calibration } = accepted(calibrate([dip(1408.23, 1141.45 / 5, 15)]));
    expect(calibration.cellFactor).toBeCloseTo(1, 12);
  });

  // CRC Handbook KCl: 500 at 40 °C is 650 µS/cm and 800 at 5 °C is 506 µS/cm, so the stronger gives the weaker signal.
  it('CRC Handbook KCl: a warm 500 and a cold 800 are not taken for swapped bottles', () => {
    const warm = (500 * 1831.27) / 1408.23;
    const cold = (800 * 890.96) / 1408.23;
    expect(warm).toBeGreaterThan(cold);
    const { calibration } = accepted(calibrate([dip(500, warm / 5, 40), dip(800, cold / 5, 5)]));
    expect(calibration.cellFactor).toBeCloseTo(1, 9);
  });

  it('the limits themselves are taken: cell 0.5 and 2, 5 and 40 °C, 1 % of spread, 100 and 8 counts, a factor of 1.5', () => {
    expect(accepted(calibrate([dip(1000, 400)])).calibration.cellFactor).toBe(0.5);
    expect(accepted(calibrate([dip(1000, 100)])).calibration.cellFactor).toBe(2);
    for (const celsius of [5, 40]) accepted(calibrate([dip(1413, 283, celsius)]));
    for (const standard of [500, 5100]) accepted(calibrate([dip(standard, standard / 5)]));
    accepted(calibrate([dip(5120, 1020)]));
    accepted(calibrate([dip(160, 8), dip(12_880, 644)], null, WIDE));
    accepted(calibrate([dip(1000, 200), dip(1500, 300)]));
    accepted(calibrate([dip(2000, [398, 399, 400, 401, 402])]));
    accepted(calibrate([dip(84, [17, 18, 17, 18, 17]), dip(1413, 283)]));
  });
});

describe('drift and history', () => {
  const first = accepted(calibrate([dip(1413, 282.6)])).calibration;

  // The old factor 1 reads 5 µS/cm a count, so the drift is 5·counts/1413 − 1.
  it.each([
    [282.6 * 0.95, -5, null],
    [282.6 * 1.0999, 9.99, null],
    [282.6 * 1.1001, 10.01, 'The probe had read 10 % high'],
    [282.6 * 1.2, 20, 'The probe had read 20 % high'],
    [282.6 * 0.8, -20, 'The probe had read 20 % low'],
  ])('%d counts in 1413 after 282.6: the old calibration is off by %d %%', (counts, percent, note) => {
    const result = accepted(calibrate([dip(1413, counts)], first));
    expect(result.driftPercent).toBeCloseTo(percent, 9);
    expect(result.note?.slice(0, note?.length) ?? null).toBe(note);
  });

  it('of two points the drift is that in the stronger one', () => {
    // 84 is read 1 count high, 1413 by 4 %.
    const result = accepted(calibrate([dip(84, 17.8), dip(1413, 282.6 * 1.04)], first));
    expect(result.driftPercent).toBeCloseTo(4, 9);
  });

  it('keeps the old ones, newest first, and the last 52 of 60', () => {
    let calibration = first;
    for (let turn = 1; turn <= 60; turn += 1) {
      calibration = accepted(calibrate([dip(1413, 282.6 + turn)], calibration)).calibration;
    }
    expect(EARLIER_KEPT).toBe(52);
    const counts = calibration.earlier.map((fit) => fit.points[0]!.counts - 282.6);
    expect(counts.map(Math.round)).toEqual(Array.from({ length: 52 }, (_, place) => 59 - place));
    expect(calibration.earlier.some((fit) => 'earlier' in fit)).toBe(false);
  });

  it('a module of another range starts anew: no drift, no old zero, the old one in the history', () => {
    const old = accepted(calibrate([dip(500, 100), dip(4000, 660)])).calibration;
    const result = accepted(calibrate([dip(12_880, 644)], old, WIDE));
    expect([result.driftPercent, result.calibration.zeroMicrosiemensPerCm]).toEqual([null, 0]);
    expect(result.calibration.earlier).toHaveLength(1);
  });
});
