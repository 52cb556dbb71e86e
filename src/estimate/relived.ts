import { minutesBetween, monotonicMillis, type MonotonicMillis } from '../time/instant.ts';
import { moved, type Belief } from './belief.ts';
import type { BenchFacts } from './bench-facts.ts';

/** A stretch in which water ran past the roots. */
export interface WetSpan {
  readonly from: MonotonicMillis;
  readonly until: MonotonicMillis;
}

/** The sun moves on in a longer step. */
const STEP_MINUTES = 10;

const isIn = ({ from, until }: WetSpan, at: MonotonicMillis): boolean => from <= at && at < until;

/**
 * The belief moved to `now` once more from an earlier moment, with water in the spans that have become known since.
 * `uptakeAt` gives mm/h at a moment.
 */
export const relived = (
  from: Belief,
  spans: readonly WetSpan[],
  facts: readonly BenchFacts[],
  uptakeAt: (at: MonotonicMillis) => number,
  stress: number,
  now: MonotonicMillis,
): Belief => {
  const edges = spans.flatMap((span) => [span.from, span.until]);
  let belief: Belief = { ...from, wet: null };
  while (belief.at < now) {
    const { at } = belief;
    const next = edges.filter((edge) => edge > at);
    const until = monotonicMillis(Math.min(now, at + STEP_MINUTES * 60_000, ...next));
    const wet = spans.find((span) => isIn(span, at)) ?? null;
    belief = moved({ ...belief, wet }, facts, uptakeAt(at), stress, until);
  }
  return { ...belief, wet: spans.find((span) => minutesBetween(span.until, now) < 0) ?? null };
};
