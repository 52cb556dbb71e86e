import {
  hangsOn,
  JUDGEMENTS,
  judgementsOf,
  type Hold,
  type Judgement,
  type PlanTrial,
} from '../simulated-shed.ts';
import type { Judged } from '../tune/choices.ts';
import { decidingTheta, type SettingsJob } from '../tune/tune-job.ts';
import { movesOxygen, movesWater } from './rehearsal-doubt.ts';

/** What a figure of a plan hangs on over the draws, the strongest first; empty with too few draws to tell. */
const holdsOf = (
  { seed, draws }: SettingsJob,
  { trials }: Judged,
  figure: (trial: PlanTrial) => number,
  asked: readonly Judgement[],
): readonly Hold[] => {
  const judgements = judgementsOf(seed, draws);
  return hangsOn(
    trials.flatMap((trial, run) => {
      const own = judgements[run];
      return run === 0 || own === undefined ? [] : [{ judgements: own, figure: figure(trial) }];
    }),
    asked,
  );
};

/** What the margin of a plan, and the oxygen about its roots, hang on. */
export const planHolds = (
  job: SettingsJob,
  judged: Judged,
): { readonly margin: readonly Hold[]; readonly oxygen: readonly Hold[] } => ({
  margin: holdsOf(
    job,
    judged,
    (trial) => decidingTheta(trial, job),
    JUDGEMENTS.filter((judgement) => movesWater(job.farm, judgement)),
  ),
  oxygen: holdsOf(
    job,
    judged,
    ({ lowestOxygen }) => lowestOxygen,
    JUDGEMENTS.filter((judgement) => movesOxygen(job.farm, judgement)),
  ),
});
