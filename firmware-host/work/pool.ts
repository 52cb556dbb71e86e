import { existsSync } from 'node:fs';
import { availableParallelism, freemem } from 'node:os';
import { join } from 'node:path';
import { setImmediate as breath } from 'node:timers/promises';
import { Worker } from 'node:worker_threads';
import type { Done, Given, Opening } from './answering.ts';
import { JOBS, type JobName, type JobOf, type ResultOf, type TaskOf } from './jobs.ts';

export type { Done } from './answering.ts';

/** Built beside this file; sources that are run as they are have none. */
const WORKER = join(import.meta.dirname, 'worker.mjs');

/** A thread takes a second of a core to get going: for less work than this it does not pay. */
const TASKS_A_THREAD = 4;
/** What a thread may come to take beside this one; a small host must keep room for its run. */
const THREAD_BYTES = 128 * 1024 ** 2;
/** Room for short-lived objects: with as little as the host itself has, a tenth of the time goes into clearing them away. */
const YOUNG_MEGABYTES = 32;

/** How many threads are worth their start, and fit. */
const threadsFor = (tasks: number): number =>
  Math.min(availableParallelism(), Math.floor(tasks / TASKS_A_THREAD), Math.floor(freemem() / THREAD_BYTES));

interface Ending {
  /** Ends all work at once when aborted; the generator then throws the signal's reason. */
  readonly signal?: AbortSignal;
}

/**
 * Works at the tasks of a job on as many cores as there are and gives each result as it comes, in no order; the index
 * is the place of its task. Whoever stops asking, by an error or by `return()`, has closed all threads.
 *
 * Where a second thread does not pay or fit, all is done in this one, task by task with a breath for the event loop between
 * them; and so where `worker.mjs` does not stand beside this file, as when the tests run the sources. The results are the same.
 * @throws what a task throws, as a plain Error with its text and stack; Error when a thread dies; the signal's reason
 */
export async function* inParallel<Name extends JobName>(
  name: Name,
  job: JobOf<Name>,
  tasks: readonly TaskOf<Name>[],
  ending: Ending = {},
): AsyncGenerator<Done<ResultOf<Name>>, void, void> {
  const threads = threadsFor(tasks.length);
  if (threads > 1 && existsSync(WORKER))
    yield* inThreads({ file: WORKER, most: threads }, { name, job }, tasks, ending);
  else yield* inThisThread(JOBS[name](job), tasks, ending);
}

async function* inThisThread<Task, Result>(
  work: (task: Task) => Result,
  tasks: readonly Task[],
  { signal }: Ending,
): AsyncGenerator<Done<Result>, void, void> {
  for (const [index, task] of tasks.entries()) {
    signal?.throwIfAborted();
    yield { index, result: work(task) };
    await breath();
  }
}

/** The same in threads that are begun from a file, which must answer as `answerTasks` does. */
export async function* inThreads<Result>(
  { file, most }: { readonly file: string; readonly most: number },
  opening: Opening,
  tasks: readonly unknown[],
  { signal }: Ending,
): AsyncGenerator<Done<Result>, void, void> {
  const threads: Worker[] = [];
  const left = tasks.entries();
  const come: Done<Result>[] = [];
  const failures: Error[] = [];
  let wake = (): void => undefined;

  const give = (thread: Worker): void => {
    const next = left.next();
    if (next.done === true) return;
    const [index, task] = next.value;
    thread.postMessage({ index, task } satisfies Given);
  };
  const fail = (error: Error): void => {
    failures.push(error);
    wake();
  };
  const start = (): void => {
    const thread = new Worker(file, {
      workerData: opening,
      resourceLimits: { maxYoungGenerationSizeMb: YOUNG_MEGABYTES },
    });
    threads.push(thread);
    thread.on('message', (done: Done<Result>) => {
      come.push(done);
      // At once, not when somebody asks for the result: no core waits for the caller.
      give(thread);
      wake();
    });
    thread.on('error', fail);
    thread.on('messageerror', fail);
    // Comes after the error that ended it; alone where the thread was ended from outside its work.
    thread.on('exit', (code) => {
      fail(new Error(`A thread of "${opening.name}" died with code ${code} before its work was done.`));
    });
    give(thread);
  };
  const stop = (): void => {
    wake();
  };

  signal?.addEventListener('abort', stop);
  try {
    while (threads.length < Math.min(most, tasks.length)) start();
    for (let told = 0; told < tasks.length;) {
      signal?.throwIfAborted();
      const done = come.shift();
      if (done !== undefined) {
        told += 1;
        yield done;
      } else if (failures[0] !== undefined) throw failures[0];
      else {
        await new Promise<void>((go) => {
          wake = go;
        });
      }
    }
  } finally {
    signal?.removeEventListener('abort', stop);
    await Promise.all(threads.map((thread) => thread.terminate()));
  }
}
