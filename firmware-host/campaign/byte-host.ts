import { absentUntil, clocksAt } from '../../sim/campaign/host-life.ts';
import type { Hits } from '../../sim/campaign/hits.ts';
import { givenAs, type Ordered } from '../../sim/campaign/orders.ts';
import { reborn } from '../../sim/campaign/reborn.ts';
import { standingHost, type Script } from '../../sim/campaign/script.ts';
import type { OrderGiven } from '../../sim/oracle/record.ts';
import type { Upkeep } from '../../sim/campaign/upkeep.ts';
import { begin, type ControllerState, type Event } from '../../src/controller.ts';
import type { Farm, Wiring } from '../../src/farm/farm.ts';
import type { Entry } from '../../src/journal/entry.ts';
import type { Clock } from '../../src/ports/clock.ts';
import type { Now } from '../../src/time/instant.ts';
import { createBoardLink } from '../devices/board-link.ts';
import type { LineSource } from '../devices/line.ts';
import type { Timers } from '../devices/timers.ts';
import { run } from '../run-loop.ts';
import { PORT } from './broken-line.ts';
import { hostLines } from './host-lines.ts';
import { sleepingTimers } from './sleeping-timers.ts';

/** The longest that time passes without a turn for what waits for an answer. */
const TURN_MILLIS = 1000;
/** A host hears within this that its line is gone. */
const HEARD_MILLIS = 10_000;
const CLOCK_FAULTS = ['clock-ahead', 'clock-back', 'clock-years', 'clock-unset'] as const;
const LINE_FAULTS = ['link-lost', 'link-flapping', 'board-reset'] as const;

/** What waits for an answer or for the next turn of the event loop gets it. */
const turn = (): Promise<void> =>
  new Promise((taken) => {
    setImmediate(taken);
  });

/** The power of the host is cut, or the run is at its end: nobody lets go of anything. */
class PowerCut extends Error {}

export interface ByteHost {
  readonly farm: Farm;
  readonly wiring: Wiring;
  readonly script: Script;
  readonly endMillis: number;
  /** Of the world. */
  readonly timers: Timers;
  /** Lets time pass in the world, at most up to this moment. */
  readonly advance: (untilMillis: number) => void;
  readonly lines: LineSource;
  readonly heard: (bytes: Uint8Array) => Uint8Array;
  readonly written: (bytes: Uint8Array) => Uint8Array;
  /** Those still to come; what is given or lost is taken out. */
  readonly orders: Ordered[];
  /** Those that a host has heard, for the judge. */
  readonly given: OrderGiven[];
  readonly hits: Hits;
  /** What the host does beside the pump: its book and its calls. */
  readonly upkeep: Upkeep;
}

/**
 * One life of a host, from now until its power is cut or the run ends: its own loop on its own board link.
 * `kept` is what the life before left on its disk, null for the first; gives the last state of this one.
 */
export const hostLife = async (host: ByteHost, kept: string | null): Promise<ControllerState> => {
  const { farm, wiring, script, endMillis, hits, orders, given, upkeep } = host;
  const at = (): number => host.timers.now();
  const bornMillis = at();
  const clocksOf = (atMillis: number): Now => clocksAt(script, bornMillis, atMillis);
  const now = (): Now => clocksOf(at());
  const counted = now().monotonic - bornMillis;

  const timers = sleepingTimers(host.timers, () => now().monotonic);
  const lines = hostLines(host.lines, host.heard, host.written);
  const board = createBoardLink({
    wiring,
    deadBoard: farm.deadBoard,
    use: 'drive',
    lines,
    port: PORT,
    timers,
  });

  let wasUp = false;
  const looked = (): void => {
    for (const kind of CLOCK_FAULTS) if (standingHost(script, kind, at()) !== null) hits.add(kind);
    const isUp = board.link().kind === 'up';
    if (isUp) hits.look();
    if (wasUp && !isUp) {
      for (const { kind, fromMillis, untilMillis } of script.host)
        if (
          LINE_FAULTS.some((fault) => fault === kind) &&
          fromMillis <= at() &&
          at() < untilMillis + HEARD_MILLIS
        )
          hits.add(kind);
    }
    wasUp = isUp;
  };
  const ordered = (): readonly Event[] => {
    const due = orders.filter(({ atMillis }) => atMillis <= at());
    orders.splice(0, due.length);
    // What was said while nobody could hear it is said to nobody.
    const heard = due.filter(({ atMillis }) => absentUntil(script, atMillis) === null);
    for (const one of heard) {
      hits.add(one.by);
      given.push(givenAs({ ...one, atMillis: at() }));
    }
    return heard.map(({ event }) => event);
  };

  const clock: Clock = {
    now,
    until: async (moment) => {
      const late = standingHost(script, 'late-ticks', at());
      if (late !== null) hits.add('late-ticks');
      const dueMillis = moment - counted + 1000 * (late?.amount ?? 0);
      for (;;) {
        const gone = absentUntil(script, at());
        if (gone?.kind === 'host-killed' || at() >= endMillis) {
          lines.cut();
          throw new PowerCut();
        }
        if (gone !== null) {
          hits.add('host-frozen');
          upkeep.stood(state, at());
          timers.sleep();
          lines.sleep();
          host.advance(Math.min(gone.untilMillis, endMillis));
          upkeep.thawed(at());
          continue;
        }
        timers.wake();
        lines.wake();
        if (at() >= dueMillis) return;
        host.advance(Math.min(dueMillis, at() + TURN_MILLIS, endMillis));
        await turn();
      }
    },
  };

  let state: ControllerState =
    kept === null ? begin(farm, now(), board.link()) : reborn(farm, kept, now(), board.link());
  let entered: readonly Entry[] = [];
  try {
    await run({
      farm,
      board,
      clock,
      journal: {
        append: (entries) => {
          // What a step has entered has been written with all else that it has come to.
          if (entries !== entered) upkeep.write(entries, null, at());
        },
      },
      until: 'stopped',
      stop: new AbortController().signal,
      begun: () => state,
      events: () => {
        looked();
        upkeep.stood(state, at());
        return [...upkeep.news(at()), ...ordered()];
      },
      told: (step) => {
        upkeep.stood(state, at());
        state = step.state;
        entered = step.entries;
        upkeep.told(step, at());
      },
    });
  } catch (error) {
    if (!(error instanceof PowerCut)) throw error;
  }
  upkeep.stood(state, at());
  await board.close();
  return state;
};
