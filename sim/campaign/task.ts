import type { InjectorName } from '../faults/injectors.ts';
import { unseenWiltings, wilted } from '../oracle/invariants/wet.ts';
import { judged } from '../oracle/judge.ts';
import { rowsOf, type Breach, type RunRecord } from '../oracle/record.ts';
import { seedRun, type SeedAsked } from './seed.ts';

/** A seed to run and to judge, as plain data that goes between threads. */
export interface CampaignTask extends Omit<SeedAsked, 'tampering'> {
  /** Run a second time: the same journal must come of it. */
  readonly twice: boolean;
}

export interface CampaignResult {
  readonly task: CampaignTask;
  readonly breaches: readonly Breach[];
  readonly hits: readonly InjectorName[];
  readonly broken: readonly InjectorName[];
  readonly hash: string;
  readonly floods: number;
  readonly alarms: number;
  /** Alarms of a missed flood, and those of any kind that are urgent. */
  readonly missedAlarms: number;
  readonly highAlarms: number;
  /** Benches that wilted where nothing that was fitted and whole could have told. */
  readonly unseen: number;
  /** Benches for whose plants the plan is too dry with nothing broken too; a rehearsal would have told. */
  readonly thirsty: number;
  readonly startMillis: number;
}

/** I12: the same seed gives the same journal, to the letter. */
const repeated = (task: CampaignTask, hash: string, endMillis: number): readonly Breach[] =>
  !task.twice || seedRun(task).hash === hash
    ? []
    : [{ invariant: 'I12', atMillis: endMillis, words: 'the same seed gave another journal' }];

/** Whether a bench that wilted does so without any fault as well takes a second run. */
const thirstyIn = (task: CampaignTask, record: RunRecord): readonly number[] => {
  const found = wilted(record);
  if (found.length === 0 || task.faultFree === true) return [];
  const without = wilted(seedRun({ ...task, faultFree: true }).record);
  return found.filter((bench) => without.includes(bench));
};

export const campaignTask = (task: CampaignTask): CampaignResult => {
  const { record: run, hits, hash } = seedRun(task);
  const record = { ...run, thirsty: thirstyIn(task, run) };
  const raised = rowsOf(record, 'alarm-raised').map(({ entry }) => entry);
  return {
    task,
    breaches: [...judged(record), ...repeated(task, hash, record.endMillis)],
    hits: [...hits],
    broken: record.broken.map(({ name }) => name),
    hash,
    floods: rowsOf(record, 'flood-started').length,
    alarms: raised.length,
    missedAlarms: raised.filter(({ alarm }) => alarm === 'missed-flood').length,
    highAlarms: raised.filter(({ priority }) => priority === 'high').length,
    unseen: unseenWiltings(record),
    thirsty: record.thirsty.length,
    startMillis: record.startMillis,
  };
};
