import { setImmediate as nextTurn } from 'node:timers/promises';
import { createBoardLink, type BoardLink } from '../../firmware-host/devices/board-link.ts';
import type { Line, LineSource } from '../../firmware-host/devices/line.ts';
import { lentTimers } from '../../firmware-host/devices/timers.ts';
import { keeperOf } from '../../firmware-host/keeper-of.ts';
import { run } from '../../firmware-host/run-loop.ts';
import { boardClockWatch } from '../../firmware-host/upkeep/board-clock-watch.ts';
import { virtualTime, type VirtualTime } from '../../firmware-host/virtual-time.ts';
import { HOST_BAUD } from '../../sim/board/avr/chip.ts';
import { createEmulatedBoard, type EmulatedBoard } from '../../sim/board/avr/emulated-board.ts';
import { demoWiring } from '../../sim/board/demo-wiring.ts';
import type { Level } from '../../sim/board/firmata/pin-bank.ts';
import { createUsb } from '../../sim/board/firmata/usb.ts';
import { seededDice } from '../../sim/dice.ts';
import { CENTRAL } from '../../sim/plant/judgements.ts';
import { openWiredShed, type WiredShed } from '../../sim/run/wired-shed.ts';
import type { Event, Step } from '../../src/controller.ts';
import type { Farm, Wiring } from '../../src/farm/farm.ts';
import type { Entry } from '../../src/journal/entry.ts';
import type { Press } from '../../src/ports/board.ts';
import { afterSeconds, monotonicMillis, wallMillis } from '../../src/time/instant.ts';
import { hotSky } from '../simulation/shed-run.ts';
import { imageFor } from './image.ts';

const PORT = 'keeper';
/** What waits for a promise gets its turn this often. */
const TURN_SECONDS = 0.25;

/** A stretch in which the relay let the pump run, by the chip's own pin; open at the end while it still runs. */
export interface Ran {
  readonly from: number;
  until: number | null;
}

/** One life of the host. */
export interface HostLife {
  readonly link: BoardLink;
  readonly journal: readonly Entry[];
  readonly lastStep: () => Step | null;
  /** A person at the host orders what the button would. */
  readonly order: (press: Press) => void;
  /** As by a power cut: no last word, and nothing of it lives on. */
  readonly kill: () => void;
  /** As by Ctrl-C. */
  readonly stop: () => Promise<void>;
}

/** The whole host, the compiled firmware and the plant under one clock. */
export interface KeptShed {
  readonly farm: Farm;
  readonly wiring: Wiring;
  readonly time: VirtualTime;
  readonly shed: WiredShed<EmulatedBoard>;
  readonly board: EmulatedBoard;
  readonly ran: readonly Ran[];
  /** `table`: what it wants the board to flood by, in place of the plan's of the day. */
  readonly startHost: (table?: Uint8Array) => HostLife;
  readonly pass: (seconds: number) => Promise<void>;
}

export interface KeptShedAsked {
  readonly farm: Farm;
  readonly startMillis: number;
  readonly days: number;
  readonly seed: number;
  readonly wiring?: Wiring;
  /** Whether opening the port resets the board. */
  readonly resetsOnOpen?: boolean;
  readonly clockError?: number;
  /** Whether its line keeps the board's time, as one inside the chip would; else bytes are lost where both are too far apart. */
  readonly lineKeepsTime?: boolean;
}

export const openKeptShed = (asked: KeptShedAsked): KeptShed => {
  const { farm, startMillis, seed } = asked;
  const wiring = asked.wiring ?? demoWiring(farm);
  const time = virtualTime(startMillis);
  const { timers } = time;
  const ran: Ran[] = [];
  const pulled = wiring.relay.energised === 'high' ? 1 : 0;
  const relayed = (level: Level, at: number): void => {
    const runs = (level === pulled) === (farm.deadBoard !== 'pump-runs');
    const last = ran.at(-1);
    if (runs && last?.until !== null) ran.push({ from: at, until: null });
    if (!runs && last?.until === null) last.until = at;
  };
  const shed = openWiredShed<EmulatedBoard>({
    farm,
    wiring,
    sky: hotSky(farm, startMillis, asked.days),
    startMillis,
    judgements: CENTRAL,
    faults: [],
    failing: [],
    dice: seededDice(seed),
    peer: (world) => {
      const board: EmulatedBoard = createEmulatedBoard({
        flash: imageFor(farm, wiring),
        seed,
        startMillis,
        ...(asked.resetsOnOpen === undefined ? {} : { resetsOnOpen: asked.resetsOnOpen }),
        ...(asked.clockError === undefined ? {} : { clockError: asked.clockError }),
        ...(asked.lineKeepsTime === true ? { hostBaud: HOST_BAUD * (1 + (asked.clockError ?? 0)) } : {}),
        world: {
          ...world,
          drive: (pin, level) => {
            if (pin === wiring.relay.pin) relayed(level, board.chip.nowMillis());
            world.drive(pin, level);
          },
        },
      });
      return board;
    },
  }) as WiredShed<EmulatedBoard>;
  const board = shed.peer;
  const usb = createUsb(timers);
  usb.plug(PORT, board);
  board.powerOn(startMillis);
  shed.live(timers, usb.look);

  const startHost = (table?: Uint8Array): HostLife => {
    const own = lentTimers(timers);
    const opened = new Set<Line>();
    const plain = keeperOf(farm, wiring, () => wallMillis(timers.now()));
    const lines: LineSource = {
      candidates: usb.candidates,
      open: (name, events) => {
        const line = usb.open(name, events);
        opened.add(line);
        return line;
      },
    };
    const link = createBoardLink({
      wiring,
      deadBoard: farm.deadBoard,
      use: 'drive',
      keeper: { ...plain, ...(table === undefined ? {} : { table: () => table }) },
      lines,
      port: PORT,
      timers: own,
    });
    const journal: Entry[] = [];
    const orders: Press[] = [];
    const stop = new AbortController();
    let dead = false;
    let last: Step | null = null;
    const wake = (moment: number): Promise<void> =>
      new Promise((woken) => {
        const done = (): void => {
          stop.signal.removeEventListener('abort', done);
          if (!dead) woken();
        };
        own.setTimeout(done, Math.max(0, moment - timers.now()));
        stop.signal.addEventListener('abort', done, { once: true });
      });
    const clockOf = boardClockWatch();
    let told: ReturnType<typeof clockOf> = null;
    /** Of its health such a host tells the clock of its board, whenever that has changed. */
    const health = (): readonly Event[] => {
      const boardClock = clockOf(link, timers.now());
      if (boardClock?.percentFast === told?.percentFast) return [];
      told = boardClock;
      const well = { journal: { kind: 'well' }, channels: [], safeMode: null, restarts: 0 } as const;
      return [{ kind: 'host', health: { ...well, boardClock } }];
    };
    const ended = run({
      farm,
      board: { ...link, presses: () => [...orders.splice(0), ...link.presses()] },
      journal: { append: (entries) => journal.push(...entries) },
      clock: { now: () => ({ monotonic: timers.now(), wall: wallMillis(timers.now()) }), until: wake },
      until: 'stopped',
      stop: stop.signal,
      events: health,
      told: (step) => {
        last = step;
      },
    });
    return {
      link,
      journal,
      lastStep: () => last,
      order: (press) => {
        orders.push(press);
      },
      kill: () => {
        dead = true;
        own.end();
        for (const line of opened) void line.close();
      },
      stop: async () => {
        stop.abort();
        await ended;
        await link.close();
      },
    };
  };

  return {
    farm,
    wiring,
    time,
    shed,
    board,
    ran,
    startHost,
    pass: async (seconds) => {
      const end = afterSeconds(timers.now(), seconds);
      while (timers.now() < end) {
        time.advance(monotonicMillis(Math.min(end, afterSeconds(timers.now(), TURN_SECONDS))));
        await nextTurn();
      }
    },
  };
};
