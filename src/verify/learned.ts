import { bounded } from '../units/bounded.ts';
import { STEADY_MINUTES } from './flood.ts';
import { PLATEAU_UNWATCHED, type PlateauWatch } from './return-plateau.ts';

/** What a flood of so many minutes gave at its end. */
interface EndFlow {
  readonly minutes: number;
  readonly litresPerMinute: number;
}

/** What past confirmed floods have taught: how long water takes to come back, and how much comes. */
export interface Learned {
  readonly lagMinutes: readonly number[];
  readonly endFlows: readonly EndFlow[];
  /** The best that was ever usual since the start of the run, L/min; 0 before anything was. */
  readonly bestLitresPerMinute: number;
  readonly plateau: PlateauWatch;
  /** Floods that the tank alone has confirmed. */
  readonly tankFalls: number;
  /** The flow by the farm file of the last lesson, L/min; null before any. */
  readonly byFarmFile: number | null;
}

export const NOTHING_LEARNED: Learned = {
  lagMinutes: [],
  endFlows: [],
  bestLitresPerMinute: 0,
  plateau: PLATEAU_UNWATCHED,
  tankFalls: 0,
  byFarmFile: null,
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
const middleOf = (ends: readonly EndFlow[]): number | null => {
  const flows = ends.map(({ litresPerMinute }) => litresPerMinute).sort((a, b) => a - b);
  return flows.length < LESSON ? null : (flows[Math.floor(flows.length / 2)] ?? null);
};

/** One that is too short for a steady return is held against others as short. */
const alikeTo = (minutes: number, ends: readonly EndFlow[]): readonly EndFlow[] =>
  minutes >= STEADY_MINUTES ? ends : ends.filter((end) => Math.floor(end.minutes) <= minutes);

/**
 * Usual return flow at the end of a flood of so many minutes, L/min; the farm file's figure until enough have been seen. Of
 * shorter floods than were usual it is `LEAST_OF_BEST` of the best, until enough of them have been seen.
 */
export const usualReturn = (learned: Learned, byFarmFile: number, minutes: number): number => {
  if (middleOf(learned.endFlows) === null) return byFarmFile;
  const usual = middleOf(alikeTo(minutes, learned.endFlows)) ?? 0;
  return Math.max(usual, LEAST_OF_BEST * learned.bestLitresPerMinute);
};

/** Benches that come, go or are measured anew change the flow: what was learned before is then of another farm. */
const SAME_FARM_SHARE = 0.05;

/** What still holds of it under a farm file that may have changed. */
export const learnedUnder = (learned: Learned, byFarmFile: number): Learned =>
  learned.byFarmFile === null ||
  Math.abs(byFarmFile - learned.byFarmFile) <= SAME_FARM_SHARE * learned.byFarmFile
    ? learned
    : NOTHING_LEARNED;

/** One more flood that the tank alone has confirmed. */
export const withTankFall = (learned: Learned): Learned => ({
  ...learned,
  tankFalls: Math.min(LESSON, learned.tankFalls + 1),
});

/** Whether the tank has told of enough floods to be believed when it tells of none. */
export const tankTells = ({ tankFalls }: Learned): boolean => tankFalls >= LESSON;

export const withLesson = (learned: Learned, lagMinutes: number | null, end: EndFlow | null): Learned => {
  const ends = end === null ? learned.endFlows : [...learned.endFlows, end].slice(-KEPT);
  return {
    ...learned,
    lagMinutes: lagMinutes === null ? learned.lagMinutes : [...learned.lagMinutes, lagMinutes].slice(-KEPT),
    endFlows: ends,
    bestLitresPerMinute: Math.max(learned.bestLitresPerMinute, middleOf(ends) ?? 0),
  };
};
