import { drawnRun } from '../../sim/campaign/seed.ts';
import { campaignTask, resultOf, type CampaignResult, type CampaignTask } from '../../sim/campaign/task.ts';
import { byteRun, type LineTampering } from './byte-run.ts';

/** A seed over the bytes of the line, judged; with a bug planted there, if one is given. */
export const byteTask = async (task: CampaignTask, tampering?: LineTampering): Promise<CampaignResult> => {
  const again = task.twice ? await byteRun(drawnRun(task), tampering) : null;
  return resultOf(task, await byteRun(drawnRun(task), tampering), again);
};

/** A task of the campaign, whichever way it is run. */
export const anyTask = (task: CampaignTask): CampaignResult | Promise<CampaignResult> =>
  task.bytes === true ? byteTask(task) : campaignTask(task);
