import { setTimeout as passed } from 'node:timers/promises';
import { beforeAll, describe, expect, it } from 'vitest';
import { inThreads, type Done } from '../../../firmware-host/work/pool.ts';
import { bundled } from '../../support/bundled.ts';
import type { OddResult, OddTask } from './odd-worker.ts';

let file: string;
beforeAll(async () => {
  file = await bundled('tests/unit/work/odd-worker.ts');
});

const counter = new Int32Array(new SharedArrayBuffer(4));
const odd = { name: 'odd', job: counter.buffer };

/** Whatever cores there are: what is tested hangs on no one's speed. */
const MOST = 2;

const working = (
  tasks: readonly OddTask[],
  signal?: AbortSignal,
): AsyncGenerator<Done<OddResult>, void, void> =>
  inThreads({ file, most: MOST }, odd, tasks, signal === undefined ? {} : { signal });

const all = async (tasks: readonly OddTask[]): Promise<readonly Done<OddResult>[]> => {
  const results: Done<OddResult>[] = [];
  for await (const one of working(tasks)) results.push(one);
  return results;
};

/** Whether a thread still counts in the task that never ends. */
const isCounting = async (): Promise<boolean> => {
  const before = Atomics.load(counter, 0);
  await passed(50);
  return Atomics.load(counter, 0) !== before;
};
const untilCounting = async (): Promise<void> => {
  while (!(await isCounting()));
};

describe('a pool of threads', () => {
  it('gives 40 results for 40 tasks, each with the place of its own task', async () => {
    const tasks = Array.from({ length: 40 }, (_, place) => 100 - place);
    const results = await all(tasks);
    const byPlace = results.toSorted((a, b) => a.index - b.index);
    expect(byPlace.map(({ index }) => index)).toEqual([...tasks.keys()]);
    expect(byPlace.map(({ result }) => result.square)).toEqual(tasks.map((task) => task * task));
  });

  it('works in threads of its own, in at most 2 where it may have 2', async () => {
    const threads = new Set((await all([1, 2, 3, 4, 5, 6, 7, 8])).map(({ result }) => result.threadId));
    expect(threads.size).toBeGreaterThan(0);
    expect(threads.size).toBeLessThanOrEqual(MOST);
    // The main thread of a process is number 0.
    expect(threads.has(0)).toBe(false);
  });

  it('throws what a task throws, with its text and the place where it was thrown', async () => {
    const error: unknown = await all([1, 'throws', 3]).catch((thrown: unknown) => thrown);
    expect(error).toBeInstanceOf(Error);
    expect((error as Error).message).toBe('no square of this one');
    expect((error as Error).stack).toMatch(/bundle\.mjs:\d+/);
  });

  it('throws what the opening of a job throws', async () => {
    const work = inThreads({ file, most: MOST }, { name: 'cannot-open', job: null }, [1, 2], {});
    await expect(work.next()).rejects.toThrow('this job does not open');
  });

  it('says so when nobody knows the job', async () => {
    const work = inThreads({ file, most: MOST }, { name: 'unheard-of', job: null }, [1, 2], {});
    await expect(work.next()).rejects.toThrow('no thread can work at "unheard-of"');
  });

  it('says so when a thread dies, with its code 3', async () => {
    await expect(all([1, 'dies', 3])).rejects.toThrow('A thread of "odd" died with code 3');
  });

  it('refuses a job that is no plain data', async () => {
    const work = inThreads({ file, most: MOST }, { name: 'odd', job: () => 1 }, [1, 2], {});
    await expect(work.next()).rejects.toThrow('could not be cloned');
  });

  it('closes its threads at return(), though one is in a task that never ends', async () => {
    const work = working([1, 'never-ends', 3]);
    await work.next();
    await untilCounting();
    await work.return();
    expect(await isCounting()).toBe(false);
  });

  it('closes them when another task throws', async () => {
    await expect(all(['never-ends', 'throws'])).rejects.toThrow('no square of this one');
    expect(await isCounting()).toBe(false);
  });

  it('closes them when the signal is aborted, and throws its reason', async () => {
    const stop = new AbortController();
    const work = working([1, 'never-ends'], stop.signal);
    await work.next();
    await untilCounting();
    const rest = work.next();
    stop.abort(new Error('enough'));
    await expect(rest).rejects.toThrow('enough');
    expect(await isCounting()).toBe(false);
  });

  it('starts nothing where the signal was aborted before', async () => {
    await expect(working([1, 2], AbortSignal.abort(new Error('never begun'))).next()).rejects.toThrow(
      'never begun',
    );
  });
});
