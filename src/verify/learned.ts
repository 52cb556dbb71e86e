import { bounded } from '../units/bounded.ts';

/** What past confirmed floods have taught: how long water takes to come back, and how much comes. */
export interface Learned {
  readonly lagMinutes: readonly number[];
  readonly endLitresPerMinute: readonly number[];
}

export const NOTHING_LEARNED: Learned = { lagMinutes: [], endLitresPerMinute: [] };

const KEPT = 15;
/** A lesson needs this many floods. */
const LESSON = 5;
const LAG_MINUTES = { least: 3, most: 8 } as const;

/** Minutes after the pump's start by which water should be back: 8 until enough floods have been seen. */
export const returnLagMinutes = (learned: Learned): number => {
  if (learned.lagMinutes.length < LESSON) return LAG_MINUTES.most;
  const slowest = Math.max(...learned.lagMinutes);
  return bounded(1.5 * slowest + 1, LAG_MINUTES.least, LAG_MINUTES.most);
};

/** Usual return flow at the end of a flood, L/min; the farm file's figure until enough have been seen. */
export const usualReturn = (learned: Learned, byFarmFile: number): number => {
  const flows = [...learned.endLitresPerMinute].sort((a, b) => a - b);
  return flows.length < LESSON ? byFarmFile : (flows[Math.floor(flows.length / 2)] ?? byFarmFile);
};

export const withLesson = (
  learned: Learned,
  lagMinutes: number | null,
  endLitresPerMinute: number | null,
): Learned => ({
  lagMinutes: lagMinutes === null ? learned.lagMinutes : [...learned.lagMinutes, lagMinutes].slice(-KEPT),
  endLitresPerMinute:
    endLitresPerMinute === null
      ? learned.endLitresPerMinute
      : [...learned.endLitresPerMinute, endLitresPerMinute].slice(-KEPT),
});
