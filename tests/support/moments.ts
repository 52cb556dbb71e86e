import {
  monotonicMillis,
  wallMillis,
  type MonotonicMillis,
  type WallMillis,
} from '../../src/time/instant.ts';
import type { Reading } from '../../src/sense/reading.ts';

/** A monotonic moment in minutes; its zero means nothing. */
export const minute = (minutes: number): MonotonicMillis => monotonicMillis(minutes * 60_000);
export const second = (seconds: number): MonotonicMillis => monotonicMillis(seconds * 1000);
/** `2026-07-14T12:00Z` */
export const utc = (text: string): WallMillis => wallMillis(Date.parse(text));

export const good = <Value>(value: Value): Reading<Value> => ({ quality: 'good', value, ageSeconds: 0 });
export const stale = <Value>(value: Value): Reading<Value> => ({
  quality: 'stale',
  value,
  ageSeconds: 1000,
  why: 'old',
});
export const suspect = <Value>(value: Value): Reading<Value> => ({
  quality: 'suspect',
  value,
  ageSeconds: 0,
  why: 'jumped',
});
export const absent: Reading<never> = { quality: 'absent', why: 'silent' };
