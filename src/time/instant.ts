import type { Seconds } from '../units/quantity.ts';

declare const kind: unique symbol;

/** Milliseconds on a counter that only runs forward; its zero means nothing. For every span. */
export type MonotonicMillis = number & { readonly [kind]: 'monotonic' };
/** Milliseconds since 1970-01-01T00:00Z as the wall clock has it; may step. For the day plan only. */
export type WallMillis = number & { readonly [kind]: 'wall' };

/** Both clocks read at one moment. `wall` is `unknown` when the clock cannot be believed. */
export interface Now {
  readonly monotonic: MonotonicMillis;
  readonly wall: WallMillis | 'unknown';
}

const MILLIS_PER_SECOND = 1000;
export const MILLIS_PER_MINUTE = 60_000;

/** @throws RangeError when the value is not finite */
export const monotonicMillis = (value: number): MonotonicMillis => {
  if (!Number.isFinite(value)) throw new RangeError(`expected finite milliseconds, found ${value}`);
  return value as MonotonicMillis;
};

/** @throws RangeError when the value is not finite */
export const wallMillis = (value: number): WallMillis => {
  if (!Number.isFinite(value)) throw new RangeError(`expected finite milliseconds, found ${value}`);
  return value as WallMillis;
};

export const secondsBetween = (from: MonotonicMillis, to: MonotonicMillis): Seconds =>
  ((to - from) / MILLIS_PER_SECOND) as Seconds;
export const minutesBetween = (from: MonotonicMillis, to: MonotonicMillis): number =>
  (to - from) / MILLIS_PER_MINUTE;
export const afterSeconds = (from: MonotonicMillis, span: number): MonotonicMillis =>
  (from + span * MILLIS_PER_SECOND) as MonotonicMillis;
export const afterMinutes = (from: MonotonicMillis, span: number): MonotonicMillis =>
  (from + span * MILLIS_PER_MINUTE) as MonotonicMillis;
export const wallAfterMinutes = (from: WallMillis, span: number): WallMillis =>
  (from + span * MILLIS_PER_MINUTE) as WallMillis;
