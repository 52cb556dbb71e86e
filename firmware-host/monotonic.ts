import { uptime } from 'node:os';
import { monotonicMillis, type MonotonicMillis } from '../src/time/instant.ts';

/** Two counters of one machine, in milliseconds. */
export interface Counters {
  /** Fine, and stands still while the machine sleeps (CLOCK_MONOTONIC, clock_gettime(2)). */
  readonly awake: () => number;
  /** To 10 ms, and runs on in sleep (CLOCK_BOOTTIME, as /proc/uptime shows it, proc(5)). */
  readonly sinceBoot: () => number;
}

/** A smaller difference between the two is their grain, or a nap too short to count by itself. */
const SLEPT_MILLIS = 1000;

/**
 * A monotonic clock that counts sleep: roots dry on while a laptop is shut. The same moment has the same number in every
 * process since one start of the machine, to about 10 ms. Where the coarse counter goes back, as in some containers, it
 * is not followed.
 */
export const monotonicOf = ({ awake, sinceBoot }: Counters): (() => MonotonicMillis) => {
  let slept = sinceBoot() - awake();
  return () => {
    // The coarse one first, here as at the start: a process that is stopped between the two looks has not slept. The machine
    // that sleeps between them is found out at the next look.
    const coarse = sinceBoot();
    const fine = awake();
    const ahead = coarse - fine - slept;
    if (ahead > SLEPT_MILLIS) slept += ahead;
    return monotonicMillis(fine + slept);
  };
};

const NANOS_PER_MILLI = 1_000_000;

export const monotonicNow = monotonicOf({
  awake: () => Number(process.hrtime.bigint()) / NANOS_PER_MILLI,
  sinceBoot: () => uptime() * 1000,
});
