import { threadId } from 'node:worker_threads';
import { answerTasks } from '../../../firmware-host/work/answering.ts';

export type OddTask = number | 'throws' | 'dies' | 'never-ends';

export interface OddResult {
  readonly square: number;
  readonly threadId: number;
}

/** A thread for tests of the pool: squares numbers, and goes wrong when it is asked to. */
answerTasks({
  odd: (counted: SharedArrayBuffer) => {
    const counter = new Int32Array(counted);
    return (task: OddTask): OddResult => {
      switch (task) {
        case 'throws':
          throw new RangeError('no square of this one');
        case 'dies':
          return process.exit(3);
        case 'never-ends':
          for (;;) Atomics.add(counter, 0, 1);
        default:
          return { square: task * task, threadId };
      }
    };
  },
  'cannot-open': () => {
    throw new RangeError('this job does not open');
  },
});
