import { itemAt } from '../../src/units/assertion.ts';
import { judgedOf, kilowattHours, shown, type Choice } from './choices.ts';
import { limitOf, type Limit } from './limit.ts';
import { candidatesOf, cheapestSafe, wholeRuns, type Candidate, type Searching } from './search.ts';

/** What a search of plans has found. */
export interface Tuned {
  /** In order of their cost. */
  readonly choices: readonly Choice[];
  /** The safe one with the fewest floods. */
  readonly smallest: Choice | null;
  /** The plan as it stands in the farm file. */
  readonly present: Choice | null;
  readonly limit: Limit | null;
  /** How many plans were tried, of how many. */
  readonly tried: number;
  readonly plans: number;
  readonly wasStopped: boolean;
}

/** The present plan is the last setting of the job. */
export const tuned = async (searching: Searching, traced: boolean): Promise<Tuned> => {
  const { job, signal } = searching;
  const candidates = await candidatesOf(searching);
  const smallest = await cheapestSafe(searching, candidates);
  const presentPlace = job.settings.length - 1;
  const present = candidates.find(({ place }) => place === presentPlace) ?? null;
  const rows = shown(job, candidates, smallest);
  const places = [...new Set([...rows, ...(present === null ? [] : [present])].map(({ place }) => place))];
  const trials = await wholeRuns(searching, places, (place) => traced && place === smallest?.place);
  const choice = (candidate: Candidate): Choice => {
    const runs = trials.get(candidate.place);
    return {
      setting: itemAt(job.settings, candidate.place),
      candidate,
      kilowattHoursADay: kilowattHours(job.farm, candidate.cost.pumpMinutesADay),
      judged: runs === undefined ? null : judgedOf(job, runs),
    };
  };
  const choices = rows.map(choice);
  const found = smallest === null ? null : (choices[rows.indexOf(smallest)] ?? null);
  return {
    choices,
    smallest: found,
    present: present === null ? null : choice(present),
    limit: found === null ? null : limitOf(choices, found),
    tried: candidates.length,
    plans: job.settings.length,
    wasStopped: signal.aborted,
  };
};
