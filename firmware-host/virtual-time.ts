import { createClock } from '@sinonjs/fake-timers';
import { monotonicMillis, type MonotonicMillis } from '../src/time/instant.ts';
import type { Timers, TimerId } from './devices/timers.ts';

/** Timers that stand still until they are moved on. */
export interface VirtualTime {
  readonly timers: Timers;
  /** Runs everything that falls due up to `moment`, in its order. */
  readonly advance: (moment: MonotonicMillis) => void;
  readonly waiting: () => number;
}

/** Timers that may fall due in one step; more is a loop that never ends. */
const LOOP_MAX = 1_000_000;

export const virtualTime = (startMillis: number): VirtualTime => {
  const clock = createClock(startMillis, LOOP_MAX);
  const now = (): MonotonicMillis => monotonicMillis(clock.now);
  return {
    timers: {
      now,
      setTimeout: (run, millis) => clock.setTimeout(run, millis) as unknown as TimerId,
      clearTimeout: (id) => {
        clock.clearTimeout(id);
      },
      setInterval: (run, millis) => clock.setInterval(run, millis) as unknown as TimerId,
      clearInterval: (id) => {
        clock.clearInterval(id);
      },
    },
    advance: (moment) => {
      clock.tick(Math.max(0, moment - clock.now));
    },
    waiting: () => clock.countTimers(),
  };
};
