import type { Entry } from '../../../src/journal/entry.ts';
import type { JournalHealth } from '../../../src/ports/host-health.ts';
import type { Journal } from '../../../src/ports/journal.ts';

/** The journal as the host has it: takes what happens, never waits, and says how it fares. */
export interface JournalClient extends Journal<Entry> {
  /** The newest state to begin with after a restart; written with the next batch, and within ten seconds. */
  readonly keep: (stateJson: string) => void;
  readonly health: () => JournalHealth;
  /** Whether the disk still comes back from its calls, though it may refuse them all. */
  readonly answers: () => boolean;
  /** The last entry that is on the disk for good. */
  readonly durable: () => number;
  /** Writes what waits, as long as the patience lasts, and closes the book. */
  readonly close: () => Promise<void>;
}
