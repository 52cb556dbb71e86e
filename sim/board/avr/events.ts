import { assert } from '../../../src/units/assertion.ts';

/** One thing that happens at a cycle known beforehand; setting it again moves it. */
export interface Alarm {
  readonly set: (atCycle: number) => void;
  readonly clear: () => void;
}

/** What the hardware round the processor does by itself. */
export interface Events {
  /** Cycle of the earliest alarm, `Infinity` when none is set. */
  readonly nextAt: number;
  /** `run` is told the cycle for which it was set, which may be a few before the present one. */
  readonly alarm: (run: (dueAt: number) => void) => Alarm;
  /** Runs what is due, in order of its cycles; of two at the same cycle the one made first. */
  readonly runDue: (nowCycle: number) => void;
  /** Makes `nextAt` the past, so that whoever waits for it looks up after the present instruction. */
  readonly interrupt: () => void;
}

/** Alarms of one chip: one for each thing that its peripherals wait for. */
const ALARMS_MAX = 16;

export const createEvents = (): Events => {
  const dueAt = new Float64Array(ALARMS_MAX).fill(Infinity);
  const runs: ((dueAt: number) => void)[] = [];
  const due = (slot: number): number => dueAt[slot] ?? Infinity;
  const earliest = (): number => {
    let first = 0;
    for (let slot = 1; slot < runs.length; slot += 1) if (due(slot) < due(first)) first = slot;
    return first;
  };
  const events = {
    nextAt: Infinity,
    alarm: (run: (dueAt: number) => void): Alarm => {
      const slot = runs.length;
      assert(slot < ALARMS_MAX, `more than ${ALARMS_MAX} alarms`);
      runs.push(run);
      return {
        set: (atCycle) => {
          const wasNext = due(slot) === events.nextAt;
          dueAt[slot] = atCycle;
          if (atCycle < events.nextAt) events.nextAt = atCycle;
          else if (wasNext) events.nextAt = due(earliest());
        },
        clear: () => {
          const wasNext = due(slot) === events.nextAt;
          dueAt[slot] = Infinity;
          if (wasNext) events.nextAt = due(earliest());
        },
      };
    },
    runDue: (nowCycle: number): void => {
      for (;;) {
        const slot = earliest();
        const at = due(slot);
        if (at > nowCycle) {
          events.nextAt = at;
          return;
        }
        dueAt[slot] = Infinity;
        runs[slot]?.(at);
      }
    },
    interrupt: (): void => {
      events.nextAt = -Infinity;
    },
  };
  return events;
};
