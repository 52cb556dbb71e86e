import { withSetup } from '../../../firmware-host/firmware-image/flash-image.ts';
import { createChip, type Chip, type ChipSetup } from '../../../sim/board/avr/chip.ts';
import type { Level } from '../../../sim/board/firmata/pin-bank.ts';
import { setupBytes, type BoardSetup } from '../../../src/farm/setup-bytes.ts';
import { tableBytes, type KeeperTable } from '../../../src/farm/table-bytes.ts';
import { program } from '../image.ts';

export const CYCLES_A_SECOND = 16_000_000;

/** A relay and nothing else, which closes at a high level and lets the pump rest when nobody pulls it. */
export const BARE: BoardSetup = {
  deadBoard: 'pump-stops',
  relay: { pin: 7, level: 'high' },
  longestOnSeconds: 600,
  shortestOffSeconds: 10,
  returnFlow: null,
  pumpCurrent: null,
  tankFloat: null,
  relayReadBack: null,
  mainsPresent: null,
  leakSensor: null,
  overflowFloat: null,
  buzzer: null,
  lamp: null,
  button: null,
  airThermistor: null,
  probe: null,
  sipSeconds: 20,
  watchdog: 'on',
};

/** One part: half a minute of water every three minutes. */
export const BRISK: KeeperTable = {
  parts: [{ fromMinute: 0, restSeconds: 180, coolRestSeconds: 180, floodSeconds: 30 }],
  longestRestSeconds: 600,
  returnLagSeconds: 60,
};

const COMMITTED = program();

/** The flash of a board with that setup, and that table to fall back on. */
export const imageWith = (setup: BoardSetup, table: KeeperTable, of = COMMITTED): Uint8Array =>
  withSetup(of, setupBytes(setup), tableBytes(table));

/** What a pin did to its wire, in seconds of the chip. */
export interface Edge {
  readonly at: number;
  readonly pin: number;
  readonly level: Level;
}

export interface Run {
  readonly from: number;
  /** `Infinity` while it still runs. */
  until: number;
}

export interface KeptBoard {
  readonly chip: Chip;
  /** What hangs on a digital pin; a pin not listed floats. */
  readonly wires: Map<number, 0 | 1>;
  readonly edges: readonly Edge[];
  /** When the relay let the pump run, by the level of its pin. */
  readonly ran: readonly Run[];
  readonly now: () => number;
  readonly levelOf: (pin: number) => Level;
  /** Everything that the board has sent since it was last asked. */
  readonly said: () => readonly number[];
  readonly hear: (bytes: Iterable<number>) => void;
  readonly pass: (seconds: number) => void;
}

export interface KeptBoardAsked extends Partial<Omit<ChipSetup, 'world' | 'onSent'>> {
  readonly setup?: BoardSetup;
  readonly table?: KeeperTable;
  /** Counts at an analog channel, by the levels of the pins. */
  readonly counts?: (channel: number, levelOf: (pin: number) => Level) => number;
}

/** The compiled firmware on a chip that has just been given power, with wires at its pins. */
export const keptBoard = (asked: KeptBoardAsked = {}): KeptBoard => {
  const { setup = BARE, table = BRISK, counts = (): number => 0, ...chipSetup } = asked;
  const wires = new Map<number, 0 | 1>();
  const levels = new Map<number, Level>();
  const edges: Edge[] = [];
  const ran: Run[] = [];
  let sent: number[] = [];
  const now = (): number => chip.cycles() / CYCLES_A_SECOND;
  const levelOf = (pin: number): Level => levels.get(pin) ?? 'floating';
  const pulled = setup.relay.level === 'high' ? 1 : 0;
  const chip: Chip = createChip({
    flash: imageWith(setup, table),
    ...chipSetup,
    world: {
      readDigital: (pin) => wires.get(pin) ?? 'floating',
      readAnalog: (channel) => counts(channel, levelOf),
      drive: (pin, level) => {
        levels.set(pin, level);
        edges.push({ at: now(), pin, level });
        if (pin !== setup.relay.pin) return;
        const runs = (level === pulled) === (setup.deadBoard !== 'pump-runs');
        const last = ran.at(-1);
        if (runs && last?.until !== Infinity) ran.push({ from: now(), until: Infinity });
        if (!runs && last?.until === Infinity) last.until = now();
      },
    },
    onSent: (byte) => sent.push(byte),
  });
  chip.powerOn();
  return {
    chip,
    wires,
    edges,
    ran,
    now,
    levelOf,
    said: () => {
      const bytes = sent;
      sent = [];
      return bytes;
    },
    hear: (bytes) => {
      chip.send(Uint8Array.from(bytes));
    },
    pass: (seconds) => {
      chip.refreshInputs();
      chip.advanceTo(chip.cycles() + Math.round(seconds * CYCLES_A_SECOND));
      chip.refreshInputs();
    },
  };
};
