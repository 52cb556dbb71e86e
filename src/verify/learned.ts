import { bounded } from '../units/bounded.ts';
import { PLATEAU_UNWATCHED, type PlateauWatch } from './return-plateau.ts';

/** What past confirmed floods have taught: how long water takes to come back, and how much comes. */
export interface Learned {
  readonly lagMinutes: readonly number[];
  readonly endLitresPerMinute: readonly number[];
  /** The best that was ever usual since the start of the run, L/min; 0 before anything was. */
  readonly bestLitresPerMinute: number;
  readonly plateau: PlateauWatch;
}

export const NOTHING_LEARNED: Learned = {
  lagMinutes: [],
  endLitresPerMinute: [],
  bestLitresPerMinute: 0,
  plateau: PLATEAU_UNWATCHED,
};

const KEPT = 15;
/** A lesson needs this many floods. */
const LESSON = 5;
/**
 * What is usual never falls below this share of the best that ever was: a filter that clogs a little every day would else
 * pass for normal down to the last trickle. Room is left for a bench that is shut off and a meter that ages. Engineering
 * judgement, no source.
 */
const LEAST_OF_BEST = 0.75;
const LAG_MINUTES = { least: 3, most: 8 } as const;

/** Minutes after the pump's start by which water should be back: 8 until enough floods have been seen. */
export const returnLagMinutes = (learned: Learned): number => {
  if (learned.lagMinutes.length < LESSON) return LAG_MINUTES.most;
  const slowest = Math.max(...learned.lagMinutes);
  return bounded(1.5 * slowest + 1, LAG_MINUTES.least, LAG_MINUTES.most);
};

/** The middle one of the last floods; null until enough have been seen. */
const middleOf = (litresPerMinute: readonly number[]): number | null => {
  const flows = [...litresPerMinute].sort((a, b) => a - b);
  return flows.length < LESSON ? null : (flows[Math.floor(flows.length / 2)] ?? null);
};

/** Usual return flow at the end of a flood, L/min; the farm file's figure until enough have been seen. */
export const usualReturn = (learned: Learned, byFarmFile: number): number => {
  const middle = middleOf(learned.endLitresPerMinute);
  return middle === null ? byFarmFile : Math.max(middle, LEAST_OF_BEST * learned.bestLitresPerMinute);
};

export const withLesson = (
  learned: Learned,
  lagMinutes: number | null,
  endLitresPerMinute: number | null,
): Learned => {
  const flows =
    endLitresPerMinute === null
      ? learned.endLitresPerMinute
      : [...learned.endLitresPerMinute, endLitresPerMinute].slice(-KEPT);
  return {
    ...learned,
    lagMinutes: lagMinutes === null ? learned.lagMinutes : [...learned.lagMinutes, lagMinutes].slice(-KEPT),
    endLitresPerMinute: flows,
    bestLitresPerMinute: Math.max(learned.bestLitresPerMinute, middleOf(flows) ?? 0),
  };
};
