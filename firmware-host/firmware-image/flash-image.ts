import { SETUP_BYTES } from '../../src/farm/keeper-setup.ts';
import { TABLE_BYTES_MAX } from '../../src/farm/table-bytes.ts';
import { assert } from '../../src/units/assertion.ts';
import { crc16 } from '../devices/keeper/crc.ts';

/**
 * The flash of the board as a whole: program, and the setup area that makes it the board of one farm. Layout:
 * docs/board-protocol.md, "Setup". Functions give a new image and leave the one they were given.
 */

/** ATmega328P data sheet, "In-System Reprogrammable Flash Program Memory". */
export const FLASH_BYTES = 0x8000;
/** The program ends before it; every bootloader begins behind it. */
export const SETUP_AT = 0x6f00;

/** Length and checksum of the program. */
const PROGRAM_BYTES = 4;
const BLOCK_AT = SETUP_AT + PROGRAM_BYTES;
const TABLE_AT = BLOCK_AT + SETUP_BYTES;
const CRC_AT = TABLE_AT + TABLE_BYTES_MAX;
export const SETUP_END = CRC_AT + 2;
/** Flash that was never written. */
const BLANK = 0xff;

export interface ByteRange {
  readonly from: number;
  /** The first byte that is not part of it. */
  readonly to: number;
}

const assertWhole = (image: Uint8Array): void => {
  assert(image.length === FLASH_BYTES, `a flash of ${image.length} bytes`);
};
const withWord = (image: Uint8Array, at: number, value: number): void => {
  image[at] = value & 0xff;
  image[at + 1] = value >> 8;
};

/** Bytes of the program: up to the last that is not blank. */
export const programLength = (image: Uint8Array): number => {
  assertWhole(image);
  let length = SETUP_AT;
  while (length > 0 && image[length - 1] === BLANK) length -= 1;
  return length;
};

/** What the board holds its own flash against at every start. */
export const programCrc = (image: Uint8Array): number => crc16(image.subarray(0, programLength(image)));

export const withProgramCrc = (image: Uint8Array): Uint8Array => {
  const sealed = Uint8Array.from(image);
  withWord(sealed, SETUP_AT, programLength(image));
  withWord(sealed, SETUP_AT + 2, programCrc(image));
  return sealed;
};

/**
 * With the setup of a farm and the table that holds while the EEPROM has none.
 * @throws BrokenAssertion when the block has not 72 bytes, or the table more than 70
 */
export const withSetup = (image: Uint8Array, block: Uint8Array, table: Uint8Array): Uint8Array => {
  assertWhole(image);
  assert(block.length === SETUP_BYTES, `a setup of ${block.length} bytes`);
  assert(table.length > 0 && table.length <= TABLE_BYTES_MAX, `a table of ${table.length} bytes`);
  const set = Uint8Array.from(image);
  set.set(block, BLOCK_AT);
  set.fill(BLANK, TABLE_AT, CRC_AT);
  set.set(table, TABLE_AT);
  withWord(set, CRC_AT, crc16(set.subarray(BLOCK_AT, CRC_AT)));
  return set;
};

/** What is to be written: program and setup area, and nothing of the bootloader behind them. */
export const writtenRanges = (image: Uint8Array): readonly ByteRange[] => [
  { from: 0, to: programLength(image) },
  { from: SETUP_AT, to: SETUP_END },
];
