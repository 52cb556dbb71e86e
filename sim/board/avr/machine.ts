import { CPU } from 'avr8js';
import { createEvents, type Events } from './events.ts';
import { createInterrupts, type Interrupts } from './interrupts.ts';
import { SRAM_BYTES } from './registers.ts';

/** Processor, clock events and interrupts of one life of the chip, from one reset to the next. */
export interface Machine {
  readonly cpu: CPU;
  readonly events: Events;
  readonly interrupts: Interrupts;
  /** The register as it lies there, past all hooks. */
  readonly get: (address: number) => number;
  readonly put: (address: number, value: number) => void;
  readonly onRead: (address: number, read: () => number) => void;
  /**
   * The register keeps only what `write` puts there. `mask` tells the bits that the instruction means: SBI and
   * CBI touch one, which matters where writing a 1 clears a flag.
   */
  readonly onWrite: (address: number, write: (value: number, mask: number) => void) => void;
}

/** @param flash little-endian words; not copied */
export const createMachine = (flash: Uint16Array, cycle: number): Machine => {
  const cpu = new CPU(flash, SRAM_BYTES);
  cpu.cycles = cycle;
  const { data, readHooks, writeHooks } = cpu;
  return {
    cpu,
    events: createEvents(),
    interrupts: createInterrupts(),
    get: (address) => data[address] ?? 0,
    put: (address, value) => {
      data[address] = value;
    },
    onRead: (address, read) => {
      readHooks[address] = read;
    },
    onWrite: (address, write) => {
      writeHooks[address] = (value, _old, _address, mask) => {
        write(value, mask);
        return true;
      };
    },
  };
};
