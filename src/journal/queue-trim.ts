import type { MonotonicMillis } from '../time/instant.ts';
import { sizeOf } from './queue-batch.ts';
import type { Queue, Waiting } from './queue-state.ts';
import type { Rank } from './rank.ts';

/** What may wait in memory, about 8 MB: days of floods and alarms, or some hours of everything. */
export const QUEUE_SIZE_MAX = 8 * 1024 * 1024;

/** Given up at once when it is too much: looking through all of it at every entry would hold up the host. */
const TRIM_SIZE = QUEUE_SIZE_MAX / 16;

interface Trim {
  readonly left: readonly Waiting[];
  readonly freed: number;
  readonly gone: number;
}

/** Gives up the oldest of a rank until `excess` is freed. */
const without = (items: readonly Waiting[], rank: Rank, excess: number): Trim => {
  let freed = 0;
  let gone = 0;
  const left = items.filter((item) => {
    if (freed >= excess || item.rank !== rank) return true;
    freed += sizeOf([item]);
    gone += 1;
    return false;
  });
  return { left, freed, gone };
};

/** Within its bound: the oldest readings go first, then the oldest ordinary entries, grave ones last. All are counted. */
export const trimmed = (queue: Queue, at: MonotonicMillis): Queue => {
  if (queue.size <= QUEUE_SIZE_MAX) return queue;
  const excess = queue.size - QUEUE_SIZE_MAX + TRIM_SIZE;
  const readings = without(queue.readings, 'reading', excess);
  const ordinary = without(queue.entries, 'ordinary', excess - readings.freed);
  const grave = without(ordinary.left, 'grave', excess - readings.freed - ordinary.freed);
  const entries = ordinary.gone + grave.gone;
  const before = queue.dropped;
  return {
    ...queue,
    readings: readings.left,
    entries: grave.left,
    size: queue.size - readings.freed - ordinary.freed - grave.freed,
    dropped: {
      entries: (before?.entries ?? 0) + entries,
      readings: (before?.readings ?? 0) + readings.gone,
      since: before?.since ?? at,
    },
    trouble:
      queue.trouble === null
        ? null
        : { ...queue.trouble, dropped: queue.trouble.dropped + entries + readings.gone },
  };
};
