import { FLASH_WORDS } from './registers.ts';

/**
 * What an instruction does, by the number under which `carry-out.ts` does it: there they are written as plain
 * numbers, since only such a switch becomes a table of jumps.
 */
const OP = {
  /** Left to the library: seldom used, or no instruction at all. */
  byLibrary: 0,
  add: 1,
  adc: 2,
  sub: 3,
  cp: 4,
  subi: 5,
  cpi: 6,
  sbc: 7,
  cpc: 8,
  sbci: 9,
  neg: 10,
  and: 11,
  or: 12,
  eor: 13,
  andi: 14,
  ori: 15,
  com: 16,
  inc: 17,
  dec: 18,
  lsr: 19,
  ror: 20,
  asr: 21,
  swap: 22,
  mov: 23,
  movw: 24,
  ldi: 25,
  adiw: 26,
  sbiw: 27,
  mul: 28,
  setFlag: 29,
  clearFlag: 30,
  storeBit: 31,
  loadBit: 32,
  jump: 33,
  call: 34,
  ret: 35,
  reti: 36,
  branchIfSet: 37,
  branchIfClear: 38,
  skipIfEqual: 39,
  skipIfBitClear: 40,
  skipIfBitSet: 41,
  skipIfPortClear: 42,
  skipIfPortSet: 43,
  in: 44,
  lds: 45,
  load: 46,
  loadAndGo: 47,
  goAndLoad: 48,
  out: 49,
  sts: 50,
  store: 51,
  storeAndGo: 52,
  goAndStore: 53,
  changePort: 54,
  push: 55,
  pop: 56,
  lpm: 57,
  lpmAndGo: 58,
  sleep: 59,
  wdr: 60,
  nop: 61,
} as const;
type Op = (typeof OP)[keyof typeof OP];

/** One word of a program made ready: the number of what it does, eight bits of operand, sixteen bits of operand. */
const ready = (op: Op, a = 0, b = 0): number => (op | (a << 8) | (b << 16)) >>> 0;

const IO_START = 0x20;
const X = 26;
const Y = 28;
const Z = 30;
const five = (word: number): number => (word >> 4) & 0x1f;
const source = (word: number): number => (word & 0xf) | ((word >> 5) & 0x10);
const bitMask = (word: number): number => 1 << (word & 7);

/** Two registers, by the first six bits (AVR instruction set manual). */
const TWO_REGISTERS: Readonly<Record<number, Op>> = {
  0x01: OP.cpc,
  0x02: OP.sbc,
  0x03: OP.add,
  0x05: OP.cp,
  0x06: OP.sub,
  0x07: OP.adc,
  0x08: OP.and,
  0x09: OP.eor,
  0x0a: OP.or,
  0x0b: OP.mov,
  0x27: OP.mul,
};
/** One of the upper registers and a number, by the first four bits. */
const WITH_NUMBER: Readonly<Record<number, Op>> = {
  0x3: OP.cpi,
  0x4: OP.sbci,
  0x5: OP.subi,
  0x6: OP.ori,
  0x7: OP.andi,
  0xe: OP.ldi,
};
/** 1001 010d dddd xxxx, by the last four bits. */
const ONE_REGISTER: Readonly<Record<number, Op>> = {
  0x0: OP.com,
  0x1: OP.neg,
  0x2: OP.swap,
  0x3: OP.inc,
  0x5: OP.asr,
  0x6: OP.lsr,
  0x7: OP.ror,
  0xa: OP.dec,
};
/** 1001 00sd dddd xxxx, loads and stores by a pointer. */
const BY_POINTER: Readonly<Record<number, readonly [load: Op, store: Op, pointer: number]>> = {
  0x1: [OP.loadAndGo, OP.storeAndGo, Z],
  0x2: [OP.goAndLoad, OP.goAndStore, Z],
  0x9: [OP.loadAndGo, OP.storeAndGo, Y],
  0xa: [OP.goAndLoad, OP.goAndStore, Y],
  0xc: [OP.load, OP.store, X],
  0xd: [OP.loadAndGo, OP.storeAndGo, X],
  0xe: [OP.goAndLoad, OP.goAndStore, X],
  0xf: [OP.pop, OP.push, 0],
};
const WHOLE_WORD: Readonly<Record<number, number>> = {
  0x0000: ready(OP.nop),
  0x9508: ready(OP.ret),
  0x9518: ready(OP.reti),
  0x9588: ready(OP.sleep),
  0x95a8: ready(OP.wdr),
  0x95c8: ready(OP.lpm),
};
/** Cycles of a jump or call beyond the first. */
const RJMP = 1;
const JMP = 2;
const RCALL = 2;
const CALL = 3;
/** Two words: LDS, STS, CALL, JMP. */
const isLong = (word: number): boolean => (word & 0xfc0f) === 0x9000 || (word & 0xfe0c) === 0x940c;

const decodeNine = (word: number, next: number): number => {
  const low = word & 0xf;
  switch (word & 0xfe00) {
    case 0x9000:
    case 0x9200: {
      const stores = (word & 0x0200) !== 0;
      if (low === 0) return ready(stores ? OP.sts : OP.lds, five(word), next);
      if (low === 4 && !stores) return ready(OP.lpm, five(word));
      if (low === 5 && !stores) return ready(OP.lpmAndGo, five(word));
      const [load, store, pointer] = BY_POINTER[low] ?? [OP.byLibrary, OP.byLibrary, 0];
      return ready(stores ? store : load, five(word), pointer);
    }
    case 0x9400: {
      if ((word & 0xff8f) === 0x9408) return ready(OP.setFlag, 1 << ((word >> 4) & 7));
      if ((word & 0xff8f) === 0x9488) return ready(OP.clearFlag, 1 << ((word >> 4) & 7));
      if ((word & 0xe) === 0xc) return ready(OP.jump, JMP, next % FLASH_WORDS);
      if ((word & 0xe) === 0xe) return ready(OP.call, CALL, next % FLASH_WORDS);
      return ready(ONE_REGISTER[low] ?? OP.byLibrary, five(word));
    }
    default: {
      const number = (word & 0xf) | ((word >> 2) & 0x30);
      return ready((word & 0x100) === 0 ? OP.adiw : OP.sbiw, 24 + 2 * ((word >> 4) & 3), number);
    }
  }
};

/** @param following place of the next word @param skipped words of the instruction there */
const decodeWord = (word: number, next: number, following: number, skipped: number): number => {
  const whole = WHOLE_WORD[word];
  if (whole !== undefined) return whole;
  const two = TWO_REGISTERS[word >> 10];
  if (two !== undefined) return ready(two, five(word), source(word));
  const numbered = WITH_NUMBER[word >> 12];
  if (numbered !== undefined)
    return ready(numbered, 16 + ((word >> 4) & 0xf), (word & 0xf) | ((word >> 4) & 0xf0));
  if (word >> 8 === 0x01) return ready(OP.movw, (word >> 3) & 0x1e, (word << 1) & 0x1e);
  if ((word & 0xd000) === 0x8000) {
    const offset = (word & 7) | ((word >> 7) & 0x18) | ((word >> 8) & 0x20);
    const pointer = (word & 8) === 0 ? Z : Y;
    return ready((word & 0x0200) === 0 ? OP.load : OP.store, five(word), pointer | (offset << 8));
  }
  const skips = skipped << 8;
  const port = IO_START + ((word >> 3) & 0x1f);
  const space = IO_START + ((word & 0xf) | ((word >> 5) & 0x30));
  const near = (following + ((word << 20) >> 20)) & (FLASH_WORDS - 1);
  const nearer = (following + ((word << 22) >> 25)) & (FLASH_WORDS - 1);
  switch (word >> 10) {
    case 0x04:
      return ready(OP.skipIfEqual, five(word), skips | source(word));
    case 0x24:
    case 0x25:
      return decodeNine(word, next);
    case 0x26: {
      const bit = bitMask(word);
      if ((word & 0x100) === 0)
        return ready(OP.changePort, port, bit | ((word & 0x200) === 0 ? 0 : bit << 8));
      return ready((word & 0x200) === 0 ? OP.skipIfPortClear : OP.skipIfPortSet, port, skips | bit);
    }
    case 0x2c:
    case 0x2d:
      return ready(OP.in, five(word), space);
    case 0x2e:
    case 0x2f:
      return ready(OP.out, five(word), space);
    case 0x30:
    case 0x31:
    case 0x32:
    case 0x33:
      return ready(OP.jump, RJMP, near);
    case 0x34:
    case 0x35:
    case 0x36:
    case 0x37:
      return ready(OP.call, RCALL, near);
    case 0x3c:
      return ready(OP.branchIfSet, bitMask(word), nearer);
    case 0x3d:
      return ready(OP.branchIfClear, bitMask(word), nearer);
    case 0x3e:
      if ((word & 8) !== 0) return ready(OP.byLibrary);
      return ready((word & 0x200) === 0 ? OP.loadBit : OP.storeBit, five(word), bitMask(word));
    case 0x3f:
      if ((word & 8) !== 0) return ready(OP.byLibrary);
      return ready(
        (word & 0x200) === 0 ? OP.skipIfBitClear : OP.skipIfBitSet,
        five(word),
        skips | bitMask(word),
      );
    default:
      return ready(OP.byLibrary);
  }
};

/** One word of the flash made ready, whether or not an instruction begins there. */
export const decodeAt = (flash: Uint16Array, place: number): number => {
  const wordAt = (any: number): number => flash[any % FLASH_WORDS] ?? 0;
  const next = wordAt(place + 1);
  return decodeWord(wordAt(place), next, place + 1, isLong(next) ? 2 : 1);
};

/** The whole flash made ready. */
export const decode = (flash: Uint16Array): Uint32Array =>
  Uint32Array.from({ length: FLASH_WORDS }, (_, place) => decodeAt(flash, place));
