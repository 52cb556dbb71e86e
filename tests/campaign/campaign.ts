import { availableParallelism } from 'node:os';
import { resolve } from 'node:path';
import { inThreads } from '../../firmware-host/work/pool.ts';
import { breachText } from '../../sim/campaign/sum.ts';
import type { CampaignResult, CampaignTask } from '../../sim/campaign/task.ts';

/** Runs the tasks as `npm run campaign` does, on every core. */
export const campaign = async (tasks: readonly CampaignTask[]): Promise<readonly CampaignResult[]> => {
  const worker = { file: resolve('dist/campaign-worker.mjs'), most: availableParallelism() };
  const results: CampaignResult[] = [];
  for await (const { result } of inThreads<CampaignResult>(
    worker,
    { name: 'campaign', job: null },
    tasks,
    {},
  )) {
    results.push(result);
  }
  return results;
};

/** What was broken, in words that can be run again. */
export const breachesOf = (results: readonly CampaignResult[]): readonly string[] =>
  results.filter(({ breaches }) => breaches.length > 0).map(breachText);
