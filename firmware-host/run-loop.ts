import { begin, step, type ControllerState, type Event } from '../src/controller.ts';
import type { Farm } from '../src/farm/farm.ts';
import type { Entry } from '../src/journal/entry.ts';
import type { Board } from '../src/ports/board.ts';
import type { Clock } from '../src/ports/clock.ts';
import type { Journal } from '../src/ports/journal.ts';
import { monotonicMillis, type MonotonicMillis, type Now } from '../src/time/instant.ts';
import { stopped } from '../src/verify/flood.ts';

export interface RunAsked {
  readonly farm: Farm;
  readonly board: Board;
  readonly clock: Clock;
  readonly journal: Journal<Entry>;
  readonly until: MonotonicMillis | 'stopped';
  /** Aborting ends the run at the next wake of the clock, with the pump asked off. */
  readonly stop: AbortSignal;
}

/** What the journal keeps of the end: a flood under way gets its verdict like any other, and the pump goes off. */
const closing = ({ flood }: ControllerState, { monotonic: at, wall }: Now): readonly Entry[] => [
  ...(flood === null
    ? []
    : [
        {
          kind: 'verdict',
          flood: flood.id,
          part: flood.part,
          verdict: stopped(flood, 'the run ended', at),
          at,
          wall,
        } as const,
      ]),
  { kind: 'pump-asked', pump: 'off', longestSeconds: null, at, wall },
];

/**
 * The host's loop: waits for the moment the controller named, hands it what the board saw, and passes on what
 * it commands. Ends with the pump asked off, whatever ended it.
 */
export const run = async (asked: RunAsked): Promise<void> => {
  const { farm, board, clock, journal, until, stop } = asked;
  const end = until === 'stopped' ? monotonicMillis(Number.MAX_SAFE_INTEGER) : until;
  let state = begin(farm, clock.now());
  journal.append([{ kind: 'started', farm: farm.farm, at: clock.now().monotonic, wall: clock.now().wall }]);
  let wake = clock.now().monotonic;
  const stopAsked = (): boolean => stop.aborted;
  try {
    while (!stopAsked() && clock.now().monotonic < end) {
      await clock.until(monotonicMillis(Math.min(wake, end)));
      if (stopAsked()) break;
      const event: Event = { kind: 'samples', samples: board.samples() };
      const next = step(farm, state, event, clock.now());
      state = next.state;
      wake = next.wake;
      next.commands.forEach((command) => {
        board.command(command);
      });
      journal.append(next.entries);
    }
  } finally {
    board.command({ kind: 'pump-off' });
  }
  journal.append(closing(state, clock.now()));
};
