import { describe, expect, it } from 'vitest';
import {
  isSetUp,
  isWithoutWatchdog,
  setupDifferences,
  setupWhy,
} from '../../../../firmware-host/devices/keeper/setup-compare.ts';
import { setupBlock } from '../../../../src/farm/keeper-setup.ts';
import { wiringSchema } from '../../../../src/farm/wiring-schema.ts';
import { exampleFarm } from '../../../support/farm.ts';

const WIRING = {
  relay: { pin: 8 },
  returnFlow: { pin: 2, pulsesPerLitre: 1.5 },
  pumpCurrent: { pin: 'A3', drawsAboveCounts: 100 },
  tankFloat: { pin: 4 },
  buzzer: 5,
  button: 6,
  airThermistor: { pin: 'A1' },
};
const block = (change: object = {}, farm = exampleFarm): Uint8Array =>
  setupBlock(farm, wiringSchema.parse({ ...WIRING, ...change }));
const FARM = block();
const whyOf = (board: Uint8Array): string => setupWhy(setupDifferences(board, FARM));
const FLASH = 'the board again: rillkeeper board flash FARM --board PORT';

describe('a board against its farm file', () => {
  it('is the same when it was flashed with this file', () => {
    expect(setupDifferences(block(), FARM)).toEqual([]);
  });

  it.each([
    [
      'another relay pin',
      { relay: { pin: 7 } },
      `the board was flashed for a relay on pin 7; by the farm file it is on pin 8. What to do: change board.relay.pin, or flash ${FLASH}`,
    ],
    [
      'the other level of the relay',
      { relay: { pin: 8, energised: 'low' } },
      `the board was flashed for a relay pulled by low; by the farm file it is pulled by high. What to do: change board.relay.energised, or flash ${FLASH}`,
    ],
    [
      'a float that the file has not',
      { leakSensor: { pin: 9 } },
      `the board was flashed for a leak sensor; the farm file has none. What to do: change board.leakSensor, or flash ${FLASH}`,
    ],
    [
      'no float where the file has one',
      { tankFloat: undefined },
      `the board was flashed without a tank float; the farm file has one. What to do: change board.tankFloat, or flash ${FLASH}`,
    ],
    [
      'another kind of return sensor, on another pin',
      { returnFlow: { pin: 3 } },
      /of the kind switch; by the farm file it is of the kind meter\. .*on pin 3; by the farm file it is on pin 2\. .*change board\.returnFlow, board\.returnFlow\.pin,/,
    ],
    [
      'another current',
      { pumpCurrent: { pin: 'A3', drawsAboveCounts: 300 } },
      /drawing above 300 counts; by the farm file it is drawing above 100 counts\. .*board\.pumpCurrent\.drawsAboveCounts/,
    ],
    [
      'a thermistor on the other side of its resistor',
      { airThermistor: { pin: 'A1', wired: 'to-reference' } },
      /with counts that rise with heat; by the farm file it is with counts that fall with heat/,
    ],
    [
      'another buzzer',
      { buzzer: 10 },
      /a buzzer on pin 10; by the farm file it is on pin 5\..* board\.buzzer,/,
    ],
  ] as const)('%s is told with what to change', (_, change, says) => {
    expect(whyOf(block(change))).toEqual(
      typeof says === 'string' ? says : (expect.stringMatching(says) as string),
    );
  });

  it.each([
    [1, 1, /the dead-board choice pump-runs; by the farm file it is/],
    [4, 1, /a longest run of \d+ s; by the farm file it is \d+ s\. .*pump\.longestOnMinutes/],
    [6, 1, /a shortest stop of \d+ s; by the farm file it is \d+ s\. .*pump\.shortestOffSeconds/],
    [37, 19, /byte 37 of the board's setup is 19; this program gives 20\. What to do: flash the board again/],
    [71, 1, /byte 71 of the board's setup is 1; this program gives 0/],
    [0, 2, /a setup of schema 2; this program knows 1/],
  ] as const)('byte %d of %d is told', (at, value, says) => {
    const board = block();
    board[at] = value;
    expect(whyOf(board)).toMatch(says);
  });

  it('no byte but the watchdog can differ unseen', () => {
    const unseen = Array.from({ length: 72 }, (_, at) => at).filter((at) => {
      const board = block();
      board[at] = board[at]! ^ 0x40;
      return setupDifferences(board, FARM).length === 0;
    });
    expect(unseen).toEqual([38]);
  });

  it('that goes without its watchdog is the same board, and known by it', () => {
    const board = setupBlock(exampleFarm, wiringSchema.parse(WIRING), 'off');
    expect([setupDifferences(board, FARM), isWithoutWatchdog(board), isWithoutWatchdog(FARM)]).toEqual([
      [],
      true,
      false,
    ]);
  });

  it('of 72 bytes FF was never set up', () => {
    expect([isSetUp(new Uint8Array(72).fill(0xff)), isSetUp(FARM)]).toEqual([false, true]);
  });
});
