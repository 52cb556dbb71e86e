import { secondsBetween, type MonotonicMillis } from '../../src/time/instant.ts';

/**
 * Megabytes of 2^20 bytes, as systemd counts them. The unit of the service ends a host at 300 (MemoryMax=), wherever it then is;
 * one with all its channels takes 110, at its most 126 (measured: tests/bench/footprint.bench.ts).
 */
export const MEMORY = { large: 200, shrunk: 180, nearLimit: 260 } as const;
/** It must have been large for so long: garbage of a moment goes by itself. Judgement. */
const LASTING_SECONDS = 60;
const EVERY_SECONDS = 20;
const BYTES_PER_MEGABYTE = 2 ** 20;

export type MemoryGauge = () => number;

/** Resident memory of this process, all threads. */
export const residentMegabytes: MemoryGauge = () => process.memoryUsage.rss() / BYTES_PER_MEGABYTE;

/** A host that takes too much, with the newest look. */
export interface LargeMemory {
  readonly megabytes: number;
  readonly since: MonotonicMillis;
  /** Large for a moment only, or for long enough to be told. */
  readonly kind: 'for-a-moment' | 'lasting';
}

export const memoryAfter = (
  before: LargeMemory | null,
  megabytes: number,
  now: MonotonicMillis,
): LargeMemory | null => {
  const limit = before?.kind === 'lasting' ? MEMORY.shrunk : MEMORY.large;
  if (!(megabytes >= limit)) return null;
  const since = before?.since ?? now;
  const lasts = before?.kind === 'lasting' || secondsBetween(since, now) >= LASTING_SECONDS;
  return { megabytes, since, kind: lasts ? 'lasting' : 'for-a-moment' };
};

/** Looks three times a minute; null as long as there is nothing to tell. */
export const memoryWatch = (gauge: MemoryGauge): ((now: MonotonicMillis) => LargeMemory | null) => {
  let memory: LargeMemory | null = null;
  let lookedAt: MonotonicMillis | null = null;
  return (now) => {
    if (lookedAt === null || secondsBetween(lookedAt, now) >= EVERY_SECONDS) {
      lookedAt = now;
      memory = memoryAfter(memory, gauge(), now);
    }
    return memory?.kind === 'lasting' ? memory : null;
  };
};
