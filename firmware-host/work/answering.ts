import { parentPort, workerData } from 'node:worker_threads';
import { BrokenAssertion } from '../../src/units/assertion.ts';

/** What a thread is opened with. */
export interface Opening {
  readonly name: string;
  readonly job: unknown;
}

/** A task, by its place in the list of all. */
export interface Given {
  readonly index: number;
  readonly task: unknown;
}

/** What came of a task. */
export interface Done<Result> {
  readonly index: number;
  readonly result: Result;
}

type Jobs = Readonly<Record<string, (job: never) => (task: never) => unknown>>;

/**
 * Opens the job of this thread and answers its tasks until the pool closes it. Whatever is thrown ends the thread,
 * and Node tells the pool of it with text and stack.
 * @throws BrokenAssertion in a thread that no pool has opened, or for a job that is not there
 */
export const answerTasks = (jobs: Jobs): void => {
  const port = parentPort;
  const { name, job } = workerData as Opening;
  const open = jobs[name];
  if (port === null || open === undefined) throw new BrokenAssertion(`no thread can work at "${name}"`);
  // Both come from a pool of the same build, which has checked them by their types.
  const work = open(job as never);
  port.on('message', ({ index, task }: Given) => {
    port.postMessage({ index, result: work(task as never) } satisfies Done<unknown>);
  });
};
