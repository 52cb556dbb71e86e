import { power } from '../physics/portable-math.ts';
import type { JournalHealth } from '../ports/host-health.ts';
import { monotonicMillis, type MonotonicMillis, type Now } from '../time/instant.ts';
import type { Batch, Reopened, Wrote } from './disk.ts';
import { requeued, sizeOf, taken } from './queue-batch.ts';
import type { Phase, Queue, Taken, Trouble, Waiting } from './queue-state.ts';
import { trimmed } from './queue-trim.ts';

export type QueueInput =
  | { readonly kind: 'append'; readonly items: readonly Waiting[] }
  | { readonly kind: 'keep'; readonly stateJson: string }
  | { readonly kind: 'wake' }
  | { readonly kind: 'wrote'; readonly wrote: Wrote }
  | { readonly kind: 'reopened'; readonly reopened: Reopened }
  | { readonly kind: 'end' };

/** The one thing to ask of the disk now. */
export type QueueEffect =
  { readonly kind: 'write'; readonly batch: Batch } | { readonly kind: 'reopen'; readonly lastSeq: number };

/** Readings and the kept state wait for company: a memory card wears out with writes, not with bytes. */
export const LIGHT_MILLIS = 10_000;
/** After so long in one write the journal counts as behind. */
const BEHIND_MILLIS = 2000;
/** Rests between attempts double from the first to the last; the first attempt follows at once. */
const REST_MILLIS_FIRST = 1000;
const REST_MILLIS_LAST = 30_000;

const EMPTY = {
  entries: [],
  readings: [],
  size: 0,
  keptState: null,
  lightSince: null,
  doubtful: null,
  dropped: null,
  trouble: null,
  failures: 0,
  full: false,
  ending: false,
} as const;

/** A queue before a file that is open, or that still opens. */
export const openQueue = (lastSeq: number): Queue => ({
  ...EMPTY,
  phase: { kind: 'idle' },
  durable: lastSeq,
});
export const openingQueue = (since: MonotonicMillis): Queue => ({
  ...EMPTY,
  phase: { kind: 'reopening', since },
  durable: 0,
});

export const health = (queue: Queue, now: MonotonicMillis): JournalHealth => {
  const { trouble, phase } = queue;
  if (trouble !== null) {
    return {
      kind: 'not-recording',
      why: trouble.why,
      sinceMonotonic: trouble.since,
      dropped: trouble.dropped,
    };
  }
  const millis = callMillis(queue, now);
  if (millis >= BEHIND_MILLIS) {
    const inHand = phase.kind === 'writing' ? phase.taken.entries.length + phase.taken.readings.length : 0;
    return {
      kind: 'behind',
      waiting: queue.entries.length + queue.readings.length + inHand,
      seconds: millis / 1000,
    };
  }
  return { kind: 'well' };
};

/** How long the call that the disk has in hand has taken. */
const callMillis = ({ phase }: Queue, now: MonotonicMillis): number =>
  phase.kind === 'writing' || phase.kind === 'reopening' ? now - phase.since : 0;

/**
 * Whether the disk still comes back from its calls, well or ill: one that refuses all it is given does, and one that hangs does
 * not, whatever trouble there was before.
 */
export const answers = (queue: Queue, now: MonotonicMillis): boolean =>
  callMillis(queue, now) < BEHIND_MILLIS;

/** When the queue wants to be woken; null while only the disk can go on. */
export const wakeAt = ({ phase, lightSince }: Queue): MonotonicMillis | null => {
  if (phase.kind === 'resting') return phase.until;
  if (phase.kind === 'idle' && lightSince !== null) return after(lightSince, LIGHT_MILLIS);
  return null;
};

/** Whether all that was given is on the disk or given up. */
export const isEmpty = ({ phase, entries, readings, keptState, doubtful, dropped }: Queue): boolean =>
  phase.kind === 'idle' &&
  entries.length + readings.length === 0 &&
  keptState === null &&
  doubtful === null &&
  dropped === null;

export const turn = (
  queue: Queue,
  input: QueueInput,
  now: Now,
): { readonly queue: Queue; readonly effect: QueueEffect | null } =>
  next(trimmed(heard(queue, input, now), now.monotonic), now);

const after = (moment: MonotonicMillis, millis: number): MonotonicMillis => monotonicMillis(moment + millis);

const isGrave = ({ rank }: Waiting): boolean => rank === 'grave';

const restMillis = (failures: number): number =>
  failures <= 1 ? 0 : Math.min(REST_MILLIS_LAST, REST_MILLIS_FIRST * power(2, failures - 2));

const heard = (queue: Queue, input: QueueInput, now: Now): Queue => {
  const at = now.monotonic;
  switch (input.kind) {
    case 'append':
      return {
        ...queue,
        entries: [...queue.entries, ...input.items.filter(({ rank }) => rank !== 'reading')],
        readings: [...queue.readings, ...input.items.filter(({ rank }) => rank === 'reading')],
        size: queue.size + sizeOf(input.items),
        lightSince: queue.lightSince ?? (input.items.length === 0 ? null : at),
      };
    case 'keep':
      return { ...queue, keptState: input.stateJson, lightSince: queue.lightSince ?? at };
    case 'wake':
      return queue;
    case 'end':
      return { ...queue, ending: true };
    case 'wrote':
      return queue.phase.kind === 'writing' ? written(queue, queue.phase.taken, input.wrote, at) : queue;
    case 'reopened':
      return queue.phase.kind === 'reopening' ? reopened(queue, input.reopened, now) : queue;
  }
};

const inTrouble = (queue: Queue, why: string, at: MonotonicMillis): Trouble => ({
  why,
  since: queue.trouble?.since ?? at,
  dropped: queue.trouble?.dropped ?? 0,
});

const written = (queue: Queue, took: Taken, wrote: Wrote, at: MonotonicMillis): Queue => {
  const failures = queue.failures + 1;
  switch (wrote.kind) {
    case 'durable': {
      const durable = took.firstSeq + took.entries.length - 1;
      // What is not grave still waits for room.
      if (took.grave && queue.full) {
        return { ...queue, durable, failures: 0, phase: resting(at, REST_MILLIS_LAST, 'write') };
      }
      return { ...queue, durable, failures: 0, full: false, trouble: null, phase: { kind: 'idle' } };
    }
    case 'full': {
      const back = requeued(queue, took, at);
      // What is grave is tried again at once, alone: for that there is a reserve.
      // All that waits has had its turn then: only what comes later is tried before the rest is over.
      const millis = took.grave || !back.entries.some(isGrave) ? REST_MILLIS_LAST : 0;
      const trouble = inTrouble(queue, wrote.why, at);
      const entries = back.entries.map((item): Waiting =>
        item.tried === true ? item : { ...item, tried: true },
      );
      return { ...back, entries, full: true, trouble, phase: resting(at, millis, 'write') };
    }
    case 'failed':
      return {
        ...queue,
        failures,
        doubtful: took,
        trouble: inTrouble(queue, wrote.why, at),
        phase: resting(at, restMillis(failures), 'reopen'),
      };
  }
};

const reopened = (queue: Queue, found: Reopened, now: Now): Queue => {
  const at = now.monotonic;
  if (found.kind === 'refused') {
    const failures = queue.failures + 1;
    return {
      ...queue,
      failures,
      trouble: inTrouble(queue, found.why, at),
      phase: resting(at, Math.max(REST_MILLIS_FIRST, restMillis(failures)), 'reopen'),
    };
  }
  const { doubtful, trouble, failures } = queue;
  const last = doubtful === null ? 0 : doubtful.firstSeq + doubtful.entries.length - 1;
  // Readings alone leave no number behind by which to know them: rather twice than never.
  const arrived =
    doubtful !== null && doubtful.entries.length > 0 && found.lastSeq >= last && found.setAside === null;
  const back = doubtful === null || arrived ? queue : requeued(queue, doubtful, at);
  const marker: readonly Waiting[] =
    found.setAside === null ? [] : [setAsideItem(found.setAside.path, found.setAside.why, now)];
  return {
    ...back,
    doubtful: null,
    durable: found.lastSeq,
    entries: [...marker, ...back.entries],
    size: back.size + sizeOf(marker),
    trouble: isTroubleOver(back) ? null : trouble,
    phase: failures > 1 ? resting(at, restMillis(failures), 'write') : { kind: 'idle' },
  };
};

/** With nothing left to write no write can show that the trouble is over; the open file does. */
const isTroubleOver = ({ entries, readings, keptState }: Queue): boolean =>
  entries.length + readings.length === 0 && keptState === null;

export const setAsideItem = (path: string, why: string, { monotonic: at, wall }: Now): Waiting => ({
  at,
  wall,
  kind: 'damaged-file-set-aside',
  json: JSON.stringify({ path, why }),
  rank: 'grave',
});

const resting = (at: MonotonicMillis, millis: number, then: 'write' | 'reopen'): Phase => ({
  kind: 'resting',
  until: after(at, millis),
  then,
});

const isDue = (queue: Queue, at: MonotonicMillis): boolean =>
  queue.entries.length > 0 ||
  queue.dropped !== null ||
  ((queue.ending || (queue.lightSince !== null && at >= after(queue.lightSince, LIGHT_MILLIS))) &&
    (queue.readings.length > 0 || queue.keptState !== null));

const next = (queue: Queue, now: Now): { readonly queue: Queue; readonly effect: QueueEffect | null } => {
  const { phase } = queue;
  const at = now.monotonic;
  if (phase.kind === 'writing' || phase.kind === 'reopening') return { queue, effect: null };
  const graveWaits = queue.entries.some(isGrave);
  if (phase.kind === 'resting') {
    // An alarm that comes while the disk is full is tried at once; those that have been tried wait for their turn.
    const graveIsNew = queue.entries.some((item) => isGrave(item) && item.tried !== true);
    const mayTry = at >= phase.until || (phase.then === 'write' && queue.full && graveIsNew);
    if (!mayTry) return { queue, effect: null };
    if (phase.then === 'reopen') {
      return {
        queue: { ...queue, phase: { kind: 'reopening', since: at } },
        effect: { kind: 'reopen', lastSeq: queue.durable },
      };
    }
  }
  const idle: Queue = { ...queue, phase: { kind: 'idle' } };
  if (!isDue(idle, at)) return { queue: idle, effect: null };
  const only = queue.full && graveWaits ? 'grave' : 'all';
  const { rest, took } = taken(idle, only, now);
  return {
    queue: { ...rest, phase: { kind: 'writing', taken: took, since: at } },
    effect: {
      kind: 'write',
      batch: {
        firstSeq: took.firstSeq,
        entries: took.entries,
        readings: took.readings,
        keptState: took.keptState,
        grave: took.grave,
      },
    },
  };
};
