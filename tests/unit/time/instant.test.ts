import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  afterMinutes,
  afterSeconds,
  minutesBetween,
  monotonicMillis,
  secondsBetween,
  wallAfterMinutes,
  wallMillis,
} from '../../../src/time/instant.ts';

describe('making an instant', () => {
  it.each([Number.NaN, Infinity, -Infinity])('refuses %d on either clock', (value) => {
    expect(() => monotonicMillis(value)).toThrow(`expected finite milliseconds, found ${value}`);
    expect(() => wallMillis(value)).toThrow(`expected finite milliseconds, found ${value}`);
  });

  it('keeps fractions of a millisecond and counts beyond 2^32', () => {
    expect(monotonicMillis(0.125)).toBe(0.125);
    expect(monotonicMillis(2 ** 32 + 1)).toBe(4_294_967_297);
  });
});

describe('spans', () => {
  const from = monotonicMillis(1000);

  it('90 000 ms later is 90 s and 1.5 min later, and the other way round below zero', () => {
    const to = monotonicMillis(91_000);
    expect([secondsBetween(from, to), minutesBetween(from, to)]).toEqual([90, 1.5]);
    expect([secondsBetween(to, from), minutesBetween(to, from)]).toEqual([-90, -1.5]);
  });

  it('2 s, 2 min and −2 min after 1000 ms', () => {
    expect(afterSeconds(from, 2)).toBe(3000);
    expect(afterMinutes(from, 2)).toBe(121_000);
    expect(afterMinutes(from, -2)).toBe(-119_000);
    expect(wallAfterMinutes(wallMillis(Date.UTC(2026, 11, 31, 23, 59)), 2)).toBe(Date.UTC(2027, 0, 1, 0, 1));
  });

  it('a span added is the span found, over ten years of whole milliseconds', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 3e11 }), fc.integer({ min: 0, max: 100_000 }), (start, span) => {
        const instant = monotonicMillis(start);
        expect(minutesBetween(instant, afterMinutes(instant, span))).toBe(span);
        expect(secondsBetween(instant, afterSeconds(instant, span))).toBe(span);
      }),
    );
  });
});
