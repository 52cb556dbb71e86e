import type { InjectorName } from '../faults/injectors.ts';
import { injected } from './script.ts';
import { drawnRun } from './seed.ts';
import type { CampaignResult, CampaignTask } from './task.ts';

/** So much of a stack tells where it was. */
const STACK_LINES_MOST = 5;

const wordsOf = (error: unknown): string =>
  error instanceof Error
    ? (error.stack ?? `${error.name}: ${error.message}`).split('\n').slice(0, STACK_LINES_MOST).join('\n    ')
    : String(error);

/** What the seed draws, as far as that can be told: the error may come from the draw itself. */
const drawn = (
  task: CampaignTask,
): { readonly broken: readonly InjectorName[]; readonly startMillis: number } => {
  try {
    const { script, startMillis } = drawnRun(task);
    return { broken: injected(script).map(({ name }) => name), startMillis };
  } catch {
    return { broken: [], startMillis: 0 };
  }
};

/** A seed whose run ended in an error: nothing of it can be judged, and that is its breach. */
export const thrownBy = (task: CampaignTask, error: unknown): CampaignResult => {
  const { broken, startMillis } = drawn(task);
  return {
    task,
    breaches: [{ invariant: 'thrown', atMillis: startMillis, words: wordsOf(error) }],
    hits: [],
    broken,
    hash: '',
    floods: 0,
    alarms: 0,
    missedAlarms: 0,
    highAlarms: 0,
    unseen: 0,
    thirsty: 0,
    recoveryJudged: false,
    startMillis,
  };
};
