import { withSetup } from '../../firmware-host/firmware-image/flash-image.ts';
import { virtualTime } from '../../firmware-host/virtual-time.ts';
import { createEmulatedBoard, type EmulatedBoard } from '../../sim/board/avr/emulated-board.ts';
import type { BoardPeer } from '../../sim/board/board-peer.ts';
import type { Level } from '../../sim/board/firmata/pin-bank.ts';
import { createUsb } from '../../sim/board/firmata/usb.ts';
import { setupBlock } from '../../src/farm/keeper-setup.ts';
import type { Farm, Wiring } from '../../src/farm/farm.ts';
import { tableBytes } from '../../src/plan/keeper-table.ts';
import { flashTable, program } from '../keeper/image.ts';
import { passed, type Bench } from './bench.ts';
import {
  asInAWellShed,
  benchFarm,
  BOOT_MILLIS,
  SHORTEST_OFF_SECONDS,
  listeningAt,
  wiringWith,
  type BenchBoard,
  type BoardAsked,
  type BoardKind,
} from './bench-board.ts';

export const KEEPER: BoardKind = {
  keeper: 'on-the-board',
  // As docs/board-protocol.md has it, and the version of this firmware.
  says: { firmwareName: 'RillkeeperBoard', firmwareVersion: '1.0', protocolVersion: '2.7' },
  // It takes its pump for just stopped, and counts whole seconds.
  restsSeconds: SHORTEST_OFF_SECONDS + 1,
  // The board tells of it in the answer to the next tick, and is then asked what it was.
  pressSeconds: 1.3,
  // It counts whole seconds.
  runGrainSeconds: 1,
};

/** A board with compiled firmware, with a supply of its own from when it is first plugged in. */
export interface KeeperBoard extends BenchBoard {
  readonly powerOff: () => void;
  readonly powerOn: () => void;
  readonly eeprom: () => Uint8Array;
}

export interface EmulatedBench extends Bench {
  readonly newBoard: (asked?: BoardAsked) => KeeperBoard;
}

const START_MILLIS = 1_000_000;
const STEP_SECONDS = 0.05;
/** A board that nobody listens to is looked at so often, or when it does something by itself. */
const LOOK_MILLIS = 50;

const PROGRAM = program();
/** The same for all: what differs between farms of the bench is no part of the plan. */
const TABLE = tableBytes(flashTable(benchFarm()));

const flashOf = (farm: Farm, wiring: Wiring): Uint8Array =>
  withSetup(PROGRAM, setupBlock(farm, wiring), TABLE);

/** A bench for the compiled firmware, under a clock of its own. Its boards live on when their cable is pulled. */
export const emulatedBench = (): Promise<EmulatedBench> => {
  const time = virtualTime(START_MILLIS);
  const { timers } = time;
  const usb = createUsb(timers);
  const emulated = new Map<BoardPeer, EmulatedBoard>();

  const look = (): void => {
    for (const board of emulated.values()) board.advance(timers.now());
    usb.look();
  };
  const live = (): void => {
    look();
    const now = timers.now();
    const due = [...emulated.values()].map((board) => board.nextDue(now) ?? Infinity);
    const next = Math.min(now + LOOK_MILLIS, ...due);
    timers.setTimeout(live, Math.max(1, next - now));
  };
  live();

  const newBoard = ({
    farm = benchFarm(),
    wiring = wiringWith(),
    bootMillis = BOOT_MILLIS,
  }: BoardAsked = {}): KeeperBoard => {
    const digital = new Map<number, 0 | 1>();
    const analog = new Map<number, number>();
    const driven: [number, Level][] = [];
    const board = createEmulatedBoard({
      flash: flashOf(farm, wiring),
      bootMillis,
      startMillis: START_MILLIS,
      seed: emulated.size + 1,
      world: {
        readDigital: (pin) => digital.get(pin) ?? 'floating',
        readAnalog: (channel) => analog.get(channel) ?? 0,
        drive: (pin, level) => driven.push([pin, level]),
      },
    });
    const { peer, heard } = listeningAt<BoardPeer>(board);
    emulated.set(peer, board);
    return asInAWellShed({
      peer,
      heard,
      digital,
      analog,
      driven,
      levelOf: (pin) => driven.findLast(([at]) => at === pin)?.[1] ?? 'floating',
      powerOff: () => {
        board.powerOff(timers.now());
      },
      powerOn: () => {
        board.powerOn(timers.now());
      },
      eeprom: board.chip.eeprom,
    });
  };

  return Promise.resolve({
    kind: KEEPER,
    newBoard,
    timers,
    lines: usb,
    ports: ['one', 'two'],
    plug: (port, board, serialNumber) => {
      emulated.get(board)?.powerOn(timers.now());
      usb.plug(port, board, serialNumber);
      return Promise.resolve();
    },
    unplug: (port) => {
      usb.unplug(port);
      return Promise.resolve();
    },
    stall: usb.stall,
    disturb: (port, bytes) => {
      usb.disturb(port, Uint8Array.from(bytes));
    },
    look,
    pass: (seconds) => passed(time, seconds, STEP_SECONDS),
    staleBytes: usb.staleBytes,
    end: () => Promise.resolve(),
  });
};
