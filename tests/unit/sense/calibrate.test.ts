import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { kclFactorTo25 } from '../../../src/physics/conductivity.ts';
import {
  calibrated,
  EARLIER_KEPT,
  type Calibrated,
  type CalibrationRequest,
  type StandardDip,
} from '../../../src/sense/calibrate.ts';
import {
  probeReading,
  type ProbeCalibration,
  type ProbeModule,
  type ProbeValue,
} from '../../../src/sense/probe.ts';
import { wallMillis } from '../../../src/time/instant.ts';

/** 5120 µS/cm over 1024 counts: 5 µS/cm a count. */
const MODULE: ProbeModule = { fullScaleMicrosiemensPerCm: 5120 };
const WIDE: ProbeModule = { fullScaleMicrosiemensPerCm: 20_480 };
const AT = wallMillis(1_700_000_000_000);

const dip = (standard: number, counts: number | readonly number[], celsius = 25): StandardDip => ({
  standardMicrosiemensPerCmAt25: standard,
  counts: typeof counts === 'number' ? [counts, counts, counts, counts, counts] : counts,
  celsius,
});
const calibrate = (
  dips: CalibrationRequest['dips'],
  before: ProbeCalibration | null = null,
  module = MODULE,
): Calibrated => calibrated(before, { dips, module, at: AT });
const accepted = (result: Calibrated): Extract<Calibrated, { kind: 'accepted' }> => {
  if (result.kind === 'refused') throw new Error(result.refusal.says);
  return result;
};
const readIn = (
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
const countsIn = (
  standard: number,
  celsius: number,
  cell: { factor: number; zero: number },
  module = MODULE,
): number => {
  const toward = kclFactorTo25(celsius);
  const raw = standard / (toward.kind === 'known' ? toward.factor : NaN);
  return ((raw / cell.factor + cell.zero) * 1024) / module.fullScaleMicrosiemensPerCm;
};

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
  ] as [string, ProbeModule, CalibrationRequest['dips']][])('takes the standards %s', (_, module, dips) => {
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

describe('a calibration that is refused', () => {
  const refusals: [string, string, CalibrationRequest['dips'], ProbeModule?][] = [
    ['1.413, typed in mS/cm', 'standard-out-of-range', [dip(1.413, 283)]],
    ['a standard above the module’s range, 12 880 of 5120', 'standard-out-of-range', [dip(12_880, 1000)]],
    ['84 alone on 5 µS/cm a count, 17 counts', 'standard-out-of-range', [dip(84, 17)]],
    ['159 on 20 µS/cm a count, 8 counts', 'standard-out-of-range', [dip(159, 8), dip(12_880, 644)], WIDE],
    ['84 on 20 µS/cm a count, 4 counts', 'standard-out-of-range', [dip(84, 4), dip(12_880, 644)], WIDE],
    ['49 µS/cm', 'standard-out-of-range', [dip(49, 10), dip(1413, 283)]],
    ['a standard that is no number', 'standard-out-of-range', [dip(NaN, 283)]],
    ['4.9 °C', 'temperature-out-of-range', [dip(1413, 283, 4.9)]],
    ['40.1 °C', 'temperature-out-of-range', [dip(1413, 283, 40.1)]],
    ['a temperature that is no number', 'temperature-out-of-range', [dip(1413, 283, NaN)]],
    ['a second cup at 4 °C', 'temperature-out-of-range', [dip(500, 100), dip(1413, 283, 4)]],
    ['4 counts', 'too-few-counts', [dip(1413, [283, 283, 283, 283])]],
    ['no counts', 'too-few-counts', [dip(1413, [])]],
    ['a count of 1024', 'impossible-count', [dip(1413, [283, 283, 1024, 283, 283])]],
    ['a count that is no number', 'impossible-count', [dip(1413, [283, 283, NaN, 283, 283])]],
    ['2 counts', 'dry', [dip(1413, 2)]],
    ['1021 counts', 'at-top', [dip(4000, 1021)]],
    ['counts that spread by 1.01 %', 'unstable', [dip(2000, [400, 400, 400, 400, 404.05])]],
    ['17 to 19 counts', 'unstable', [dip(84, [17, 17, 19, 17, 17]), dip(1413, 283)]],
    ['1413 with 2105, a factor of 1.49', 'points-too-close', [dip(1413, 283), dip(2105, 421)]],
    ['the same standard twice', 'points-too-close', [dip(1413, 283), dip(1413, 283)]],
    ['one bottle used twice', 'points-too-close', [dip(500, 283), dip(1413, 283)]],
    ['signals a factor of 1.19 apart', 'points-too-close', [dip(500, 283), dip(1413, 283 * 1.19)]],
    ['signals a factor of 1.21 apart', 'cell-factor-out-of-range', [dip(500, 283), dip(1413, 283 * 1.21)]],
    [
      'signals a factor of 1.19 apart, turned round',
      'points-too-close',
      [dip(500, 283 * 1.19), dip(1413, 283)],
    ],
    ['signals a factor of 1.21 apart, turned round', 'wrong-order', [dip(500, 283 * 1.21), dip(1413, 283)]],
    ['bottles swapped', 'wrong-order', [dip(500, 283), dip(1413, 100)]],
    ['a cell of 0.49', 'cell-factor-out-of-range', [dip(980, 400)]],
    ['a cell of 2.01', 'cell-factor-out-of-range', [dip(1005, 100)]],
    // 505 − 500/1.25 = 105 and 395 − 500·3495/3500 = −104.3; 2 % of 5120 is 102.4.
    ['a zero of 105 µS/cm', 'zero-out-of-range', [dip(500, 101), dip(4000, 661)]],
    ['a zero of −104 µS/cm', 'zero-out-of-range', [dip(500, 79), dip(4000, 778)]],
    // A true 1413 taken for 1000: the slope alone, 1.036, would look well.
    [
      '1000 on the label and 1413 in the bottle',
      'zero-out-of-range',
      [dip(1000, 1413 / 20), dip(12_880, 644)],
      WIDE,
    ],
  ];
  const old = accepted(calibrate([dip(1413, 290)])).calibration;
  const frozen = JSON.stringify(old);

  it.each(refusals)('%s: %s', (_, why, dips, module = MODULE) => {
    for (const before of [old, null]) {
      const result = calibrate(dips, before, module);
      expect(result.kind === 'refused' ? result.refusal.why : 'accepted').toBe(why);
      expect(result.calibration).toBe(before);
    }
    expect(JSON.stringify(old)).toBe(frozen);
  });

  it('says what is wrong and what to do, each in a sentence of its own', () => {
    for (const [, , dips, module = MODULE] of refusals) {
      const result = calibrate(dips, null, module);
      if (result.kind !== 'refused') throw new Error('accepted');
      expect(result.refusal.says).toMatch(/^[A-Z\d].{15,}[.?]$/);
      expect(result.refusal.toDo).toMatch(/^[A-Z].{15,}[.?]$/);
    }
  });

  it.each<[CalibrationRequest['dips'], string]>([
    [[dip(1413, 283, 4.9)], '4.9 °C in the 1413 µS/cm standard; 5 to 40 °C is needed.'],
    [
      [dip(2000, [400, 400, 400, 400, 405])],
      'The counts in the 2000 µS/cm standard spread by 1.3 %; 1 % is the most.',
    ],
    [[dip(980, 400)], 'The cell would be 0.49 times its nominal value; 0.5 to 2 is possible.'],
    [[dip(500, 101), dip(4000, 661)], 'The module would mean 105 µS/cm by nothing; 102 is the most.'],
  ])('%j is told with its number', (dips, says) => {
    const result = calibrate(dips);
    expect(result.kind === 'refused' && result.refusal.says).toBe(says);
  });

  it('names the standards that fit the module: 500 to 5120 µS/cm alone, from 50 as the weaker of two', () => {
    const result = calibrate([dip(84, 17)]);
    expect(result.kind === 'refused' && result.refusal.says).toBe(
      'This module needs a standard of 500 to 5120 µS/cm; a second, weaker one may go down to 50.',
    );
  });
});

describe('any probe', () => {
  const real = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });
  const cell = fc.record({ factor: real(0.6, 1.9), zero: real(-100, 100) });
  const close = (actual: number, expected: number): void => {
    expect(Math.abs(actual / expected - 1)).toBeLessThan(1e-9);
  };

  it('after one point reads that standard as itself: strength at 25 °C, raw µS/cm at 5–40 °C', () => {
    fc.assert(
      fc.property(real(0.6, 1.9), real(500, 2000), real(5, 40), (factor, standard, celsius) => {
        const counts = countsIn(standard, celsius, { factor, zero: 0 });
        const { calibration } = accepted(calibrate([dip(standard, counts, celsius)]));
        close(calibration.cellFactor, factor);
        const toward = kclFactorTo25(celsius);
        close(
          readIn(calibration, counts, celsius).microsiemensPerCm,
          standard / (toward.kind === 'known' ? toward.factor : NaN),
        );
        const warm = readIn(calibration, countsIn(standard, 25, { factor, zero: 0 }), 25);
        close(warm.compensated ? 1000 * warm.millisiemensPerCmAt25 : NaN, standard);
      }),
    );
  });

  it('after two points, each at its own 5–40 °C, has its true factor and zero and reads anything between', () => {
    fc.assert(
      fc.property(
        cell,
        real(500, 700),
        real(1800, 2200),
        real(5, 40),
        real(5, 40),
        (truth, weak, strong, one, other) => {
          const dips = [
            dip(weak, countsIn(weak, one, truth), one),
            dip(strong, countsIn(strong, other, truth), other),
          ] as const;
          // Two cups whose conductivities nearly meet say nothing of the slope.
          fc.pre(Math.abs(dips[0].counts[0]! - dips[1].counts[0]!) > 20);
          const { calibration } = accepted(calibrate(dips));
          close(calibration.cellFactor, truth.factor);
          expect(Math.abs(calibration.zeroMicrosiemensPerCm - truth.zero)).toBeLessThan(1e-6);
          const value = readIn(calibration, countsIn(1413, 25, truth), 25);
          close(value.compensated ? value.millisiemensPerCmAt25 : NaN, 1.413);
        },
      ),
    );
  });

  it('any numbers at all: an accepted cell factor is 0.5–2 and its zero within 2 %, a refusal keeps the old one', () => {
    const old = accepted(calibrate([dip(1413, 290)])).calibration;
    const wild = fc.oneof(fc.double(), real(0, 1100), real(50, 5000));
    const wildDip = fc.record({
      standardMicrosiemensPerCmAt25: wild,
      counts: fc.array(wild, { maxLength: 8 }),
      celsius: fc.oneof(real(0, 45), fc.double()),
    });
    // Near enough to the truth that many are taken, far enough that many are not.
    const likelyDip = fc
      .tuple(real(300, 4000), real(0.4, 2.5), real(5, 40))
      .map(([standard, factor, celsius]) => dip(standard, Math.min(standard / factor / 5, 1023), celsius));
    const anyDip = fc.oneof({ weight: 1, arbitrary: wildDip }, { weight: 4, arbitrary: likelyDip });
    const dips = fc.oneof(fc.tuple(anyDip), fc.tuple(anyDip, anyDip));
    let takenCount = 0;
    fc.assert(
      fc.property(dips, (tried) => {
        const result = calibrate(tried, old);
        if (result.kind === 'refused') {
          expect(result.calibration).toBe(old);
          return;
        }
        takenCount += 1;
        expect(result.calibration.cellFactor).toBeGreaterThanOrEqual(0.5);
        expect(result.calibration.cellFactor).toBeLessThanOrEqual(2);
        expect(Math.abs(result.calibration.zeroMicrosiemensPerCm)).toBeLessThanOrEqual(102.4);
        expect(result.calibration.earlier).toHaveLength(1);
      }),
      { numRuns: 5000 },
    );
    expect(takenCount).toBeGreaterThan(100);
    expect(takenCount).toBeLessThan(4900);
  });
});
