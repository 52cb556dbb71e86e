import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readSetup, setupBlock, setupOf } from '../../../src/farm/keeper-setup.ts';
import { setupBytes, type BoardSetup, type SetupContact } from '../../../src/farm/setup-bytes.ts';
import { EVERY_PART } from '../../support/wiring.ts';
import { farmWith } from './example.ts';

const BLOCK = setupBlock(farmWith(), EVERY_PART);
const withBytes = (...changes: readonly (readonly [at: number, byte: number])[]): Uint8Array => {
  const block = Uint8Array.from(BLOCK);
  for (const [at, byte] of changes) block[at] = byte;
  return block;
};

/** Pins, each given once. */
const pinsOnce = fc.shuffledSubarray([2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12], { minLength: 11 });
const channel = fc.integer({ min: 0, max: 7 });
const counts = fc.integer({ min: 0, max: 1023 });

const setups: fc.Arbitrary<BoardSetup> = fc
  .record({
    pins: pinsOnce,
    fitted: fc.array(fc.boolean(), { minLength: 12, maxLength: 12 }),
    levels: fc.array(fc.constantFrom('low' as const, 'high' as const), { minLength: 12, maxLength: 12 }),
    kinds: fc.tuple(fc.boolean(), fc.boolean(), fc.boolean()),
    deadBoard: fc.constantFrom('pump-stops' as const, 'pump-runs' as const, 'plain-timer' as const),
    longestOnSeconds: fc.integer({ min: 60, max: 5400 }),
    shortestOffSeconds: fc.integer({ min: 10, max: 600 }),
    pulsesAreWater: fc.integer({ min: 1, max: 255 }),
    channels: fc.tuple(channel, channel, channel),
    counts: fc.tuple(counts, counts),
    watchdog: fc.constantFrom('on' as const, 'off' as const),
  })
  .map((made) => {
    let next = 0;
    const pin = (): number => made.pins[next++]!;
    const contact = (place: number): SetupContact | null =>
      made.fitted[place]! ? { pin: pin(), level: made.levels[place]! } : null;
    const onePin = (place: number): number | null => (made.fitted[place]! ? pin() : null);
    const [meter, analog, rise] = made.kinds;
    return {
      deadBoard: made.deadBoard,
      relay: { pin: pin(), level: made.levels[0]! },
      longestOnSeconds: made.longestOnSeconds,
      shortestOffSeconds: made.shortestOffSeconds,
      returnFlow: !made.fitted[1]!
        ? null
        : meter
          ? { kind: 'meter', pin: pin(), pulsesAreWater: made.pulsesAreWater }
          : { kind: 'switch', pin: pin(), level: made.levels[1]! },
      pumpCurrent: !made.fitted[2]!
        ? null
        : analog
          ? { kind: 'analog', channel: made.channels[0], aboveCounts: made.counts[0] }
          : { kind: 'contact', pin: pin(), level: made.levels[2]! },
      tankFloat: contact(3),
      relayReadBack: contact(4),
      mainsPresent: contact(5),
      leakSensor: contact(6),
      overflowFloat: contact(7),
      buzzer: onePin(8),
      lamp: null,
      button: onePin(9),
      airThermistor: made.fitted[10]!
        ? {
            channel: made.channels[1],
            counts: rise ? 'rise-with-heat' : 'fall-with-heat',
            hotFromCounts: made.counts[1],
          }
        : null,
      probe: made.fitted[11]! && next <= 9 ? { channel: made.channels[2], drivenBy: [pin(), pin()] } : null,
      sipSeconds: 20,
      watchdog: made.watchdog,
    };
  });

describe('a setup block read again', () => {
  it('says what was put into it, whatever is fitted', () => {
    fc.assert(
      fc.property(setups, (setup) => {
        expect(readSetup(setupBytes(setup))).toEqual(setup);
      }),
      { numRuns: 1000 },
    );
  });

  it('of the farm with every part is that of the farm file', () => {
    expect(readSetup(BLOCK)).toEqual(setupOf(farmWith(), EVERY_PART));
  });

  it.each([
    ['never set up', [[0, 0xff]]],
    ['another schema', [[0, 2]]],
    ['an unknown dead-board choice', [[1, 3]]],
    ['no relay', [[2, 0xff]]],
    ['a relay on pin 1, the serial line', [[2, 1]]],
    ['a relay on pin 13, which blinks', [[2, 13]]],
    ['a level of 2', [[3, 2]]],
    [
      'longest-on of 59 s',
      [
        [4, 59],
        [5, 0],
      ],
    ],
    [
      'longest-on of 5401 s',
      [
        [4, 0x19],
        [5, 0x15],
      ],
    ],
    ['shortest-off of 9 s', [[6, 9]]],
    [
      'shortest-off of 601 s',
      [
        [6, 0x59],
        [7, 2],
      ],
    ],
    ['an unknown kind of return', [[8, 3]]],
    ['a meter without a pin', [[9, 0xff]]],
    ['a meter that needs no pulse', [[11, 0]]],
    ['an unknown kind of current', [[12, 3]]],
    ['a current channel A8', [[13, 8]]],
    [
      'current counts of 1024',
      [
        [15, 0],
        [16, 4],
      ],
    ],
    ['a float on the pin of the relay', [[17, 7]]],
    ['a buzzer on the pin of the lamp', [[27, 6]]],
    ['a thermistor on A8', [[30, 8]]],
    ['a thermistor that does a third thing', [[31, 2]]],
    [
      'a probe with one drive pin',
      [
        [34, 2],
        [35, 11],
      ],
    ],
    [
      'drive pins without a channel',
      [
        [35, 11],
        [36, 12],
      ],
    ],
    ['a sip of 0 s', [[37, 0]]],
    ['a sip of 61 s', [[37, 61]]],
    ['an unknown watchdog', [[38, 2]]],
    ['something in the empty rest', [[71, 1]]],
  ] as const)('with %s is none', (_, changes) => {
    expect(readSetup(withBytes(...changes))).toBeNull();
  });

  it('of another length is none', () => {
    expect(readSetup(BLOCK.slice(0, 71))).toBeNull();
    expect(readSetup(Uint8Array.from([...BLOCK, 0]))).toBeNull();
  });

  it('of any bytes is none, or one that means the same when written again', () => {
    const bytes = fc.array(fc.tuple(fc.integer({ min: 0, max: 71 }), fc.integer({ min: 0, max: 255 })), {
      maxLength: 4,
    });
    fc.assert(
      fc.property(bytes, (changes) => {
        const block = withBytes(...changes);
        const setup = readSetup(block);
        // Bytes of parts that are not fitted mean nothing and are not kept; so the meaning is held, not the bytes.
        if (setup !== null) expect(readSetup(setupBytes(setup))).toEqual(setup);
      }),
      { numRuns: 2000 },
    );
  });
});
