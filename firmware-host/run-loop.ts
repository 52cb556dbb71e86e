import { begin, step, type ControllerState, type Event, type Step } from '../src/controller.ts';
import type { Farm } from '../src/farm/farm.ts';
import type { Entry } from '../src/journal/entry.ts';
import { floodEnded, owing } from '../src/plan/schedule.ts';
import type { Board, Link, Press, TimeOfDay } from '../src/ports/board.ts';
import type { Clock } from '../src/ports/clock.ts';
import type { Journal } from '../src/ports/journal.ts';
import {
  afterSeconds,
  monotonicMillis,
  type MonotonicMillis,
  type Now,
  type WallMillis,
} from '../src/time/instant.ts';
import { believedNow } from '../src/time/clock-trust.ts';
import { localTimeOfDay } from '../src/time/local-day.ts';
import { stopped } from '../src/verify/flood-verdict.ts';
import type { Flood } from '../src/verify/flood.ts';
import type { Verdict } from '../src/verify/verdict.ts';

/** The host looks at its board this often, whatever the controller waits for. */
const TICK_SECONDS = 1;
/** Until it has found it for the first time it looks more often: the plants wait for control. */
const FINDING_SECONDS = 0.2;
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
  /** The state to begin with; as one that knows nothing unless given. */
  readonly begun?: (now: Now, link: Link) => ControllerState;
  /** What others than the board have to say to the controller, asked at each tick. */
  readonly events?: (now: Now) => readonly Event[];
  /** Called after each step and before its entries are appended, for whoever shows the state to a person or keeps it. */
  readonly told?: (step: Step, now: Now) => void;
  /** Called at each tick with the wall time as far as it can be believed. */
  readonly believes?: (wall: WallMillis | 'unknown') => void;
}

/** Whether there is a board that floods by its own table once this host is gone. */
const keeps = (link: Link): boolean =>
  link.kind === 'up' ? link.kept !== undefined : link.keeper === 'keeps';

/**
 * What the journal keeps of the end. A flood under way gets its verdict like any other; a stock board's pump goes off,
 * and one that keeps the plants goes on with it.
 */
const closing = (
  { flood, link }: ControllerState,
  { monotonic: at, wall }: Now,
  left: 'to-board' | 'off',
): readonly Entry[] => {
  const kept = left === 'to-board';
  const verdict = (of: Flood): Verdict =>
    kept && of.phase.kind === 'running'
      ? { kind: 'unproven', says: 'the run ended, and the board goes on with it' }
      : stopped(of, 'the run ended', at);
  const judged: readonly Entry[] =
    flood === null
      ? []
      : [{ kind: 'verdict', flood: flood.id, part: flood.part, verdict: verdict(flood), at, wall }];
  if (!kept) return [...judged, { kind: 'pump-asked', pump: 'off', longestSeconds: null, at, wall }];
  return link.kind === 'down' ? judged : [...judged, { kind: 'left-to-board', at, wall }];
};

/**
 * What is known when this host lets go: the flood under way has its verdict, and where it was cut short by a board that
 * keeps nothing another is owed at the next start.
 */
const letGo = (state: ControllerState, now: Now, left: 'to-board' | 'off'): ControllerState => {
  if (state.flood === null) return state;
  const over = { ...state, flood: null };
  if (left === 'to-board') return over;
  const schedule = floodEnded(state.schedule, now.monotonic);
  // While it drains the pump has had its time.
  if (state.flood.phase.kind === 'draining') return { ...over, schedule };
  return { ...over, schedule: owing(schedule, 'the last one was cut short by the end of the run') };
};

/** A board that has changed hands meanwhile tells something new, though it is up as before. */
const sameLink = (one: Link, other: Link): boolean =>
  one.kind === 'down'
    ? other.kind === 'down' && one.why === other.why
    : other.kind === 'up' && one.kept === other.kept;

/** The local clock of the farm. */
const timeOfDay = (farm: Farm, wall: WallMillis | 'unknown'): TimeOfDay | 'unknown' =>
  wall === 'unknown' ? wall : localTimeOfDay(wall, farm.place.timeZone);

const pressEvents = (press: Press): readonly Event[] => {
  const who = 'the button';
  if (press === 'short') return [{ kind: 'flood-now', who }];
  if (press === 'long') return [{ kind: 'hold', minutes: BUTTON_HOLD_MINUTES, who }];
  return press.heldSeconds === 0 ? [] : [{ kind: 'hold', minutes: press.heldSeconds / 60, who }];
};

/**
 * The host's loop: once a second it hands the controller what the board saw and what became of the link, and
 * passes on what it commands. Only once all of that is done does the board hear that this host lives. Whatever ends
 * it, a stock board's pump is asked off then; a board that keeps the plants takes over.
 * Gives the state in which it let go, every flood of it judged.
 */
export const run = async (asked: RunAsked): Promise<ControllerState> => {
  const { farm, board, clock, journal, until, stop } = asked;
  const end = until === 'stopped' ? monotonicMillis(Number.MAX_SAFE_INTEGER) : until;
  let link = board.link();
  let found = link.kind === 'up';
  let state = asked.begun?.(clock.now(), link) ?? begin(farm, clock.now(), link);
  /** No date of a clock that cannot be right stands in the journal (fault 22). */
  const believed = (): Now => believedNow(state.clock, clock.now());
  const { monotonic: at, wall } = believed();
  journal.append([{ kind: 'started', farm: farm.farm, at, wall }]);
  let wake = clock.now().monotonic;
  const stopAsked = (): boolean => stop.aborted;

  const happened = (): readonly Event[] => {
    const before = link;
    link = board.link();
    found ||= link.kind === 'up';
    return [
      ...(asked.events?.(clock.now()) ?? []),
      ...(sameLink(before, link) ? [] : [{ kind: 'link', link } as const]),
      { kind: 'samples', samples: board.samples() },
      ...board.presses().flatMap(pressEvents),
    ];
  };

  try {
    while (!stopAsked() && clock.now().monotonic < end) {
      await clock.until(monotonicMillis(Math.min(wake, end)));
      if (stopAsked()) break;
      for (const event of happened()) {
        const next = step(farm, state, event, clock.now());
        state = next.state;
        const tick = afterSeconds(clock.now().monotonic, found ? TICK_SECONDS : FINDING_SECONDS);
        wake = monotonicMillis(Math.min(next.wake, tick));
        next.commands.forEach((command) => {
          board.command(command);
        });
        board.show(next.signals);
        asked.told?.(next, clock.now());
        journal.append(next.entries);
      }
      const believedWall = believed().wall;
      asked.believes?.(believedWall);
      board.alive(timeOfDay(farm, believedWall));
    }
  } finally {
    if (!keeps(board.link())) board.command({ kind: 'pump-off' });
  }
  const left = keeps(board.link()) ? 'to-board' : 'off';
  journal.append(closing(state, believed(), left));
  return letGo(state, clock.now(), left);
};
