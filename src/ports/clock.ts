import type { MonotonicMillis, Now } from '../time/instant.ts';

export interface Clock {
  readonly now: () => Now;
  /** Resolves at `moment` or soon after; at once when it has passed. */
  readonly until: (moment: MonotonicMillis) => Promise<void>;
}
