import { describe, expect, it } from 'vitest';
import {
  fuseFindings,
  type FuseFinding,
  type Fuses,
} from '../../../firmware-host/firmware-image/fuse-words.ts';

/** An Uno as it is sold: github arduino/ArduinoCore-avr, boards.txt, uno.bootloader. */
const UNO: Fuses = { low: 0xff, high: 0xde, extended: 0xfd, lock: 0xcf };
const found = (change: Partial<Fuses>, name: FuseFinding['name']): FuseFinding =>
  fuseFindings({ ...UNO, ...change }).find((finding) => finding.name === name)!;

describe('fuses in words (ATmega328P data sheet, Fuse Bits)', () => {
  it.each([
    [0xff, 'off', 'warning'],
    [0xfe, 'at 1.8 V', 'warning'],
    [0xfd, 'at 2.7 V', 'warning'],
    [0xfc, 'at 4.3 V', 'well'],
    [0xf8, 'at a reserved level', 'warning'],
    // The unused bits may read as anything.
    [0x04, 'at 4.3 V', 'well'],
  ])('extended 0x%s: brown-out %s, %s', (extended, says, verdict) => {
    const finding = found({ extended }, 'brown-out');
    expect(finding.says).toContain(`Brown-out reset ${says}`);
    expect(finding.verdict).toBe(verdict);
  });

  it('a clock that is divided by eight is warned of, an undivided one not', () => {
    expect([found({}, 'clock').verdict, found({ low: 0x7f }, 'clock').verdict]).toEqual(['well', 'warning']);
  });

  it('says whether a chip erase takes the table', () => {
    expect(found({}, 'erase').says).toContain('also erases the stored table');
    expect(found({ high: 0xd6 }, 'erase').says).toContain('outlives a chip erase');
  });

  it.each([
    [0xde, '512 bytes, as Optiboot', 'well'],
    // Both kinds of Nano are sold with this one.
    [0xda, '2048 bytes; that fits an old one as well as a new one', 'well'],
    [0xdc, '1024 bytes', 'well'],
    [0xd8, '4096 bytes: it reaches down to the setup', 'warning'],
    [0xdf, 'No bootloader', 'well'],
  ])('high 0x%s: %s', (high, says, verdict) => {
    const finding = found({ high }, 'bootloader');
    expect(finding.says).toContain(says);
    expect(finding.verdict).toBe(verdict);
  });
});
