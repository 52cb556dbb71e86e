import { describe, expect, it } from 'vitest';
import { NOTHING_LEARNED, returnLagMinutes, usualReturn, withLesson } from '../../../src/verify/learned.ts';
import type { Learned } from '../../../src/verify/learned.ts';

const endOf = (flow: number | null, minutes = 20): Parameters<typeof withLesson>[2] =>
  flow === null ? null : { minutes, litresPerMinute: flow };
const taught = (lags: readonly (number | null)[], flows: readonly (number | null)[] = []): Learned =>
  Array.from({ length: Math.max(lags.length, flows.length) }).reduce<Learned>(
    (learned, _, place) => withLesson(learned, lags[place] ?? null, endOf(flows[place] ?? null)),
    NOTHING_LEARNED,
  );
const times = <Item>(count: number, item: Item): readonly Item[] => Array.from({ length: count }, () => item);

describe('returnLagMinutes', () => {
  it.each([
    ['8 min before any flood was seen', [], 8],
    ['8 min after four floods: a lesson needs five', times(4, 2), 8],
    ['4 min after five floods of 2: half as much again and a minute', times(5, 2), 4],
    ['by the slowest of them', [1, 1, 1, 4, 1], 7],
    ['never under 3 min', times(5, 0.2), 3],
    ['never over 8 min, however slow a flood was', [...times(4, 2), 30], 8],
    ['by the last fifteen: an old slow flood is forgotten', [6, ...times(15, 2)], 4],
    ['and not before: it is one of fifteen', [6, ...times(14, 2)], 8],
    ['from floods that came at the first try only', [...times(4, 2), null, null], 8],
  ])('is %s', (_, lags, minutes) => {
    expect(returnLagMinutes(taught(lags))).toBe(minutes);
  });
});

describe('usualReturn', () => {
  it.each([
    ['the farm file’s 40 L/min before five floods were seen', times(4, 20), 40],
    ['the median of five', [31, 33, 35, 37, 39], 35],
    ['not moved by one glitch of 900 L/min', [33, 35, 900, 34, 36], 35],
    ['not moved by two dry readings', [0, 35, 0, 34, 36], 34],
  ])('is %s', (_, flows, litresPerMinute) => {
    expect(usualReturn(taught([], flows), 40, 20)).toBe(litresPerMinute);
  });

  it('follows a decline to three quarters of the best that was usual, and no further', () => {
    expect(usualReturn(taught([], [...times(15, 40), ...times(7, 33)]), 40, 20)).toBe(40);
    expect(usualReturn(taught([], [...times(15, 40), ...times(8, 33)]), 40, 20)).toBe(33);
    const slow = [...times(15, 40), ...Array.from({ length: 300 }, (_, flood) => 40 - flood / 10)];
    expect(usualReturn(taught([], slow), 40, 20)).toBe(30);
  });

  it('rises again with the flow of a cleaned filter, and one glitch of 900 L/min makes no best', () => {
    expect(usualReturn(taught([], [...times(15, 20), 900, ...times(8, 38)]), 40, 20)).toBe(38);
    expect(usualReturn(taught([], [...times(15, 20), 900, ...times(15, 16)]), 40, 20)).toBe(16);
  });

  /** Five whole floods, then some of ten minutes, as an interlock shortens them. */
  const shortened = (count: number, flow: number): Learned =>
    times(count, flow).reduce<Learned>(
      (learned, litresPerMinute) => withLesson(learned, null, { minutes: 10.4, litresPerMinute }),
      taught([], times(5, 40)),
    );

  it('is three quarters of that of whole floods for one of ten minutes, until five as short were seen', () => {
    expect(usualReturn(shortened(0, 0), 50, 10)).toBe(30);
    expect(usualReturn(shortened(4, 34), 50, 10)).toBe(30);
    expect(usualReturn(shortened(5, 34), 50, 10)).toBe(34);
    expect(usualReturn(shortened(5, 20), 50, 10)).toBe(30);
    expect(usualReturn(NOTHING_LEARNED, 50, 10)).toBe(50);
  });

  it('is of all floods alike from 15 min on', () => {
    expect(usualReturn(shortened(6, 34), 50, 15)).toBe(34);
    expect(usualReturn(shortened(4, 34), 50, 15)).toBe(40);
    expect(usualReturn(shortened(4, 34), 50, 14.9)).toBe(30);
  });
});
