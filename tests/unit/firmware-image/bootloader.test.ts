import { describe, expect, it } from 'vitest';
import {
  bootloaderIn,
  BOOTLOADER_QUESTION,
  FLASHING,
  flashingOfIds,
  WITHOUT_WATCHDOG,
} from '../../../firmware-host/firmware-image/bootloader.ts';

describe('how a board is flashed', () => {
  it('an old bootloader listens at 57600 and gets no watchdog, a new one at 115200 and gets it (boards.txt)', () => {
    expect(FLASHING.old).toMatchObject({ baud: 57_600, watchdog: 'off' });
    expect(FLASHING.new).toMatchObject({ baud: 115_200, watchdog: 'on' });
  });

  it.each([
    ['2341', '0043', 'new'],
    ['2a03', '0043', 'new'],
    ['2341', '0001', 'new'],
    ['2341', '006a', 'new'],
    // Converters of boards of the Nano kind, and of many copies of an Uno: CH340, FTDI, CP2102.
    ['1a86', '7523', undefined],
    ['0403', '6001', undefined],
    ['10c4', 'ea60', undefined],
    // A Mega of the same maker.
    ['2341', '0042', undefined],
  ])('USB %s:%s is known as %s', (vendor, product, bootloader) => {
    expect(flashingOfIds({ vendor, product })?.bootloader).toBe(bootloader);
  });

  it('a port without ids is not known', () => {
    expect(flashingOfIds(null)).toBeNull();
  });

  it('whoever is asked is told both answers, and that trying new writes nothing on an old board', () => {
    expect(BOOTLOADER_QUESTION).toMatch(/--bootloader new to try: nothing is written/);
    expect(BOOTLOADER_QUESTION).toMatch(/--bootloader old/);
  });

  it('without a watchdog it is said what is lost and how to have it back', () => {
    expect(WITHOUT_WATCHDOG).toMatch(/one that rests may rest for ever/);
    expect(WITHOUT_WATCHDOG).toMatch(/Optiboot/);
  });
});

describe('what a bootloader says of itself', () => {
  it.each([
    // ATmegaBOOT_168.c: SW_MAJOR 1, SW_MINOR 0x10. Optiboot: OPTIBOOT_MAJVER, from 3 on.
    ['         Hardware Version: 2\n         Firmware Version: 1.16\n', '1.16', 'old'],
    ['         Hardware Version: 3\n         Firmware Version: 4.4\n', '4.4', 'new'],
    ['FW Version        : 8.3\n', '8.3', 'new'],
    ['         Firmware Version: 3.2\n', '3.2', 'new'],
    ['         Firmware Version: 104.6\n', '104.6', 'new'],
  ])('%j is version %s, %s', (output, says, bootloader) => {
    expect(bootloaderIn(output)).toEqual({ says, bootloader });
  });

  it('is not made up where it says nothing', () => {
    expect(bootloaderIn('avrdude: Version 7.1\navrdude done.  Thank you.')).toBeNull();
  });
});
