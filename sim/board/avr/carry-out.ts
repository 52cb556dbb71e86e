import { carryOutOther } from './carry-out-other.ts';
import type { Core } from './core.ts';
import { FLAGS_OF, sumFlags, wordFlags } from './flags.ts';

/** SREG in the data space; its bits are C 1, Z 2, N 4, V 8, S 16, H 32, T 64, I 128. */
const SREG = 95;
const STACK = 93;
/** Places between the working registers and the SRAM may have hooks. */
const IO_FIRST = 0x20;
const SRAM_FIRST = 0x100;
const FLASH_WORDS = 16_384;

/** So that spans are whole numbers of 31 bits. */
const BURST_CYCLES_MAX = 1_000_000_000;

const at = (cells: Uint8Array, index: number): number => cells[index] ?? 0;

/**
 * Carries out instructions until the clock has reached a cycle; or something has happened that others must
 * look at before the next one: an alarm was set that is due sooner, an interrupt pends, the chip sleeps. All in
 * one function with its state in local variables, which is several times faster than any other cut.
 * The library's own function does the same, bit by bit; `decode.test.ts` compares them.
 */
export const carryOut = (core: Core, until: number): void => {
  const { cpu, events, interrupts, program } = core;
  const { data } = cpu;
  // Looked up once: in a test run every use of an import is a call.
  const others = carryOutOther;
  const flagsOf = FLAGS_OF;
  const ofSum = sumFlags;
  const ofWord = wordFlags;
  const from = cpu.cycles;
  let spent = 0;
  let pc = cpu.pc;
  let limit = Math.min(until - from, BURST_CYCLES_MAX);
  let count = 0;
  do {
    const word = program[pc & (FLASH_WORDS - 1)] ?? 0;
    const a = (word >> 8) & 0xff;
    const b = word >>> 16;
    const op = word & 0xff;
    const sreg = at(data, SREG);
    pc += 1;
    count += 1;
    switch (op) {
      // add, adc
      case 1:
      case 2: {
        const x = at(data, a);
        const y = at(data, b);
        const sum = x + y + (op === 2 ? sreg & 1 : 0);
        data[a] = sum;
        data[SREG] = (sreg & 0xc0) | ofSum(x ^ y ^ sum, sum);
        break;
      }
      // sub, cp, subi, cpi
      case 3:
      case 4:
      case 5:
      case 6: {
        const x = at(data, a);
        const y = op < 5 ? at(data, b) : b;
        const rest = x - y;
        if ((op & 1) !== 0) data[a] = rest;
        data[SREG] = (sreg & 0xc0) | ofSum(x ^ y ^ rest, rest);
        break;
      }
      // sbc, cpc, sbci: zero only if the lower byte was zero too
      case 7:
      case 8:
      case 9: {
        const x = at(data, a);
        const y = op === 9 ? b : at(data, b);
        const rest = x - y - (sreg & 1);
        if (op !== 8) data[a] = rest;
        data[SREG] = (sreg & 0xc0) | (ofSum(x ^ y ^ rest, rest) & (sreg | ~2));
        break;
      }
      // and, or, eor, andi, ori
      case 11:
      case 12:
      case 13:
      case 14:
      case 15: {
        const x = at(data, a);
        const y = op < 14 ? at(data, b) : b;
        const result = op === 13 ? x ^ y : op === 12 || op === 15 ? x | y : x & y;
        data[a] = result;
        data[SREG] = (sreg & 0xe1) | at(flagsOf, result);
        break;
      }
      // inc, dec
      case 17:
      case 18: {
        const result = (at(data, a) + (op === 17 ? 1 : -1)) & 0xff;
        data[a] = result;
        data[SREG] =
          (sreg & 0xe1) | at(flagsOf, result === (op === 17 ? 0x80 : 0x7f) ? result | 0x100 : result);
        break;
      }
      // lsr, ror, asr: V is N xor C
      case 19:
      case 20:
      case 21: {
        const x = at(data, a);
        const top = op === 19 ? 0 : op === 20 ? (sreg & 1) << 7 : x & 0x80;
        const result = (x >> 1) | top;
        data[a] = result;
        data[SREG] = (sreg & 0xe0) | at(flagsOf, result | (((result >> 7) ^ (x & 1)) << 8)) | (x & 1);
        break;
      }
      // mov
      case 23:
        data[a] = at(data, b);
        break;
      // movw
      case 24:
        data[a] = at(data, b);
        data[a + 1] = at(data, b + 1);
        break;
      // ldi
      case 25:
        data[a] = b;
        break;
      // adiw, sbiw
      case 26:
      case 27: {
        const value = at(data, a) | (at(data, a + 1) << 8);
        const result = (op === 26 ? value + b : value - b) & 0xffff;
        const rose = ~value & result;
        const fell = value & ~result;
        data[a] = result;
        data[a + 1] = result >> 8;
        data[SREG] = (sreg & 0xe0) | (op === 26 ? ofWord(result, rose, fell) : ofWord(result, fell, rose));
        spent = (spent + 1) | 0;
        break;
      }
      // set a flag
      case 29:
        data[SREG] = sreg | a;
        if (a === 0x80 && sreg < 0x80) {
          core.justEnabled = true;
          limit = 0;
        }
        break;
      // clear a flag
      case 30:
        data[SREG] = sreg & ~a;
        break;
      // jmp, rjmp
      case 33:
        pc = b;
        spent = (spent + a) | 0;
        break;
      // call of three further cycles and two words, rcall of two and one
      case 34: {
        const stack = at(data, STACK) | (at(data, STACK + 1) << 8);
        const back = pc + a - 2;
        data[stack] = back;
        data[stack - 1] = back >> 8;
        data[STACK] = stack - 2;
        data[STACK + 1] = (stack - 2) >> 8;
        pc = b;
        spent = (spent + a) | 0;
        break;
      }
      // ret, reti
      case 35:
      case 36: {
        const stack = (at(data, STACK) | (at(data, STACK + 1) << 8)) + 2;
        data[STACK] = stack;
        data[STACK + 1] = stack >> 8;
        pc = (at(data, stack - 1) << 8) | at(data, stack);
        spent = (spent + 3) | 0;
        if (op === 35) break;
        data[SREG] = sreg | 0x80;
        core.justEnabled = sreg < 0x80;
        limit = 0;
        break;
      }
      // brbs, brbc
      case 37:
      case 38:
        if (((sreg & a) !== 0) === (op === 37)) {
          pc = b;
          spent = (spent + 1) | 0;
        }
        break;
      // cpse
      case 39:
        if (at(data, a) !== at(data, b & 0xff)) break;
        pc += b >> 8;
        spent = (spent + (b >> 8)) | 0;
        break;
      // sbrc, sbrs
      case 40:
      case 41:
        if (((at(data, a) & b & 0xff) !== 0) !== (op === 41)) break;
        pc += b >> 8;
        spent = (spent + (b >> 8)) | 0;
        break;
      // push
      case 55: {
        const stack = at(data, STACK) | (at(data, STACK + 1) << 8);
        data[stack] = at(data, a);
        data[STACK] = stack - 1;
        data[STACK + 1] = (stack - 1) >> 8;
        spent = (spent + 1) | 0;
        break;
      }
      // pop
      case 56: {
        const stack = (at(data, STACK) | (at(data, STACK + 1) << 8)) + 1;
        data[STACK] = stack;
        data[STACK + 1] = stack >> 8;
        data[a] = at(data, stack);
        spent = (spent + 1) | 0;
        break;
      }
      // in, lds, and loads by a pointer with an offset, going on, going back
      case 44:
      case 45:
      case 46:
      case 47:
      case 48: {
        let address = b;
        if (op === 45) pc += 1;
        if (op !== 44) spent = (spent + 1) | 0;
        if (op > 45) {
          const pointer = b & 0xff;
          const pointed = at(data, pointer) | (at(data, pointer + 1) << 8);
          address = (op === 46 ? pointed + (b >> 8) : op === 47 ? pointed : pointed - 1) & 0xffff;
          if (op !== 46) {
            const moved = op === 47 ? pointed + 1 : address;
            data[pointer] = moved;
            data[pointer + 1] = moved >> 8;
          }
        }
        if (address >= SRAM_FIRST || address < IO_FIRST) {
          data[a] = at(data, address);
          break;
        }
        cpu.cycles = from + spent;
        data[a] = cpu.readData(address);
        spent = (cpu.cycles - from) | 0;
        if (events.nextAt < from + limit || interrupts.pending !== 0) limit = 0;
        break;
      }
      // out, sts, and stores by a pointer with an offset, going on, going back
      case 49:
      case 50:
      case 51:
      case 52:
      case 53: {
        const value = at(data, a);
        let address = b;
        if (op === 50) pc += 1;
        if (op > 50) {
          const pointer = b & 0xff;
          const pointed = at(data, pointer) | (at(data, pointer + 1) << 8);
          address = (op === 51 ? pointed + (b >> 8) : op === 52 ? pointed : pointed - 1) & 0xffff;
          if (op !== 51) {
            const moved = op === 52 ? pointed + 1 : address;
            data[pointer] = moved;
            data[pointer + 1] = moved >> 8;
          }
        }
        if (address >= SRAM_FIRST || address < IO_FIRST) data[address] = value;
        else {
          cpu.cycles = from + spent;
          cpu.writeData(address, value);
          spent = (cpu.cycles - from) | 0;
          if (events.nextAt < from + limit || interrupts.pending !== 0) limit = 0;
          if (address === SREG && value >= 0x80 && sreg < 0x80) {
            core.justEnabled = true;
            limit = 0;
          }
        }
        if (op !== 49) spent = (spent + 1) | 0;
        break;
      }
      default:
        cpu.pc = pc;
        cpu.cycles = from + spent;
        others(core, op, a, b);
        pc = cpu.pc;
        spent = (cpu.cycles - from) | 0;
        if (core.asleep || events.nextAt < from + limit || interrupts.pending !== 0) limit = 0;
        break;
    }
    spent = (spent + 1) | 0;
  } while (spent < limit);
  cpu.pc = pc & (FLASH_WORDS - 1);
  cpu.cycles = from + spent;
  core.carriedOut += count;
};
