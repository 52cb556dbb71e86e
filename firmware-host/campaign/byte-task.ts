import { drawnRun } from '../../sim/campaign/seed.ts';
import { thrownBy } from '../../sim/campaign/thrown.ts';
import { campaignTask, resultOf, type CampaignResult, type CampaignTask } from '../../sim/campaign/task.ts';
import { byteRun, type LineTampering } from './byte-run.ts';

/** A seed over the bytes of the line, judged; with a bug planted there, if one is given. */
export const byteTask = async (task: CampaignTask, tampering?: LineTampering): Promise<CampaignResult> => {
  const again = task.twice ? await byteRun(drawnRun(task), tampering) : null;
  return resultOf(task, await byteRun(drawnRun(task), tampering), again);
};

/** A task of the campaign, whichever way it is run. */
const usual = (task: CampaignTask): CampaignResult | Promise<CampaignResult> =>
  task.bytes === true ? byteTask(task) : campaignTask(task);

/** The same, and what it throws is a breach of its seed: the other seeds are judged all the same. */
export const anyTask = async (
  task: CampaignTask,
  work: (task: CampaignTask) => CampaignResult | Promise<CampaignResult> = usual,
): Promise<CampaignResult> => {
  try {
    return await work(task);
  } catch (error) {
    return thrownBy(task, error);
  }
};
