import type { Disk, Reopened } from '../../../src/journal/disk.ts';
import type { Entry } from '../../../src/journal/entry.ts';
import {
  answers,
  health,
  isEmpty,
  openingQueue,
  turn,
  wakeAt,
  type QueueInput,
} from '../../../src/journal/queue.ts';
import { NOTHING_KEPT, thin } from '../../../src/journal/thinning.ts';
import { waiting } from '../../../src/journal/waiting.ts';
import type { Now } from '../../../src/time/instant.ts';
import type { JournalClient } from './client.ts';

/** A disk that may be closed. */
export interface ClosableDisk extends Disk {
  readonly close: () => Promise<void>;
  readonly end: () => void;
}

export interface Recorder {
  readonly client: JournalClient;
  /** What the first opening of the book came to; a second word about it changes nothing. */
  readonly opened: (reopened: Reopened) => void;
}

/** How long the end of the host waits for the disk. */
const CLOSE_MILLIS = 2500;

/** Runs the queue in real time before a disk. Nothing here waits for the disk but `close`. */
export const createRecorder = (disk: ClosableDisk, now: () => Now): Recorder => {
  let queue = openingQueue(now().monotonic);
  let thinned = NOTHING_KEPT;
  let timer: NodeJS.Timeout | undefined;
  let emptied: (() => void) | null = null;
  let isClosed = false;

  const hear = (input: QueueInput): void => {
    if (isClosed) return;
    const moment = now();
    const next = turn(queue, input, moment);
    queue = next.queue;
    if (next.effect?.kind === 'write') {
      void disk.write(next.effect.batch).then((wrote) => {
        hear({ kind: 'wrote', wrote });
      });
    }
    if (next.effect?.kind === 'reopen') {
      void disk.reopen(next.effect.lastSeq).then((reopened) => {
        hear({ kind: 'reopened', reopened });
      });
    }
    clearTimeout(timer);
    const wake = wakeAt(queue);
    if (wake !== null) {
      timer = setTimeout(
        () => {
          hear({ kind: 'wake' });
        },
        Math.max(1, wake - moment.monotonic),
      );
      timer.unref();
    }
    if (isEmpty(queue)) emptied?.();
  };

  const keeps = (entry: Entry): boolean => {
    if (entry.kind !== 'reading') return true;
    const next = thin(thinned, entry);
    thinned = next.kept;
    return next.keeps;
  };

  return {
    opened: (reopened) => {
      hear({ kind: 'reopened', reopened });
    },
    client: {
      append: (entries) => {
        const items = entries.filter(keeps).map(waiting);
        if (items.length > 0) hear({ kind: 'append', items });
      },
      keep: (stateJson) => {
        hear({ kind: 'keep', stateJson });
      },
      health: () => health(queue, now().monotonic),
      answers: () => answers(queue, now().monotonic),
      durable: () => queue.durable,
      close: async () => {
        if (isClosed) return;
        let late: NodeJS.Timeout | undefined;
        const patience = new Promise<'late'>((end) => {
          late = setTimeout(end, CLOSE_MILLIS, 'late');
        });
        const done = new Promise<void>((end) => {
          emptied = end;
        }).then(() => disk.close());
        hear({ kind: 'end' });
        await Promise.race([done, patience]);
        clearTimeout(late);
        clearTimeout(timer);
        isClosed = true;
        disk.end();
      },
    },
  };
};
