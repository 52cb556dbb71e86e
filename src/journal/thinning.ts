import { MILLIS_PER_MINUTE } from '../time/instant.ts';
import type { Entry } from './entry.ts';

type ReadingEntry = Extract<Entry, { kind: 'reading' }>;

interface Kept {
  readonly entry: ReadingEntry;
  /** Changes written since the minute of `minuteFrom` began. */
  readonly changes: number;
  readonly minuteFrom: number;
}

/** What was last kept of each channel. */
export type Thinned = ReadonlyMap<string, Kept>;

export const NOTHING_KEPT: Thinned = new Map();

/** A contact that chatters must not fill the disk: more changes in a minute say no more than these. */
export const CHANGES_A_MINUTE = 10;
/** No farm has so many sensors; names beyond are a defect and are not kept. */
const CHANNELS_MAX = 200;

const isChange = (before: ReadingEntry, now: ReadingEntry): boolean =>
  before.quality !== now.quality ||
  (typeof before.value !== 'number' || typeof now.value !== 'number' ? before.value !== now.value : false);

/** At most one value a channel a minute, and besides each change of a contact or of the quality. */
export const thin = (
  kept: Thinned,
  entry: ReadingEntry,
): { readonly kept: Thinned; readonly keeps: boolean } => {
  const before = kept.get(entry.channel);
  if (before === undefined) {
    if (kept.size >= CHANNELS_MAX) return { kept, keeps: false };
    return { kept: withOne(kept, { entry, changes: 0, minuteFrom: entry.at }), keeps: true };
  }
  if (entry.at - before.minuteFrom >= MILLIS_PER_MINUTE) {
    return { kept: withOne(kept, { entry, changes: 0, minuteFrom: entry.at }), keeps: true };
  }
  if (!isChange(before.entry, entry) || before.changes >= CHANGES_A_MINUTE) return { kept, keeps: false };
  return { kept: withOne(kept, { ...before, entry, changes: before.changes + 1 }), keeps: true };
};

const withOne = (kept: Thinned, one: Kept): Thinned => new Map(kept).set(one.entry.channel, one);
