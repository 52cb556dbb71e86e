import type { MonotonicMillis } from '../../src/time/instant.ts';
import type { TimerId, Timers } from '../devices/timers.ts';

/** Timers of a process that can be stopped and goes on later, on a clock that goes on meanwhile. */
export interface SleepingTimers extends Timers {
  readonly sleep: () => void;
  /** What fell due meanwhile runs now, in its order; what repeats has fallen due once, as in any event loop. */
  readonly wake: () => void;
}

/** On the timers of the world; `now` is the clock of the machine on which the process runs. */
export const sleepingTimers = (world: Timers, now: () => MonotonicMillis): SleepingTimers => {
  const due = new Map<TimerId, () => void>();
  let asleep = false;
  const later =
    (run: () => void, id: () => TimerId): (() => void) =>
    () => {
      if (!asleep) run();
      else if (!due.has(id())) due.set(id(), run);
    };
  const started = (start: Timers['setTimeout'], run: () => void, millis: number): TimerId => {
    const id: TimerId = start(
      later(run, () => id),
      millis,
    );
    return id;
  };
  return {
    now,
    setTimeout: (run, millis) => started(world.setTimeout, run, millis),
    setInterval: (run, millis) => started(world.setInterval, run, millis),
    clearTimeout: (id) => {
      if (id !== undefined) due.delete(id);
      world.clearTimeout(id);
    },
    clearInterval: (id) => {
      if (id !== undefined) due.delete(id);
      world.clearInterval(id);
    },
    sleep: () => {
      asleep = true;
    },
    wake: () => {
      asleep = false;
      for (const [id, run] of [...due]) if (due.delete(id)) run();
    },
  };
};
