import type { Farm } from '../../src/farm/farm.ts';
import { itemAt } from '../../src/units/assertion.ts';
import { bandOf, type Band, type PlanTrial } from '../simulated-shed.ts';
import { cheaper, type Candidate } from './search.ts';
import type { PlanSetting } from './setting.ts';
import { decidingTheta, QUICK_ROOM, type SettingsJob } from './tune-job.ts';

/** A plan with what it costs and what it leaves. */
export interface Choice {
  readonly setting: PlanSetting;
  readonly candidate: Candidate;
  readonly kilowattHoursADay: number;
  /** Of every run of the whole model; null where the search was stopped before. */
  readonly judged: Judged | null;
}

export interface Judged {
  readonly trials: readonly PlanTrial[];
  /** In no run does a planted bench reach its wilt floor, not even with the worst flood missed. */
  readonly isSafe: boolean;
  /** Runs in which one does. */
  readonly failing: number;
  /** Of the driest bench: lowest held water, and the margin above the wilt floor with one flood missed, shares of capacity. */
  readonly lowestTheta: Band;
  readonly margin: Band;
  /** The driest of all runs, on which the verdict stands. */
  readonly marginLeast: number;
  readonly lowestOxygen: Band;
  /** Runs in which a missed flood of the rest of the day takes a bench to its wilt floor. */
  readonly failingElsewhere: number;
  readonly warmestCelsius: Band;
}

export const judgedOf = (job: SettingsJob, trials: readonly PlanTrial[]): Judged => {
  const { wilt } = job.farm.floors;
  const margins = trials.map((trial) => decidingTheta(trial, job) - wilt);
  const failing = margins.filter((margin) => margin < 0).length;
  return {
    trials,
    failing,
    isSafe: failing === 0,
    failingElsewhere: trials.filter(({ elsewhereTheta }) => elsewhereTheta < wilt).length,
    lowestTheta: bandOf(trials.map(({ lowestTheta }) => lowestTheta)),
    margin: bandOf(margins),
    marginLeast: Math.min(...margins),
    lowestOxygen: bandOf(trials.map(({ lowestOxygen }) => lowestOxygen)),
    warmestCelsius: bandOf(trials.map(({ warmestCelsius }) => warmestCelsius)),
  };
};

export const kilowattHours = ({ pump }: Farm, pumpMinutes: number): number =>
  (pump.watts * pumpMinutes) / 60_000;

/** Plans alike in everything but the length of their floods. */
const groupOf = ({ parts, restPercentPerDegree }: PlanSetting): string =>
  JSON.stringify([parts.map((part) => part?.pace ?? null), restPercentPerDegree]);

/** Rows of a table that a person still reads. */
const ROWS = { before: 3, after: 4 } as const;

/**
 * Which plans to show: of each number of floods the one with the shortest floods that looks safe, or else the longest; so many before and after the
 * cheapest safe one.
 */
export const shown = (
  job: SettingsJob,
  candidates: readonly Candidate[],
  smallest: Candidate | null,
): readonly Candidate[] => {
  const { wilt } = job.farm.floors;
  const groups = new Map<string, Candidate>();
  for (const candidate of candidates) {
    const key = groupOf(itemAt(job.settings, candidate.place));
    const before = groups.get(key);
    const looksSafe = before !== undefined && before.quickTheta >= wilt + QUICK_ROOM;
    if (!looksSafe) groups.set(key, candidate);
  }
  // Plans that come to the same floods are one: a bound has made them so.
  const alike = new Set<string>();
  const rows = [...groups.values()].toSorted(cheaper).filter(({ cost }) => {
    const key = `${cost.startsADay.toFixed(3)} ${cost.pumpMinutesADay.toFixed(2)}`;
    const isNew = !alike.has(key);
    alike.add(key);
    return isNew;
  });
  if (smallest === null) return rows.slice(-ROWS.before - ROWS.after - 1);
  const keyOf = ({ place }: Candidate): string => groupOf(itemAt(job.settings, place));
  const others = rows.filter((row) => keyOf(row) !== keyOf(smallest));
  const cheaperOnes = others.filter((row) => cheaper(row, smallest) < 0).slice(-ROWS.before);
  const dearerOnes = others.filter((row) => cheaper(row, smallest) > 0).slice(0, ROWS.after);
  return [...cheaperOnes, smallest, ...dearerOnes];
};
