import { QueueRun } from '../../sim/campaign/queue-run.ts';
import type { VirtualDisk } from '../../sim/campaign/virtual-disk.ts';
import type { Waiting } from '../../src/journal/queue-state.ts';
import { rankOf } from '../../src/journal/rank.ts';
import { monotonicMillis, wallMillis, type Now } from '../../src/time/instant.ts';

const momentAt = (millis: number): Now => ({
  monotonic: monotonicMillis(millis),
  wall: wallMillis(Date.UTC(2026, 6, 14) + millis),
});

export const item = (kind: string, json: string, atMillis = 0): Waiting => ({
  at: monotonicMillis(atMillis),
  wall: 'unknown',
  kind,
  json,
  rank: rankOf(kind),
});

/** A queue before a disk that takes `millis` for each call, from the moment 0 on. */
export const queueBefore = (disk: VirtualDisk, millis: number | (() => number) = 5): QueueRun =>
  new QueueRun(disk, { callMillis: typeof millis === 'number' ? () => millis : millis, clocks: momentAt });
