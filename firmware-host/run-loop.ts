import { begin, step, type ControllerState, type Event, type Step } from '../src/controller.ts';
import type { Farm } from '../src/farm/farm.ts';
import type { Entry } from '../src/journal/entry.ts';
import type { Board, Link, Press } from '../src/ports/board.ts';
import type { Clock } from '../src/ports/clock.ts';
import type { Journal } from '../src/ports/journal.ts';
import { afterSeconds, monotonicMillis, type MonotonicMillis, type Now } from '../src/time/instant.ts';
import { stopped } from '../src/verify/flood.ts';

/** The host looks at its board this often, whatever the controller waits for. */
const TICK_SECONDS = 1;
/** A long press of the button: time to clean a filter. */
const BUTTON_HOLD_MINUTES = 30;

export interface RunAsked {
  readonly farm: Farm;
  readonly board: Board;
  readonly clock: Clock;
  readonly journal: Journal<Entry>;
  readonly until: MonotonicMillis | 'stopped';
  /** Aborting ends the run at the next wake of the clock, with the pump asked off. */
  readonly stop: AbortSignal;
  /** Called after each tick, for whoever shows the state to a person. */
  readonly told?: (step: Step, now: Now) => void;
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

const sameLink = (one: Link, other: Link): boolean =>
  one.kind === 'down' ? other.kind === 'down' && one.why === other.why : other.kind === 'up';

const pressEvent = (press: Press): Event =>
  press === 'short'
    ? { kind: 'flood-now', who: 'the button' }
    : { kind: 'hold', minutes: BUTTON_HOLD_MINUTES, who: 'the button' };

/**
 * The host's loop: once a second it hands the controller what the board saw and what became of the link, and
 * passes on what it commands. Ends with the pump asked off, whatever ended it.
 */
export const run = async (asked: RunAsked): Promise<void> => {
  const { farm, board, clock, journal, until, stop } = asked;
  const end = until === 'stopped' ? monotonicMillis(Number.MAX_SAFE_INTEGER) : until;
  let link = board.link();
  let state = begin(farm, clock.now(), link);
  journal.append([{ kind: 'started', farm: farm.farm, at: clock.now().monotonic, wall: clock.now().wall }]);
  let wake = clock.now().monotonic;
  const stopAsked = (): boolean => stop.aborted;

  const happened = (): readonly Event[] => {
    const before = link;
    link = board.link();
    return [
      ...(sameLink(before, link) ? [] : [{ kind: 'link', link } as const]),
      { kind: 'samples', samples: board.samples() },
      ...board.presses().map(pressEvent),
    ];
  };

  try {
    while (!stopAsked() && clock.now().monotonic < end) {
      await clock.until(monotonicMillis(Math.min(wake, end)));
      if (stopAsked()) break;
      for (const event of happened()) {
        const next = step(farm, state, event, clock.now());
        state = next.state;
        wake = monotonicMillis(Math.min(next.wake, afterSeconds(clock.now().monotonic, TICK_SECONDS)));
        next.commands.forEach((command) => {
          board.command(command);
        });
        board.show(next.signals);
        journal.append(next.entries);
        asked.told?.(next, clock.now());
      }
    }
  } finally {
    board.command({ kind: 'pump-off' });
  }
  journal.append(closing(state, clock.now()));
};
