import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import * as firmata from '../../../sim/board/firmata/bytes.ts';
import { hexOf } from './desk.ts';

describe('messages of the board, byte for byte', () => {
  // The first four and the interval are computed from the tables of protocol.md 2.8.0 by hand, 7 bits at a time.
  it.each<[string, readonly number[], string]>([
    ['channel 0 at 512', firmata.analogMessage(0, 512), 'E0 00 04'],
    ['channel 1 at 1023', firmata.analogMessage(1, 1023), 'E1 7F 07'],
    ['pin 7 high on port 0', firmata.digitalPortMessage(0, 1 << 7), '90 00 01'],
    ['pin 13 high on port 1', firmata.digitalPortMessage(1, 1 << (13 - 8)), '91 20 00'],
    ['an interval of 1000 ms', firmata.samplingIntervalMessage(1000), 'F0 7A 68 07 F7'],
    ['the string "Hi"', firmata.stringMessage('Hi'), 'F0 71 48 00 69 00 F7'],
    ['a letter beyond 7 bits, U+00E9', firmata.stringMessage('é'), 'F0 71 69 01 F7'],
    ['version 2.8', firmata.versionMessage({ major: 2, minor: 8 }), 'F9 02 08'],
    [
      'firmware "Ab" 3.4',
      firmata.firmwareMessage({ major: 3, minor: 4 }, 'Ab'),
      'F0 79 03 04 41 00 62 00 F7',
    ],
    [
      'a reserved pin and one with two modes',
      firmata.capabilityMessage([
        [],
        [
          { mode: firmata.PIN_MODE.output, resolution: 1 },
          { mode: firmata.PIN_MODE.pwm, resolution: 8 },
        ],
      ]),
      'F0 6C 7F 01 01 03 08 7F F7',
    ],
    ['a mapping with one channel 5', firmata.analogMappingMessage([null, 5]), 'F0 6A 7F 05 F7'],
    ['pin 13 output, state 0', firmata.pinStateMessage(13, 1, 0), 'F0 6E 0D 01 00 F7'],
    ['pin 3 PWM, state 127', firmata.pinStateMessage(3, 3, 127), 'F0 6E 03 03 7F F7'],
    ['pin 3 PWM, state 128', firmata.pinStateMessage(3, 3, 128), 'F0 6E 03 03 00 01 F7'],
    ['pin 3 PWM, state 16384', firmata.pinStateMessage(3, 3, 16384), 'F0 6E 03 03 00 00 01 F7'],
    ['a pin 99 that is not there', firmata.noSuchPinMessage(99), 'F0 6E 63 F7'],
  ])('%s', (_, message, expected) => {
    expect(hexOf(message)).toBe(expected);
  });
});

describe('groups of 7 bits', () => {
  it('spell a delay of 1800000 ms as 40 6E 6D 00 00', () => {
    // 1800000 = 0x40 + 0x6E·2^7 + 0x6D·2^14
    expect(hexOf(firmata.sevenBitGroups(1_800_000, 5))).toBe('40 6E 6D 00 00');
  });

  it('cut off what does not fit: 16384 in two groups is 0', () => {
    expect(firmata.sevenBitGroups(16_384, 2)).toEqual([0, 0]);
  });

  it('bring any 32-bit number back, in 5 groups none of which has the eighth bit', () => {
    fc.assert(
      fc.property(fc.nat(0xffff_ffff), (value) => {
        const groups = firmata.sevenBitGroups(value, 5);
        expect(groups.every((group) => group >= 0 && group <= 0x7f)).toBe(true);
        expect(firmata.fromSevenBitGroups(groups)).toBe(value);
      }),
    );
  });

  it('bring any octets back in pairs, twice as many', () => {
    fc.assert(
      fc.property(fc.uint8Array(), (octets) => {
        const pairs = firmata.toPairs([...octets]);
        expect(pairs).toHaveLength(2 * octets.length);
        expect(firmata.fromPairs(pairs)).toEqual([...octets]);
      }),
    );
  });

  it('are no pairs when 3 of them come', () => {
    expect(firmata.fromPairs([1, 0, 1])).toBeNull();
  });
});
