import type { MonotonicMillis } from '../../../src/time/instant.ts';
import type { KeeperStatus } from './status.ts';

/** What a board said of itself, and when it was heard. */
export interface Heard {
  readonly status: KeeperStatus;
  readonly at: MonotonicMillis;
}
