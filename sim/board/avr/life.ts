import { assert } from '../../../src/units/assertion.ts';
import type { Dice } from '../../dice.ts';
import type { PinWorld } from '../firmata/peer.ts';
import { createConverter } from './converter.ts';
import type { Core } from './core.ts';
import type { EepromCells } from './eeprom-cells.ts';
import { createEeprom, type BeforeEepromWrite } from './eeprom.ts';
import { createFuseReading, type Fuses } from './fuses.ts';
import { createMachine, type Machine } from './machine.ts';
import { refuseNotEmulated } from './not-emulated.ts';
import { createPorts, type PinLevel, type Ports } from './ports.ts';
import { IO, type ResetCause } from './registers.ts';
import { createTimers } from './timers.ts';
import { createUsart, type Line, type Usart } from './usart.ts';
import { createWatchdog, type Watchdog } from './watchdog.ts';

/** What ends a life: a reset, or the loss of power. */
export type End = Exclude<ResetCause, 'power-on'> | 'power-off';

/** The chip from one reset to the next: all of it that a reset builds anew. */
export interface Life {
  readonly machine: Machine;
  readonly core: Core;
  readonly ports: Ports;
  readonly usart: Usart;
  readonly watchdog: Watchdog;
  /** Until then the bootloader has the chip, and its pins float. */
  readonly heldUntil: number;
  ends: End | null;
}

export interface Birth {
  readonly flash: Uint16Array;
  /** Of `decode.ts`. */
  readonly program: Uint32Array;
  readonly cycle: number;
  readonly heldUntil: number;
  /** Working registers and SRAM as the last life left them, by their places in the data space. */
  readonly remembered: { readonly registers: Uint8Array; readonly sram: Uint8Array };
  readonly resetFlags: number;
  readonly world: PinWorld;
  readonly dice: Dice;
  readonly driven: (pin: number, level: PinLevel) => void;
  readonly line: Line;
  readonly eeprom: EepromCells;
  readonly beforeEepromWrite: BeforeEepromWrite;
  readonly fuses: Fuses;
  readonly watchdogSecond: number;
  readonly sramStart: number;
}

const SLEEP_ENABLED = 0x01;
const SLEEP_MODE = 0x0e;

export const beginLife = (birth: Birth): Life => {
  // A copy: reading the fuses lays them over the flash, and a reset may come in the midst of it.
  const machine = createMachine(birth.flash.slice(), birth.cycle);
  const { cpu, events, put, onWrite } = machine;
  cpu.data.set(birth.remembered.registers, 0);
  cpu.data.set(birth.remembered.sram, birth.sramStart);
  put(IO.MCUSR, birth.resetFlags);
  const end = (how: End): void => {
    life.ends ??= how;
    events.interrupt();
  };
  refuseNotEmulated(machine);
  onWrite(IO.SMCR, (value) => {
    const deep = (value & SLEEP_ENABLED) !== 0 && (value & SLEEP_MODE) !== 0;
    assert(!deep, 'not emulated: a deeper sleep than idle');
    put(IO.SMCR, value);
  });
  createTimers(machine);
  createConverter(machine, birth.world.readAnalog);
  createEeprom(machine, birth.eeprom, {
    before: birth.beforeEepromWrite,
    cut: () => {
      end('power-off');
    },
  });
  createFuseReading(machine, birth.fuses);
  const watchdog = createWatchdog(machine, birth.watchdogSecond, () => {
    end('watchdog');
  });
  cpu.onWatchdogReset = watchdog.kick;
  const life: Life = {
    machine,
    core: {
      cpu,
      events,
      interrupts: machine.interrupts,
      program: birth.program,
      asleep: false,
      justEnabled: false,
      carriedOut: 0,
    },
    ports: createPorts(machine, birth.world, birth.dice, birth.driven),
    usart: createUsart(machine, birth.line),
    watchdog,
    heldUntil: birth.heldUntil,
    ends: null,
  };
  return life;
};

/** Ends the life after the present instruction, or at once when none is being carried out. */
export const endLife = (life: Life, how: End): void => {
  life.ends ??= how;
  life.machine.events.interrupt();
};
