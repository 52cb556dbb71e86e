import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pulsesPerMinute, withPulse, type Pulses } from '../../../src/sense/pulse-rate.ts';
import { second } from '../../support/moments.ts';
import { between } from '../../support/between.ts';

const pulsesAt = (seconds: readonly number[]): Pulses =>
  seconds.reduce<Pulses>((pulses, at) => withPulse(pulses, second(at)), []);
const rateAt = (now: number, ...seconds: readonly number[]): number =>
  pulsesPerMinute(pulsesAt(seconds), second(now));

describe('the rate of pulses', () => {
  it('is 0 before the second pulse, and with two pulses of one moment at that moment', () => {
    expect(rateAt(0)).toBe(0);
    expect(rateAt(1, 0)).toBe(0);
    expect(rateAt(0, 0, 0)).toBe(0);
  });

  it('is 60 a minute for one each second, by whole intervals, wherever one looks between two', () => {
    for (const late of [0, 0.1, 0.5, 1]) expect(rateAt(3 + late, 0, 1, 2, 3)).toBeCloseTo(60, 9);
  });

  it('falls while the next pulse is overdue: three intervals of 1 s and a pause of 9 s are 3 in 12 s', () => {
    expect(rateAt(12, 0, 1, 2, 3)).toBeCloseTo(15, 9);
  });

  it('is 0 when fewer than two pulses came within 30 s', () => {
    expect(rateAt(30, 0, 1)).toBeCloseTo(2, 9);
    expect(rateAt(31, 0, 1)).toBe(0);
  });

  it('rises at once: after a minute of silence two pulses 0.5 s apart are 120 a minute', () => {
    expect(rateAt(60.5, 0, 60, 60.5)).toBeCloseTo(120, 9);
  });

  it('keeps the last 64 pulses and is exact at 200 a second', () => {
    const many = pulsesAt(Array.from({ length: 1000 }, (_, place) => place / 200));
    expect(many).toHaveLength(64);
    expect(pulsesPerMinute(many, second(999 / 200))).toBeCloseTo(12_000, 6);
  });

  it('is exact at any rate from 4.1 to 12,000 a minute that lasts, at any moment before the next pulse', () => {
    fc.assert(
      fc.property(
        between(4.1, 12_000),
        between(0, 0.99),
        fc.integer({ min: 3, max: 200 }),
        (perMinute, share, count) => {
          const seconds = 60 / perMinute;
          // Two pulses must lie within the 30 s that are looked at.
          fc.pre(seconds * (1 + share) <= 30);
          const pulses = pulsesAt(Array.from({ length: count }, (_, place) => place * seconds));
          const rate = pulsesPerMinute(pulses, second((count - 1 + share) * seconds));
          expect(Math.abs(rate / perMinute - 1)).toBeLessThan(1e-6);
        },
      ),
    );
  });

  it('is 0 from 30 s after the last pulse on, whatever came before', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 0, max: 60_000 }), { maxLength: 80 }),
        fc.integer({ min: 1, max: 40_000 }),
        (moments, wait) => {
          const pulses = pulsesAt(moments.toSorted((a, b) => a - b).map((at) => at / 1000));
          const last = (pulses.at(-1) ?? 0) / 1000;
          expect(pulsesPerMinute(pulses, second(last + 30 + wait / 1000))).toBe(0);
        },
      ),
    );
  });
});
