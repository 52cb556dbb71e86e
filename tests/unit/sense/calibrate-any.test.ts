import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { kclFactorTo25 } from '../../../src/physics/conductivity.ts';
import { accepted, calibrate, countsIn, dip, readIn } from './dips.ts';
import { between } from '../../support/between.ts';

describe('any probe', () => {
  const real = (min: number, max: number): fc.Arbitrary<number> => between(min, max);
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
