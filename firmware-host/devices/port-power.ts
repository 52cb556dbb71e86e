import { HOLD_MINUTES_MAX } from '../../src/command/orders.ts';
import { secondsBetween, type MonotonicMillis } from '../../src/time/instant.ts';
import type { Timers, TimerId } from './timers.ts';

/** A board that resets, or whose plug a person moves, is back within this. */
const SILENT_SECONDS = 60;
/** Of one that may be flooding, or held by its button, unheard: longer than the longest hold. */
const UNKNOWN_SILENT_SECONDS = 60 * HOLD_MINUTES_MAX + SILENT_SECONDS;
/** Since the last time. Judgement. */
const APART_SECONDS = [0, 600, 3600] as const;
/** What did not help so often in a day helps no more; a plug that comes and goes is no reason to take the power each time. */
const TIMES_A_DAY_MAX = 5;
const DAY_SECONDS = 86_400;
/** Long enough for what a small board holds in its capacitors. Judgement. */
const OFF_MILLIS = 5000;
/** A port that was switched off must come on again. */
const ON_TRIES_MAX = 5;
const ON_AGAIN_MILLIS = 1000;

/** One that does nothing without its host, or one of which that is not known. A keeper's power is never taken. */
export type SilentBoard = 'idle' | 'unknown';

/** The USB ports of this machine, and a note of the one that is off, which outlives the host. */
export interface UsbPorts {
  /** Null where the line is no USB device. */
  readonly portOf: (line: string) => Promise<string | null>;
  readonly isOnlyThere: (port: string, line: string) => Promise<boolean>;
  /** Why not; null when it is done. */
  readonly turn: (port: string, to: 'off' | 'on') => Promise<string | null>;
  /** What a host has left off; null where none has. */
  readonly leftOff: () => Promise<string | null>;
  /** Why not; null when it is kept. */
  readonly note: (port: string | null) => Promise<string | null>;
}

/** Powers the USB port of a board that does not answer off and on, seldom enough. Nothing of it is ever waited for. */
export interface PortPower {
  /** The board of this host was found on this line. */
  readonly heard: (line: string) => void;
  /** The board that is known to be, or was named to be, on this line does not answer; `gone`: nor can the line be opened. */
  readonly silent: (line: string, how: 'open' | 'gone', board: SilentBoard) => void;
  /** Who answers there is another board. */
  readonly stranger: (line: string) => void;
  /** Whatever is off is on again after it. */
  readonly close: () => Promise<void>;
}

export interface PortPowerAsked {
  readonly ports: UsbPorts;
  readonly timers: Timers;
  readonly talk: (text: string) => void;
}

export const createPortPower = ({ ports, timers, talk }: PortPowerAsked): PortPower => {
  const plugged = new Map<string, string>();
  const strangers = new Set<string>();
  const told = new Set<string>();
  let silentSince: MonotonicMillis | null = null;
  let taken: readonly MonotonicMillis[] = [];
  let isClosed = false;
  let isBusy = true;
  let pause: { readonly timer: TimerId; readonly over: () => void } | null = null;

  const sayOnce = (text: string): void => {
    if (!told.has(text)) talk(text);
    told.add(text);
  };
  const passed = (millis: number): Promise<void> =>
    new Promise((over) => {
      if (isClosed) over();
      else pause = { timer: timers.setTimeout(over, millis), over };
    });

  const on = async (port: string): Promise<void> => {
    let why: string | null = null;
    for (let tries = 0; tries < ON_TRIES_MAX; tries += 1) {
      why = await ports.turn(port, 'on');
      if (why === null) break;
      await passed(ON_AGAIN_MILLIS);
    }
    if (why === null) await ports.note(null);
    else
      talk(`The USB port of the board is off and does not come on again (${why}): start this computer anew.`);
  };

  const isDue = (board: SilentBoard): boolean => {
    const now = timers.now();
    const patience = board === 'idle' ? SILENT_SECONDS : UNKNOWN_SILENT_SECONDS;
    if (silentSince === null || secondsBetween(silentSince, now) < patience) return false;
    taken = taken.filter((at) => secondsBetween(at, now) < DAY_SECONDS);
    const lastAt = taken.at(-1);
    const apart = APART_SECONDS[Math.min(taken.length, APART_SECONDS.length - 1)] ?? 0;
    return taken.length < TIMES_A_DAY_MAX && (lastAt === undefined || secondsBetween(lastAt, now) >= apart);
  };

  const offAndOn = async (line: string, how: 'open' | 'gone', board: SilentBoard): Promise<void> => {
    const here = await ports.portOf(line);
    // A line that is there and cannot be opened is another program's, perhaps one that flashes the board.
    if (how === 'gone' && here !== null) return;
    const port = here ?? plugged.get(line) ?? null;
    if (port === null || !(await ports.isOnlyThere(port, line))) return;
    const unkept = await ports.note(port);
    if (unkept !== null) {
      sayOnce(`The USB port of the silent board is left as it is, since that cannot be noted: ${unkept}`);
      return;
    }
    // Heard meanwhile, or no host any more.
    if (isClosed || !isDue(board)) {
      await ports.note(null);
      return;
    }
    const why = await ports.turn(port, 'off');
    if (why !== null) {
      await ports.note(null);
      sayOnce(
        `The USB port of the silent board cannot be powered off and on: ${why}. Pull its plug and put it back.`,
      );
      return;
    }
    taken = [...taken, timers.now()];
    talk(
      `The board on ${line} does not answer: its USB port is powered off and on (${taken.length} of at most ${TIMES_A_DAY_MAX} times a day).`,
    );
    await passed(OFF_MILLIS);
    await on(port);
  };

  const busy = (work: Promise<void>): Promise<void> => {
    isBusy = true;
    return work
      .catch((error: unknown) => {
        sayOnce(`The USB port of the board cannot be looked after: ${String(error)}`);
      })
      .finally(() => {
        isBusy = false;
      });
  };

  const restored = async (): Promise<void> => {
    const port = await ports.leftOff();
    if (port === null) return;
    talk('The host before this one left the USB port of the board off: it is powered on.');
    await on(port);
  };
  let running = busy(restored());

  return {
    heard: (line) => {
      silentSince = null;
      strangers.delete(line);
      void ports.portOf(line).then((port) => {
        if (port !== null) plugged.set(line, port);
      });
    },
    silent: (line, how, board) => {
      if (strangers.has(line)) return;
      silentSince ??= timers.now();
      if (isBusy || isClosed || !isDue(board)) return;
      running = busy(offAndOn(line, how, board));
    },
    stranger: (line) => {
      strangers.add(line);
      plugged.delete(line);
    },
    close: async () => {
      isClosed = true;
      timers.clearTimeout(pause?.timer);
      pause?.over();
      await running;
    },
  };
};
