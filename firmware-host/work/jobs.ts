import type { Outcome, Run } from '../simulated-shed.ts';
import type { TuneResult, TuneTask, SettingsJob } from '../tune/tune-job.ts';
import { openTune } from '../tune/tune-job.ts';
import { openRehearsal, type RehearsalJob } from './rehearse-job.ts';

/** What each job is opened with, what a task of it is and what comes of one: plain data, which goes between threads. */
interface Kinds {
  readonly rehearse: { readonly job: RehearsalJob; readonly task: Run; readonly result: Outcome };
  readonly tune: { readonly job: SettingsJob; readonly task: TuneTask; readonly result: TuneResult };
}

export type JobName = keyof Kinds;
export type JobOf<Name extends JobName> = Kinds[Name]['job'];
export type TaskOf<Name extends JobName> = Kinds[Name]['task'];
export type ResultOf<Name extends JobName> = Kinds[Name]['result'];

/** Each job by its name: opened once in each thread, then asked task by task. No task may hang on another. */
export const JOBS: {
  readonly [Name in JobName]: (job: JobOf<Name>) => (task: TaskOf<Name>) => ResultOf<Name>;
} = { rehearse: openRehearsal, tune: openTune };
