import { setupBlock } from '../../src/farm/keeper-setup.ts';
import type { Hello } from '../devices/keeper/board-message.ts';
import { isWithoutWatchdog, setupDifferences } from '../devices/keeper/setup-compare.ts';
import type { KeeperStatus, SelfTest } from '../devices/keeper/status.ts';
import { fuseFindings } from '../firmware-image/fuse-words.ts';
import type { KeeperFarm } from './keeper-farm.ts';

/** One thing looked at when a board is put into service, and what was found. */
export interface Finding {
  readonly name: string;
  readonly verdict: 'well' | 'warning' | 'failed' | 'not-tried';
  readonly says: string;
}

const SELF_TEST_WORDS: Readonly<Record<SelfTest, string>> = {
  flash: 'its program is damaged: flash it again',
  EEPROM:
    'a stored table does not verify: put it again (board table --write); if that fails, take another board',
  RAM: 'its memory is damaged: take another board',
  clock: 'its clock and its watchdog disagree: rests and floods would last wrong; take another board',
  setup: 'its setup is damaged: flash it again',
};

const selfTests = ({ failedTests }: KeeperStatus): readonly Finding[] =>
  failedTests.length === 0
    ? [
        {
          name: 'self-tests',
          verdict: 'well',
          says: 'Flash, EEPROM, RAM, clock and setup passed their self-tests.',
        },
      ]
    : failedTests.map((test): Finding => ({
        name: 'self-tests',
        verdict: 'failed',
        says: `The self-test of the ${test} failed: ${SELF_TEST_WORDS[test]}.`,
      }));

const reset = ({ resetCauses, resets, uptimeSeconds }: KeeperStatus): Finding => {
  const cause = resetCauses.length === 0 ? 'unknown (the bootloader keeps it)' : resetCauses.join(' and ');
  const bad = resetCauses.some((each) => each === 'watchdog' || each === 'brown-out');
  return {
    name: 'reset',
    verdict: bad ? 'warning' : 'well',
    says: `Last reset ${uptimeSeconds} s ago, cause: ${cause}; ${resets} since power-on.${bad ? ' A brown-out is a weak supply, a watchdog reset a program that hung; look for the reason if it comes again.' : ''}`,
  };
};

const watchdog = ({ setup }: Hello): Finding =>
  isWithoutWatchdog(setup)
    ? {
        name: 'watchdog',
        verdict: 'warning',
        says: 'The watchdog is off, as it was flashed for an old bootloader: if the program hangs, nothing ends that.',
      }
    : { name: 'watchdog', verdict: 'well', says: 'The watchdog is on.' };

const setup = ({ farm, wiring }: KeeperFarm, { setup: found }: Hello): readonly Finding[] => {
  const differences = setupDifferences(found, setupBlock(farm, wiring));
  return differences.length === 0
    ? [{ name: 'setup', verdict: 'well', says: 'The board was flashed for this farm file as it stands.' }]
    : differences.map(({ says }): Finding => ({ name: 'setup', verdict: 'failed', says: `Setup: ${says}.` }));
};

const spare = ({ roomBytes, bytesLost, framesDropped }: KeeperStatus): readonly Finding[] => [
  {
    name: 'memory',
    verdict: roomBytes < ROOM_BYTES_MIN ? 'failed' : 'well',
    says: `${roomBytes} bytes of memory were never used.`,
  },
  {
    name: 'line',
    verdict: bytesLost + framesDropped > 0 ? 'warning' : 'well',
    says: `${bytesLost} bytes lost and ${framesDropped} messages dropped on the line.`,
  },
];

/** The deepest interrupt pushes some thirty bytes. Judgement. */
const ROOM_BYTES_MIN = 64;

/** What the board says of itself, without anybody touching it. */
export const keeperFindings = (ready: KeeperFarm, hello: Hello, status: KeeperStatus): readonly Finding[] => [
  {
    name: 'versions',
    verdict: 'well',
    says: `Firmware ${hello.firmware.major}.${hello.firmware.minor}, keeper protocol ${hello.protocol.major}.${hello.protocol.minor}.`,
  },
  ...setup(ready, hello),
  ...selfTests(status),
  reset(status),
  watchdog(hello),
  ...fuseFindings(status.fuses).map(({ name, verdict, says }): Finding => ({ name, verdict, says })),
  ...spare(status),
];
