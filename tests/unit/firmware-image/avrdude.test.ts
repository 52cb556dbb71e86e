import { describe, expect, it } from 'vitest';
import {
  askArguments,
  commandLine,
  failureWords,
  writeArguments,
} from '../../../firmware-host/firmware-image/avrdude.ts';
import { FLASHING } from '../../../firmware-host/firmware-image/bootloader.ts';

describe('what avrdude is asked', () => {
  it('is to write the file without erasing first, and to read it back', () => {
    expect(commandLine(writeArguments('/dev/ttyUSB0', FLASHING.new, 'a/board.hex'))).toBe(
      'avrdude -p atmega328p -c arduino -P /dev/ttyUSB0 -b 115200 -D -U flash:w:a/board.hex:i',
    );
  });

  it('never to skip the reading back, nor to force another chip', () => {
    for (const flashing of Object.values(FLASHING))
      for (const args of [askArguments('p', flashing), writeArguments('p', flashing, 'f')])
        expect(args.filter((arg) => ['-V', '-F', '-e', '-n'].includes(arg))).toEqual([]);
  });

  it('for its version writes nothing', () => {
    expect(askArguments('/dev/ttyUSB0', FLASHING.old)).toEqual([
      '-p',
      'atmega328p',
      '-c',
      'arduino',
      '-P',
      '/dev/ttyUSB0',
      '-b',
      '57600',
      '-D',
      '-v',
    ]);
  });

  it('is shown so that a shell takes it as one word each, whatever the names hold', () => {
    expect(commandLine(writeArguments("/dev/it's $HOME", FLASHING.new, 'my file.hex'))).toBe(
      `avrdude -p atmega328p -c arduino -P '/dev/it'\\''s $HOME' -b 115200 -D -U 'flash:w:my file.hex:i'`,
    );
  });
});

describe('a run of avrdude that failed', () => {
  // Words of avrdude 7.1.
  it.each([
    ['avrdude: ser_open(): can\'t open device "/dev/x": Permission denied', 'dialout'],
    ['avrdude error: cannot open port /dev/x: Device or resource busy', 'Another program has the port'],
    ['avrdude: ser_open(): can\'t open device "/dev/x": No such file or directory', 'no such port'],
    ['stk500_recv(): programmer is not responding', '--bootloader old'],
    ['stk500_getsync() attempt 10 of 10: not in sync: resp=0x00', 'nothing was written'],
    ['avrdude error: verification mismatch', 'must not go to the pump'],
    ['Expected signature for ATmega328P is 1E 95 0F', 'not an ATmega328P'],
    ['avrdude: writing flash (28416 bytes):\nstk500_recv(): programmer is not responding', 'half a program'],
    [
      'User configuration file does not exist or is not a regular file, skipping\nstk500_getsync(): not in sync',
      '--bootloader old',
    ],
    ['something else', 'stands above'],
  ])('%j leads to words with %j', (output, words) => {
    expect(failureWords(output, FLASHING.new)).toContain(words);
  });

  it('at the old speed points to the new bootloader', () => {
    expect(failureWords('not in sync', FLASHING.old)).toContain('--bootloader new');
  });
});
