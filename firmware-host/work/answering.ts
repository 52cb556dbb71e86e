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
 * Opens the job of this thread and answers its tasks, at once or when a promise of the answer is kept, until the pool closes
 * it. Whatever is thrown, and a promise that is broken, ends the thread, and Node tells the pool of it with text and stack.
 * @throws BrokenAssertion in a thread that no pool has opened, or for a job that is not there
 */
export const answerTasks = (jobs: Jobs): void => {
  const port = parentPort;
  const { name, job } = workerData as Opening;
  const open = jobs[name];
  if (port === null || open === undefined) throw new BrokenAssertion(`no thread can work at "${name}"`);
  // Both come from a pool of the same build, which has checked them by their types.
  const work = open(job as never);
  const answer = (index: number, result: unknown): void => {
    port.postMessage({ index, result } satisfies Done<unknown>);
  };
  port.on('message', ({ index, task }: Given) => {
    const result = work(task as never);
    if (!(result instanceof Promise)) answer(index, result);
    else
      void result.then((kept: unknown) => {
        answer(index, kept);
      });
  });
};
