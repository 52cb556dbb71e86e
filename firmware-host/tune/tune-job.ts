import { itemAt } from '../../src/units/assertion.ts';
import type { PlanTrial } from '../simulated-shed.ts';
import type { Cost } from './cost.ts';
import type { PlanSetting } from './setting.ts';
import { openTrials, type TuneJob, type Trials } from './trials.ts';

/** A search and the plans that it looks at. */
export interface SettingsJob extends TuneJob {
  readonly settings: readonly PlanSetting[];
}

/** Plans by their place in the job. */
export type TuneTask =
  | { readonly kind: 'quick'; readonly from: number; readonly until: number }
  | { readonly kind: 'check'; readonly place: number }
  | { readonly kind: 'whole'; readonly place: number; readonly run: number; readonly traced: boolean };

export type TuneResult =
  | { readonly kind: 'quick'; readonly costs: readonly Cost[]; readonly thetas: Float64Array }
  | { readonly kind: 'check'; readonly isSafe: boolean }
  | { readonly kind: 'whole'; readonly trial: PlanTrial };

/**
 * By so much of θ the quick judgement may be wrong, either way: what is drier by more is not looked at again, and the whole model judges the
 * rest. Held against the whole model on random plans and draws in tests/unit/sim-tune/quick-bench and tests/simulation/tune-brute-force.
 */
export const QUICK_ROOM = 0.045;
/** Pairs of draw and bench that on a sample of plans never came within so much of the driest one are left out of the quick judgement. */
const PAIR_ROOM = 0.03;
const SAMPLE = 24;

/** The θ on which the verdict on a plan stands: with the worst flood missed, unless one is lost already. */
export const decidingTheta = (
  { lowestTheta, missedTheta }: { readonly lowestTheta: number; readonly missedTheta: number },
  { lostMinuteOfDay }: TuneJob,
): number => (lostMinuteOfDay === null ? Math.min(lowestTheta, missedTheta) : lowestTheta);

/** The pairs that may decide, those that did so most often first. */
const decidingPairs = (job: SettingsJob, trials: Trials): readonly number[] => {
  const stride = Math.max(1, Math.floor(job.settings.length / SAMPLE));
  const nearest: number[] = [];
  const won: number[] = [];
  for (let place = 0; place < job.settings.length; place += stride) {
    const thetas = trials
      .everyPair(itemAt(job.settings, place))
      .map((verdict) => decidingTheta(verdict, job));
    const driest = Math.min(...thetas);
    thetas.forEach((theta, pair) => {
      nearest[pair] = Math.min(nearest[pair] ?? Infinity, theta - driest);
      if (theta === driest) won[pair] = (won[pair] ?? 0) + 1;
    });
  }
  return nearest
    .flatMap((apart, pair) => (apart <= PAIR_ROOM ? [pair] : []))
    .toSorted((a, b) => (won[b] ?? 0) - (won[a] ?? 0) || itemAt(nearest, a) - itemAt(nearest, b));
};

/** Runs from the one that the quick judgement finds driest on: a plan that fails does so early. */
const driestFirst = (job: SettingsJob, trials: Trials, setting: PlanSetting): readonly number[] => {
  const thetas = trials.everyPair(setting).map((verdict) => decidingTheta(verdict, job));
  const benches = thetas.length / trials.runs;
  const ofRun = (run: number): number => Math.min(...thetas.slice(run * benches, (run + 1) * benches));
  return Array.from({ length: trials.runs }, (_, run) => run).toSorted((a, b) => ofRun(a) - ofRun(b));
};

export const openTune = (job: SettingsJob): ((task: TuneTask) => TuneResult) => {
  const trials = openTrials(job);
  const { wilt } = job.farm.floors;
  // A flood that is lost already is not missed a second time, and only misses are given up early.
  const giveUpBelow = job.lostMinuteOfDay === null ? wilt - QUICK_ROOM : -Infinity;
  let isNarrowed = false;
  const quick = (from: number, until: number): TuneResult => {
    if (!isNarrowed) trials.keepPairs(decidingPairs(job, trials));
    isNarrowed = true;
    const settings = job.settings.slice(from, until);
    return {
      kind: 'quick',
      costs: settings.map(trials.cost),
      thetas: Float64Array.from(settings, (setting) =>
        decidingTheta(trials.quick(setting, giveUpBelow), job),
      ),
    };
  };
  const check = (setting: PlanSetting): boolean =>
    driestFirst(job, trials, setting).every(
      (run) => decidingTheta(trials.whole(setting, run, { traced: false }), job) >= wilt,
    );
  return (task) => {
    switch (task.kind) {
      case 'quick':
        return quick(task.from, task.until);
      case 'check':
        return { kind: 'check', isSafe: check(itemAt(job.settings, task.place)) };
      case 'whole':
        return {
          kind: 'whole',
          trial: trials.whole(itemAt(job.settings, task.place), task.run, { traced: task.traced }),
        };
    }
  };
};
