import type { MonotonicMillis } from '../time/instant.ts';
import type { Written } from './disk.ts';
import type { Rank } from './rank.ts';

/** An entry in memory. */
export interface Waiting extends Written {
  readonly rank: Rank;
  /** The disk has had it once and was full. */
  readonly tried?: true;
}

/** What the disk has in hand. */
export interface Taken {
  readonly firstSeq: number;
  readonly entries: readonly Waiting[];
  readonly readings: readonly Waiting[];
  readonly keptState: string | null;
  readonly grave: boolean;
  /** What the first of `entries` tells as given up. */
  readonly told: Dropped | null;
}

/**
 * What waits in memory for the disk, and what to do next. One call is under way at a time, so a disk that hangs holds
 * up nothing but itself. Moments are monotonic.
 */
export interface Queue {
  readonly phase: Phase;
  /** In the order in which they will be written. */
  readonly entries: readonly Waiting[];
  readonly readings: readonly Waiting[];
  /** Letters of all that waits, and what each costs besides. */
  readonly size: number;
  /** The newest state that is not yet written. */
  readonly keptState: string | null;
  /** Since when something waits that alone is worth no write. */
  readonly lightSince: MonotonicMillis | null;
  /** The last entry that is on the disk for good. */
  readonly durable: number;
  /** Handed to the disk, and nobody knows whether it arrived. */
  readonly doubtful: Taken | null;
  readonly dropped: Dropped | null;
  readonly trouble: Trouble | null;
  /** In a row. */
  readonly failures: number;
  readonly full: boolean;
  /** Everything is written at once: the host ends. */
  readonly ending: boolean;
}

export interface Dropped {
  readonly entries: number;
  readonly readings: number;
  readonly since: MonotonicMillis;
}

export interface Trouble {
  readonly why: string;
  readonly since: MonotonicMillis;
  /** Entries and readings given up meanwhile. */
  readonly dropped: number;
}

export type Phase =
  | { readonly kind: 'idle' }
  | { readonly kind: 'writing'; readonly taken: Taken; readonly since: MonotonicMillis }
  | { readonly kind: 'resting'; readonly until: MonotonicMillis; readonly then: 'write' | 'reopen' }
  | { readonly kind: 'reopening'; readonly since: MonotonicMillis };
