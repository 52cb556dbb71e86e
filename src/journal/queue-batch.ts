import type { Now, MonotonicMillis } from '../time/instant.ts';
import type { Dropped, Queue, Taken, Waiting } from './queue-state.ts';

/** A batch is small enough for one write of a slow card, and large enough to catch up. */
const ENTRIES_MAX = 500;
const READINGS_MAX = 1000;
const BATCH_SIZE_MAX = 512 * 1024;
/** What an item is reckoned to cost in memory besides its JSON (an estimate, not measured). */
const ITEM_SIZE = 200;

export const sizeOf = (items: readonly Waiting[]): number =>
  items.reduce((sum, { json }) => sum + json.length + ITEM_SIZE, 0);

/** The front of a list that fits; its first item always does. */
const front = (items: readonly Waiting[], most: number): readonly Waiting[] => {
  let size = 0;
  const end = items.findIndex((item, place) => {
    size += sizeOf([item]);
    return place >= most || (place > 0 && size > BATCH_SIZE_MAX);
  });
  return end === -1 ? items : items.slice(0, end);
};

const droppedItem = ({ entries, readings, since }: Dropped, { monotonic: at, wall }: Now): Waiting => ({
  at,
  wall,
  kind: 'dropped',
  json: JSON.stringify({ entries, readings, since }),
  rank: 'grave',
});

/** The next batch, and what is left of the queue. What was given up is told at the head of it. */
export const taken = (
  queue: Queue,
  which: 'all' | 'grave',
  now: Now,
): { readonly rest: Queue; readonly took: Taken } => {
  const told = queue.dropped === null ? [] : [droppedItem(queue.dropped, now)];
  const wanted = which === 'all' ? queue.entries : queue.entries.filter(({ rank }) => rank === 'grave');
  const entries = front(wanted, ENTRIES_MAX);
  const readings = which === 'all' ? front(queue.readings, READINGS_MAX) : [];
  const gone = new Set(entries);
  const rest: Queue = {
    ...queue,
    entries:
      which === 'all' ? queue.entries.slice(entries.length) : queue.entries.filter((item) => !gone.has(item)),
    readings: queue.readings.slice(readings.length),
    size: queue.size - sizeOf(entries) - sizeOf(readings),
    keptState: null,
    lightSince: readings.length < queue.readings.length ? queue.lightSince : null,
    dropped: null,
  };
  return {
    rest,
    took: {
      firstSeq: queue.durable + 1,
      entries: [...told, ...entries],
      readings,
      keptState: queue.keptState,
      grave: which === 'grave',
      told: queue.dropped,
    },
  };
};

const summed = (one: Dropped | null, other: Dropped | null): Dropped | null =>
  one === null || other === null
    ? (one ?? other)
    : {
        entries: one.entries + other.entries,
        readings: one.readings + other.readings,
        since: one.since < other.since ? one.since : other.since,
      };

/** A batch that surely was not written goes back to the front; its numbers are free again. */
export const requeued = (queue: Queue, took: Taken, at: MonotonicMillis): Queue => {
  const entries = took.entries
    .slice(took.told === null ? 0 : 1)
    .map((item): Waiting => ({ ...item, tried: true }));
  return {
    ...queue,
    entries: [...entries, ...queue.entries],
    readings: [...took.readings, ...queue.readings],
    size: queue.size + sizeOf(entries) + sizeOf(took.readings),
    keptState: queue.keptState ?? took.keptState,
    lightSince: queue.lightSince ?? at,
    dropped: summed(took.told, queue.dropped),
  };
};
