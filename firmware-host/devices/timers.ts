import type { MonotonicMillis } from '../../src/time/instant.ts';
import { monotonicNow } from '../monotonic.ts';

export type TimerId = ReturnType<typeof setTimeout>;

/** The clock of everything that waits or repeats near the board: real, or one that a simulation moves on. */
export interface Timers {
  readonly now: () => MonotonicMillis;
  readonly setTimeout: (run: () => void, millis: number) => TimerId;
  readonly clearTimeout: (id: TimerId | undefined) => void;
  readonly setInterval: (run: () => void, millis: number) => TimerId;
  readonly clearInterval: (id: TimerId | undefined) => void;
}

export const realTimers: Timers = {
  now: monotonicNow,
  setTimeout,
  clearTimeout,
  setInterval,
  clearInterval,
};

/** Timers that all end together. One that is set after the end never runs. */
export interface LentTimers extends Timers {
  readonly end: () => void;
}

/** Timers for something that goes as a whole, without word to each of its parts. */
export const lentTimers = (timers: Timers): LentTimers => {
  const timeouts = new Set<TimerId>();
  const intervals = new Set<TimerId>();
  let over = false;
  return {
    now: timers.now,
    setTimeout: (run, millis) => {
      const id = timers.setTimeout(() => {
        timeouts.delete(id);
        run();
      }, millis);
      if (over) timers.clearTimeout(id);
      else timeouts.add(id);
      return id;
    },
    clearTimeout: (id) => {
      if (id !== undefined) timeouts.delete(id);
      timers.clearTimeout(id);
    },
    setInterval: (run, millis) => {
      const id = timers.setInterval(run, millis);
      if (over) timers.clearInterval(id);
      else intervals.add(id);
      return id;
    },
    clearInterval: (id) => {
      if (id !== undefined) intervals.delete(id);
      timers.clearInterval(id);
    },
    end: () => {
      over = true;
      for (const id of timeouts) timers.clearTimeout(id);
      for (const id of intervals) timers.clearInterval(id);
      timeouts.clear();
      intervals.clear();
    },
  };
};
