import { avrInstruction } from 'avr8js';
import type { Core } from './core.ts';

const SREG = 95;
const SMCR = 0x53;
const SLEEP_ENABLED = 1;
const Z = 30;

const at = (cells: Uint8Array, index: number): number => cells[index] ?? 0;
const pairAt = (data: Uint8Array, low: number): number => at(data, low) | (at(data, low + 1) << 8);
const putPair = (data: Uint8Array, low: number, value: number): void => {
  data[low] = value;
  data[low + 1] = value >> 8;
};
const signFlags = (result: number, overflows: boolean): number => {
  const negative = (result & 0x80) !== 0;
  const zero = (result & 0xff) === 0 ? 2 : 0;
  return zero | (negative ? 4 : 0) | (overflows ? 8 : 0) | (negative === overflows ? 0 : 16);
};

/**
 * The instructions that `carry-out.ts` leaves: seldom used, or slow anyhow since they reach for a register of the
 * I/O space. Program counter and clock are those of the chip; the last cycle is counted by the caller.
 */
export const carryOutOther = (core: Core, op: number, a: number, b: number): void => {
  const { cpu } = core;
  const { data, progBytes } = cpu;
  const sreg = at(data, SREG);
  switch (op) {
    // neg
    case 10: {
      const result = -at(data, a) & 0xff;
      const halfCarry = ((result | at(data, a)) & 8) << 2;
      data[a] = result;
      data[SREG] = (sreg & 0xc0) | signFlags(result, result === 0x80) | halfCarry | (result === 0 ? 0 : 1);
      return;
    }
    // com
    case 16: {
      const result = at(data, a) ^ 0xff;
      data[a] = result;
      data[SREG] = (sreg & 0xe0) | signFlags(result, false) | 1;
      return;
    }
    // swap
    case 22: {
      const value = at(data, a);
      data[a] = (value << 4) | (value >> 4);
      return;
    }
    // mul
    case 28: {
      const product = at(data, a) * at(data, b);
      putPair(data, 0, product);
      data[SREG] = (sreg & 0xfc) | (product === 0 ? 2 : 0) | (product >> 15);
      cpu.cycles += 1;
      return;
    }
    // bst
    case 31:
      data[SREG] = (at(data, a) & b) === 0 ? sreg & ~0x40 : sreg | 0x40;
      return;
    // bld
    case 32:
      data[a] = (sreg & 0x40) === 0 ? at(data, a) & ~b : at(data, a) | b;
      return;
    // sbic, sbis
    case 42:
    case 43:
      if (((cpu.readData(a) & b & 0xff) !== 0) !== (op === 43)) return;
      cpu.pc += b >> 8;
      cpu.cycles += b >> 8;
      return;
    // sbi, cbi: the bit that is meant, and above it the bit that is set
    case 54:
      cpu.writeData(a, (cpu.readData(a) & ~b & 0xff) | (b >> 8), b & 0xff);
      cpu.cycles += 1;
      return;
    // lpm, and on to the next
    case 57:
    case 58: {
      const address = pairAt(data, Z);
      data[a] = at(progBytes, address % progBytes.length);
      if (op === 58) putPair(data, Z, address + 1);
      cpu.cycles += 2;
      return;
    }
    // sleep
    case 59:
      if ((at(data, SMCR) & SLEEP_ENABLED) !== 0) core.asleep = true;
      return;
    // wdr
    case 60:
      cpu.onWatchdogReset();
      return;
    // nop
    case 61:
      return;
    default:
      cpu.pc -= 1;
      avrInstruction(cpu);
      cpu.cycles -= 1;
  }
};
