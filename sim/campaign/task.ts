import type { InjectorName } from '../faults/injectors.ts';
import { isRecoveryJudged } from '../oracle/invariants/recovery.ts';
import { unseenWiltings, wilted } from '../oracle/invariants/wet.ts';
import { judged } from '../oracle/judge.ts';
import { rowsOf, type Breach, type RunRecord } from '../oracle/record.ts';
import type { CampaignRun } from './export.ts';
import { seedRun, type SeedAsked } from './seed.ts';

/** A seed to run and to judge, as plain data that goes between threads. */
export interface CampaignTask extends Omit<SeedAsked, 'tampering'> {
  /** Run a second time: the same journal must come of it. */
  readonly twice: boolean;
  /** Everything between host and shed goes over the bytes of the line. */
  readonly bytes?: true;
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
  /** Benches that wilted where nothing that was fitted and whole could have told in half of the time. */
  readonly unseen: number;
  /** Benches for whose plants the plan is too dry with nothing broken too; a rehearsal would have told. */
  readonly thirsty: number;
  /** Whether the run was long enough after its last fault for I6 to be judged. */
  readonly recoveryJudged: boolean;
  readonly startMillis: number;
}

/** I12: the same seed gives the same journal, to the letter. */
const repeated = ({ record, hash }: CampaignRun, again: CampaignRun | null): readonly Breach[] =>
  again === null || again.hash === hash
    ? []
    : [{ invariant: 'I12', atMillis: record.endMillis, words: 'the same seed gave another journal' }];

/** Whether a bench that wilted does so without any fault as well takes a second run, unless this one had none. */
const thirstyIn = (task: CampaignTask, record: RunRecord): readonly number[] => {
  const found = wilted(record);
  if (found.length === 0 || task.faultFree === true) return found;
  const without = wilted(seedRun({ ...task, faultFree: true }).record);
  return found.filter((bench) => without.includes(bench));
};

/** Judges what came of a task, and of its second run where it had one. */
export const resultOf = (task: CampaignTask, run: CampaignRun, again: CampaignRun | null): CampaignResult => {
  const { hits, hash } = run;
  const record = { ...run.record, thirsty: thirstyIn(task, run.record) };
  const raised = rowsOf(record, 'alarm-raised').map(({ entry }) => entry);
  return {
    task,
    breaches: [...judged(record), ...repeated(run, again)],
    hits: [...hits],
    broken: record.broken.map(({ name }) => name),
    hash,
    floods: rowsOf(record, 'flood-started').length,
    alarms: raised.length,
    missedAlarms: raised.filter(({ alarm }) => alarm === 'missed-flood').length,
    highAlarms: raised.filter(({ priority }) => priority === 'high').length,
    unseen: unseenWiltings(record),
    thirsty: record.thirsty.length,
    recoveryJudged: isRecoveryJudged(record),
    startMillis: record.startMillis,
  };
};

export const campaignTask = (task: CampaignTask): CampaignResult =>
  resultOf(task, seedRun(task), task.twice ? seedRun(task) : null);
