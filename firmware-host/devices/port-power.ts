import { secondsBetween, type MonotonicMillis } from '../../src/time/instant.ts';
import type { Timers, TimerId } from './timers.ts';

/** A board that resets, or whose plug a person moves, is back within this. */
const SILENT_SECONDS = 60;
/** Since the last time. Each takes the power from a board that may, unheard, be flooding by its own table. Judgement. */
const APART_SECONDS = [0, 600, 3600] as const;
/** What did not help so often helps no more. */
const TIMES_MAX = 5;
/** A board that was heard for so long begins anew; one that answers for a moment after each time does not. */
const HEARD_SECONDS = 3600;
/** Long enough for what a small board holds in its capacitors. Judgement. */
const OFF_MILLIS = 5000;
/** A port that was switched off must come on again. */
const ON_TRIES_MAX = 5;
const ON_AGAIN_MILLIS = 1000;

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
  readonly silent: (line: string, how: 'open' | 'gone') => void;
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
  let heardSince: MonotonicMillis | null = null;
  let silentSince: MonotonicMillis | null = null;
  let times = 0;
  let lastAt: MonotonicMillis | null = null;
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

  const falls = (): void => {
    silentSince = timers.now();
    if (heardSince !== null && secondsBetween(heardSince, silentSince) >= HEARD_SECONDS) {
      times = 0;
      lastAt = null;
    }
    heardSince = null;
  };

  const isDue = (): boolean => {
    const now = timers.now();
    if (silentSince === null || secondsBetween(silentSince, now) < SILENT_SECONDS) return false;
    const apart = APART_SECONDS[Math.min(times, APART_SECONDS.length - 1)] ?? 0;
    return times < TIMES_MAX && (lastAt === null || secondsBetween(lastAt, now) >= apart);
  };

  const offAndOn = async (line: string, how: 'open' | 'gone'): Promise<void> => {
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
    if (isClosed || !isDue()) {
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
    times += 1;
    lastAt = timers.now();
    talk(
      `The board on ${line} does not answer: its USB port is powered off and on (${times} of at most ${TIMES_MAX} times).`,
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
      heardSince ??= timers.now();
      silentSince = null;
      strangers.delete(line);
      void ports.portOf(line).then((port) => {
        if (port !== null) plugged.set(line, port);
      });
    },
    silent: (line, how) => {
      if (strangers.has(line)) return;
      if (silentSince === null) falls();
      if (isBusy || isClosed || !isDue()) return;
      running = busy(offAndOn(line, how));
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
