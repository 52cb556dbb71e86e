import { assert } from '../../../src/units/assertion.ts';
import { seededDice } from '../../dice.ts';
import type { PinWorld } from '../firmata/peer.ts';
import { HANDED_REGISTER, NO_BOOTLOADER, type Bootloader } from './bootloader.ts';
import { decode } from './decode.ts';
import { createEepromCells, type HalfWritten } from './eeprom-cells.ts';
import type { BeforeEepromWrite } from './eeprom.ts';
import { UNO_FUSES, type Fuses } from './fuses.ts';
import { createHostLine } from './host-line.ts';
import { beginLife, endLife, type Life } from './life.ts';
import type { PinLevel } from './ports.ts';
import {
  CLOCK_HZ,
  FLASH_BYTES,
  IO,
  MCUSR_BIT,
  SRAM_BYTES,
  SRAM_START,
  WORKING_REGISTERS,
  type ResetCause,
} from './registers.ts';
import { run } from './run.ts';
import { createTrace, type Trace } from './trace.ts';
import { watchdogSecond } from './watchdog.ts';

export interface ChipSetup {
  /** 32 KiB; copied. */
  readonly flash: Uint8Array;
  /** 1 KiB; copied. Erased unless given. */
  readonly eeprom?: Uint8Array;
  readonly fuses?: Fuses;
  readonly world: PinWorld;
  readonly bootloader?: Bootloader;
  /** Milliseconds of the world at cycle 0. */
  readonly startMillis?: number;
  /** Share by which the crystal is fast against the world, +0.005 being half a percent. */
  readonly clockError?: number;
  /** The same of the watchdog's own oscillator. */
  readonly watchdogError?: number;
  /** Of what nothing defines: SRAM at power-on, floating pins, a byte written by half. */
  readonly seed?: number;
  /** SRAM at power-on, in place of chance. */
  readonly sramFill?: number;
  readonly beforeEepromWrite?: BeforeEepromWrite;
  readonly halfWritten?: HalfWritten;
  /** False: a sleep is gone through cycle by cycle, to prove that the short way comes to the same. */
  readonly fastForward?: boolean;
  /** Bytes a second times ten of the host's side of the line. */
  readonly hostBaud?: number;
  readonly onSent?: (byte: number) => void;
}

export interface ChipTally {
  /** Bytes that came while the receiver was off. */
  readonly unheardBytes: number;
  /** Bytes that the firmware did not fetch in time. */
  readonly overrunBytes: number;
  readonly eepromWrites: number;
  readonly instructions: number;
}

export interface Chip {
  readonly advanceTo: (cycle: number) => void;
  readonly powerOn: () => void;
  readonly powerOff: () => void;
  /** May be called from a callback of the world too; it takes effect after the present instruction. */
  readonly reset: (cause: Exclude<ResetCause, 'power-on'>) => void;
  readonly state: () => 'off' | 'held' | 'running' | 'asleep';
  readonly cycles: () => number;
  readonly cycleAt: (millis: number) => number;
  readonly millisAt: (cycle: number) => number;
  /** Moment of the present instruction, for whoever is called by it. */
  readonly nowMillis: () => number;
  /** Bytes from the host; they take their time on the line. */
  readonly send: (bytes: Uint8Array) => void;
  /** Nothing on the wire, either way. */
  readonly lineIsQuiet: () => boolean;
  readonly refreshInputs: () => void;
  /** Cycle at which something next happens by itself while the firmware sleeps; `null` for never. */
  readonly nextEventAt: () => number | null;
  readonly register: (address: number) => number;
  /** Copies. */
  readonly sram: () => Uint8Array;
  readonly eeprom: () => Uint8Array;
  /** Rate of the serial line by the registers of the chip. */
  readonly baud: () => number;
  readonly resets: () => Readonly<Record<ResetCause, number>>;
  readonly tally: () => ChipTally;
  readonly trace: Trace;
}

/** What the host of the project speaks. */
export const HOST_BAUD = 57_600;
const BITS_A_BYTE = 10;

/**
 * An ATmega328P at 16 MHz (data sheet: "ATmega48A/PA/88A/PA/168A/PA/328/P", Microchip DS40002061) that carries
 * out compiled firmware in front of the pins of a world. Every reset builds processor and
 * peripherals anew, so all outputs float; SRAM outlives every reset but the one of power-on.
 */
export const createChip = (setup: ChipSetup): Chip => {
  const { world, bootloader = NO_BOOTLOADER, startMillis = 0, clockError = 0, fastForward = true } = setup;
  const { hostBaud = HOST_BAUD, beforeEepromWrite = (): 'go on' => 'go on' } = setup;
  assert(setup.flash.length === FLASH_BYTES, `a flash of ${setup.flash.length} bytes, it has ${FLASH_BYTES}`);
  const flash = new Uint16Array(Uint8Array.from(setup.flash).buffer);
  const program = decode(flash);
  const dice = seededDice(setup.seed ?? 1);
  const chance = (bytes: number): Uint8Array =>
    Uint8Array.from({ length: bytes }, () => Math.floor(dice() * 256));
  const eeprom = createEepromCells(
    setup.eeprom ?? new Uint8Array(1024).fill(0xff),
    setup.halfWritten ?? 'random',
    dice,
  );
  const trace = createTrace();
  const resets = { 'power-on': 0, external: 0, 'brown-out': 0, watchdog: 0 };
  const cyclesAMilli = (CLOCK_HZ / 1000) * (1 + clockError);
  let life: Life | null = null;
  let cycle = 0;
  let running = false;
  let instructions = 0;
  let overrunBytes = 0;

  const now = (): number => life?.machine.cpu.cycles ?? cycle;
  const line = createHostLine({
    byteCycles: (BITS_A_BYTE * CLOCK_HZ * (1 + clockError)) / hostBaud,
    trace,
    sent: setup.onSent ?? ((): void => undefined),
  });
  const driven = (pin: number, level: PinLevel): void => {
    trace.note({ kind: 'pin', cycle: now(), pin, level });
    world.drive(pin, level);
  };

  const begin = (
    cause: ResetCause,
    remembered: { readonly registers: Uint8Array; readonly sram: Uint8Array },
    flagsLeft: number,
  ): void => {
    resets[cause] += 1;
    const at = now();
    const flags = flagsLeft | MCUSR_BIT[cause];
    const handsOn = bootloader.leaves === 'cause-in-r2';
    if (handsOn) remembered.registers[HANDED_REGISTER] = flags;
    trace.note({ kind: 'reset', cycle: at, cause });
    life = beginLife({
      flash,
      program,
      cycle: at,
      heldUntil: at + Math.round((bootloader.waitMillis[cause] ?? 0) * cyclesAMilli),
      remembered,
      sramStart: SRAM_START,
      resetFlags: handsOn ? 0 : flags,
      world,
      dice,
      driven,
      line,
      eeprom,
      beforeEepromWrite,
      fuses: setup.fuses ?? UNO_FUSES,
      watchdogSecond: watchdogSecond(setup.watchdogError ?? 0, clockError),
    });
    life.ports.refresh();
    life.usart.wake();
  };
  const finish = (ended: Life): void => {
    const how = ended.ends;
    if (how === null) return;
    const { data, cycles } = ended.machine.cpu;
    cycle = cycles;
    overrunBytes += ended.usart.overruns();
    instructions += ended.core.carriedOut;
    ended.usart.abandon();
    ended.ports.letGo();
    if (how === 'power-off') {
      life = null;
      eeprom.cut();
      line.clear();
      trace.note({ kind: 'power-off', cycle });
      return;
    }
    begin(
      how,
      {
        registers: data.slice(0, WORKING_REGISTERS),
        sram: data.slice(SRAM_START, SRAM_START + SRAM_BYTES),
      },
      ended.machine.get(IO.MCUSR),
    );
  };
  const end = (how: NonNullable<Life['ends']>): void => {
    if (life === null) return;
    endLife(life, how);
    if (running) return;
    // What the pins do when they let go may come back here.
    running = true;
    finish(life);
    running = false;
  };

  return {
    advanceTo: (target) => {
      assert(Number.isSafeInteger(target), `cycle ${target}`);
      assert(!running, 'a chip is not moved on from within itself');
      running = true;
      while (life !== null && life.machine.cpu.cycles < target) {
        run(life, target, fastForward);
        finish(life);
      }
      running = false;
      if (life === null) cycle = Math.max(cycle, target);
    },
    powerOn: () => {
      assert(!running, 'power comes from outside');
      if (life !== null) return;
      const sram =
        setup.sramFill === undefined ? chance(SRAM_BYTES) : new Uint8Array(SRAM_BYTES).fill(setup.sramFill);
      begin('power-on', { registers: chance(WORKING_REGISTERS), sram }, 0);
    },
    powerOff: () => {
      end('power-off');
    },
    reset: end,
    state: () => {
      if (life === null) return 'off';
      if (life.machine.cpu.cycles < life.heldUntil) return 'held';
      return life.core.asleep ? 'asleep' : 'running';
    },
    cycles: now,
    cycleAt: (millis) => Math.round((millis - startMillis) * cyclesAMilli),
    millisAt: (at) => startMillis + at / cyclesAMilli,
    nowMillis: () => startMillis + now() / cyclesAMilli,
    send: (bytes) => {
      if (life === null) {
        line.lose(bytes.length);
        return;
      }
      line.put(bytes);
      life.usart.wake();
    },
    lineIsQuiet: () => life?.usart.quiet() ?? true,
    refreshInputs: () => life?.ports.refresh(),
    nextEventAt: () => {
      if (life === null) return null;
      const held = life.machine.cpu.cycles < life.heldUntil ? life.heldUntil : Infinity;
      const next = Math.min(life.machine.events.nextAt, held);
      return next === Infinity ? null : next;
    },
    register: (address) => life?.machine.cpu.readData(address) ?? 0,
    sram: () =>
      life?.machine.cpu.data.slice(SRAM_START, SRAM_START + SRAM_BYTES) ?? new Uint8Array(SRAM_BYTES),
    eeprom: eeprom.copy,
    baud: () => (life === null ? 0 : (BITS_A_BYTE * CLOCK_HZ) / life.usart.byteCycles()),
    resets: () => ({ ...resets }),
    tally: () => ({
      unheardBytes: line.unheard(),
      overrunBytes: overrunBytes + (life?.usart.overruns() ?? 0),
      eepromWrites: eeprom.writes(),
      instructions: instructions + (life?.core.carriedOut ?? 0),
    }),
    trace,
  };
};
