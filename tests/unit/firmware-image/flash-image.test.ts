import { describe, expect, it } from 'vitest';
import { crc16 } from '../../../firmware-host/devices/keeper/crc.ts';
import {
  FLASH_BYTES,
  programCrc,
  programLength,
  SETUP_AT,
  SETUP_END,
  withProgramCrc,
  withSetup,
  writtenRanges,
} from '../../../firmware-host/firmware-image/flash-image.ts';
import { setupBlock } from '../../../src/farm/keeper-setup.ts';
import { EVERY_PART } from '../../support/wiring.ts';
import { farmWith } from '../farm/example.ts';

const PROGRAM = Uint8Array.from('123456789', (letter) => letter.charCodeAt(0));
const image = (): Uint8Array => {
  const blank = new Uint8Array(FLASH_BYTES).fill(0xff);
  blank.set(PROGRAM);
  return blank;
};
const BLOCK = setupBlock(farmWith(), EVERY_PART);
const TABLE = Uint8Array.from({ length: 14 }, (_, place) => place);

describe('the checksum of the program', () => {
  it('is 0x29B1 for the nine bytes whose checksum the page gives (board-protocol.md, Frames)', () => {
    expect([programLength(image()), programCrc(image())]).toEqual([9, 0x29b1]);
  });

  it('stands behind its length at 0x6f00, least byte first, and nothing else changes', () => {
    const sealed = withProgramCrc(image());
    expect([...sealed.subarray(0x6f00, 0x6f04)]).toEqual([9, 0, 0xb1, 0x29]);
    expect(sealed.filter((byte, at) => byte !== image()[at])).toHaveLength(4);
  });

  it('is over no byte of the setup: the same for every farm', () => {
    expect(programCrc(withSetup(image(), BLOCK, TABLE))).toBe(0x29b1);
  });

  it('of a program up to the last byte before the setup is over all of it', () => {
    const full = image();
    full[SETUP_AT - 1] = 0;
    expect(programLength(full)).toBe(0x6f00);
  });
});

describe('the setup in the flash', () => {
  const set = withSetup(withProgramCrc(image()), BLOCK, TABLE);

  it('lies from 0x6f04 on, then the table, blank to its 70 bytes', () => {
    expect([...set.subarray(0x6f04, 0x6f4c)]).toEqual([...BLOCK]);
    expect([...set.subarray(0x6f4c, 0x6f5a)]).toEqual([...TABLE]);
    expect(set.subarray(0x6f5a, 0x6f92).every((byte) => byte === 0xff)).toBe(true);
  });

  it('ends with a checksum over block and table at 0x6f92, and takes 148 bytes in all', () => {
    const crc = crc16(set.subarray(0x6f04, 0x6f92));
    expect([...set.subarray(0x6f92, 0x6f94)]).toEqual([crc & 0xff, crc >> 8]);
    expect(SETUP_END - SETUP_AT).toBe(148);
  });

  it('leaves length and checksum of the program as they are, in either order', () => {
    expect(set).toEqual(withProgramCrc(withSetup(image(), BLOCK, TABLE)));
  });

  it('of a shorter table leaves nothing of a longer one', () => {
    const long = withSetup(image(), BLOCK, new Uint8Array(70).fill(7));
    expect(withSetup(long, BLOCK, TABLE)).toEqual(withSetup(image(), BLOCK, TABLE));
  });

  it('is refused with a block of 71 bytes, a table of 71 or none', () => {
    expect(() => withSetup(image(), BLOCK.slice(1), TABLE)).toThrow('71 bytes');
    expect(() => withSetup(image(), BLOCK, new Uint8Array(71))).toThrow('71 bytes');
    expect(() => withSetup(image(), BLOCK, new Uint8Array())).toThrow('0 bytes');
    expect(() => withSetup(new Uint8Array(5), BLOCK, TABLE)).toThrow('5 bytes');
  });
});

describe('what is written to a board', () => {
  it('is program and setup alone: nothing of the last 2 kB, where bootloaders lie', () => {
    const ranges = writtenRanges(withSetup(image(), BLOCK, TABLE));
    expect(ranges).toEqual([
      { from: 0, to: 9 },
      { from: 0x6f00, to: 0x6f94 },
    ]);
    // ATmega328P data sheet, "Boot Size Configuration": a boot section of 2 kB begins at word 0x3C00.
    for (const { to } of ranges) expect(to).toBeLessThanOrEqual(2 * 0x3c00);
  });
});
