import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import type { Disk, Wrote } from '../../../src/journal/disk.ts';
import type { KeeperAsked, KeeperOpened } from './book-keeper.ts';
import type { Asked } from './serving.ts';

/** The book of a folder, kept where it cannot hold up the pump. */
export interface ThreadDisk extends Disk {
  readonly openFirst: () => Promise<KeeperOpened>;
  readonly reopen: (lastSeq: number) => Promise<KeeperOpened>;
  /** Resolves once the book is closed. */
  readonly close: () => Promise<void>;
  /** Ends the thread, whatever it does. */
  readonly end: () => void;
}

/** Built beside this file; sources that are run as they are have none. */
const THREAD = join(import.meta.dirname, 'journal.mjs');
/** The thread holds one batch, SQLite's cache and little else; a defect there must not take the host's memory. */
const THREAD_LIMITS = { maxOldGenerationSizeMb: 64, maxYoungGenerationSizeMb: 4 };

interface Service {
  readonly ask: (asked: Asked) => Promise<unknown>;
  readonly end: () => void;
}

/** @throws Error when the thread ends before it answered */
const inThread = (file: string, opening: KeeperAsked): Service => {
  const worker = new Worker(file, { workerData: opening, resourceLimits: THREAD_LIMITS });
  // A thread whose disk hangs must not keep the host from ending.
  worker.unref();
  let waiting: { readonly answer: (value: unknown) => void; readonly fail: (error: Error) => void } | null =
    null;
  let dead: Error | null = null;
  const fail = (error: Error): void => {
    dead ??= error;
    waiting?.fail(dead);
    waiting = null;
  };
  worker.on('message', (value: unknown) => {
    waiting?.answer(value);
    waiting = null;
  });
  worker.on('error', fail);
  worker.on('messageerror', fail);
  worker.on('exit', () => {
    fail(new Error('the thread that keeps the book has ended'));
  });
  return {
    ask: (asked) =>
      new Promise((answer, reject) => {
        if (dead !== null) {
          reject(dead);
          return;
        }
        waiting = { answer, fail: reject };
        worker.postMessage(asked);
      }),
    end: () => {
      void worker.terminate();
    },
  };
};

/** For sources run as they are, as by tests: the same in this thread, which then waits for the disk. */
const inThisThread = async (opening: KeeperAsked): Promise<Service> => {
  // Only when needed: where SQLite cannot be loaded the host must still begin.
  const { serveBook } = await import('./serving.ts');
  const service = serveBook(opening);
  return {
    ask: (asked) =>
      new Promise((answer, reject) => {
        setImmediate(() => {
          try {
            answer(service.ask(asked));
          } catch (error) {
            reject(error instanceof Error ? error : new Error(String(error)));
          }
        });
      }),
    end: service.end,
  };
};

/** `thread` names another file than the one beside this; where it is not there, this thread does the work. */
export const threadDisk = (opening: KeeperAsked, thread: string = THREAD): ThreadDisk => {
  const begin = async (): Promise<Service> =>
    existsSync(thread) ? inThread(thread, opening) : inThisThread(opening);
  let service: Service | null = null;
  const asked = async <Answer>(question: Asked, failed: (why: string) => Answer): Promise<Answer> => {
    try {
      service ??= await begin();
      // The thread answers each question by its kind.
      return (await service.ask(question)) as Answer;
    } catch (error) {
      service?.end();
      service = null;
      return failed(error instanceof Error ? error.message : String(error));
    }
  };
  const open = (lastSeq: number | null): Promise<KeeperOpened> =>
    asked<KeeperOpened>({ kind: 'open', lastSeq, nowMillis: Date.now() }, (why) => ({
      kind: 'refused',
      why,
    }));
  return {
    openFirst: () => open(null),
    reopen: (lastSeq) => open(lastSeq),
    write: (batch) => asked<Wrote>({ kind: 'write', batch }, (why) => ({ kind: 'failed', why })),
    close: async () => {
      if (service !== null) await asked<null>({ kind: 'close' }, () => null);
    },
    end: () => {
      service?.end();
      service = null;
    },
  };
};
