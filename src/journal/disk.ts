import type { MonotonicMillis, WallMillis } from '../time/instant.ts';

/** An entry as it is written: its moment and kind for searching, all else as JSON. */
export interface Written {
  readonly at: MonotonicMillis;
  readonly wall: WallMillis | 'unknown';
  readonly kind: string;
  readonly json: string;
}

/** What is written in one piece, or not at all. */
export interface Batch {
  /** The first of `entries`; those behind it follow without a gap. */
  readonly firstSeq: number;
  readonly entries: readonly Written[];
  readonly readings: readonly Written[];
  /** JSON text of the state to begin with after a restart; null leaves the one before. */
  readonly keptState: string | null;
  /** Nothing but what must not be lost: for this the disk gives its reserve. */
  readonly grave: boolean;
}

export type Wrote =
  /** On the disk for good. */
  | { readonly kind: 'durable' }
  /** Surely nothing of it was written, for want of room; the disk may be asked again as it is. */
  | { readonly kind: 'full'; readonly why: string }
  /** Nobody knows what was written: the file must be opened anew before anything else. */
  | { readonly kind: 'failed'; readonly why: string };

export type Reopened =
  /** `lastSeq` is the last entry that is on the disk for good. */
  | { readonly kind: 'open'; readonly lastSeq: number; readonly setAside: SetAside | null }
  | { readonly kind: 'refused'; readonly why: string };

/** Where a file that could not be believed lies now. */
export interface SetAside {
  readonly path: string;
  readonly why: string;
}

/** Takes one call at a time. Never rejects: what the world does is a value. */
export interface Disk {
  readonly write: (batch: Batch) => Promise<Wrote>;
  /** A new file begins behind `lastSeq`, so that no number is used twice. */
  readonly reopen: (lastSeq: number) => Promise<Reopened>;
}
