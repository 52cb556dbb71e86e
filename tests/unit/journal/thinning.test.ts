import { describe, expect, it } from 'vitest';
import { NOTHING_KEPT, thin } from '../../../src/journal/thinning.ts';
import type { Entry } from '../../../src/journal/entry.ts';
import { monotonicMillis } from '../../../src/time/instant.ts';

type ReadingEntry = Extract<Entry, { kind: 'reading' }>;

/** How many of the readings, one a second, are kept. */
const keptOf = (seconds: number, at: (second: number) => Partial<ReadingEntry>): readonly number[] => {
  let kept = NOTHING_KEPT;
  const seen: number[] = [];
  for (let second = 0; second < seconds; second += 1) {
    const next = thin(kept, {
      kind: 'reading',
      channel: 'air',
      quality: 'good',
      value: 20,
      unit: '°C',
      wall: 'unknown',
      at: monotonicMillis(second * 1000),
      ...at(second),
    });
    kept = next.kept;
    if (next.keeps) seen.push(second);
  }
  return seen;
};

describe('readings are thinned', () => {
  it('to one a minute where a temperature changes every second', () => {
    expect(keptOf(300, (second) => ({ value: 20 + second / 100 }))).toEqual([0, 60, 120, 180, 240]);
  });

  it('but keep the very second in which a contact changes', () => {
    expect(keptOf(100, (second) => ({ channel: 'float', value: second >= 17 && second < 42 }))).toEqual([
      0, 17, 42, 60,
    ]);
  });

  it('and the very second in which a value is no longer believed', () => {
    expect(keptOf(60, (second) => ({ quality: second >= 30 ? 'suspect' : 'good' }))).toEqual([0, 30]);
  });

  it('and at most 11 a minute of a contact that chatters once a second', () => {
    expect(keptOf(600, (second) => ({ value: second % 2 === 0 })).length).toBe(110);
  });

  it('each channel by itself', () => {
    expect(keptOf(120, (second) => ({ channel: second % 2 === 0 ? 'a' : 'b' }))).toEqual([0, 1, 60, 61]);
  });

  it('and a defect that makes up a channel a second fills no memory: 200 are kept', () => {
    expect(keptOf(1000, (second) => ({ channel: String(second) })).length).toBe(200);
  });
});
