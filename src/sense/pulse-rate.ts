import { secondsBetween, type MonotonicMillis } from '../time/instant.ts';

/** A flow so small that pulses come further apart than this is told as none. */
const WINDOW_SECONDS = 30;
/** Enough for a steady rate; more would only smooth what should be seen at once. */
const EDGES_KEPT = 64;

/** When the meter last gave its pulses, oldest first. */
export type Pulses = readonly MonotonicMillis[];

export const withPulse = (pulses: Pulses, at: MonotonicMillis): Pulses => [...pulses, at].slice(-EDGES_KEPT);

/**
 * Pulses a minute, by the time that whole intervals took: exact at any rate that lasts, where counting pulses
 * in a window would be one off. A pause longer than the intervals before it counts as one that is not over.
 */
export const pulsesPerMinute = (pulses: Pulses, now: MonotonicMillis): number => {
  const recent = pulses.filter((at) => secondsBetween(at, now) <= WINDOW_SECONDS);
  const [first, last] = [recent[0], recent.at(-1)];
  if (first === undefined || last === undefined || recent.length < 2) return 0;
  const intervals = recent.length - 1;
  const span = secondsBetween(first, last);
  const pause = secondsBetween(last, now);
  const seconds = pause > span / intervals ? span + pause : span;
  return seconds > 0 ? (60 * intervals) / seconds : 0;
};
