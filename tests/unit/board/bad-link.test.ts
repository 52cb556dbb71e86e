import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  createBadLink,
  LINK_BYTES_MAX,
  type BadLink,
  type LinkFaults,
} from '../../../sim/board/firmata/bad-link.ts';
import { seededDice } from '../../../sim/dice.ts';
import { BrokenAssertion } from '../../../src/units/assertion.ts';
import type { Level } from '../../../sim/board/firmata/pin-bank.ts';
import { BOOT_MILLIS, started, type Desk } from './desk.ts';

const link = (change: Partial<LinkFaults> = {}): BadLink =>
  createBadLink({
    dice: seededDice(1),
    lossShare: 0,
    flipShare: 0,
    duplicateShare: 0,
    delayMillis: 0,
    stalled: [],
    ...change,
  });
const many = Uint8Array.from({ length: 4000 }, (_, place) => place % 251);
const through = (faults: Partial<LinkFaults>, bytes = many): readonly number[] => {
  const pipe = link(faults);
  pipe.send(bytes, 0);
  return [...pipe.receive(1_000_000)];
};

/** Four standard deviations of a binomial share, so a fair throw fails 1 in 16,000; the seed is fixed. */
const expectShare = (seen: number, share: number): void => {
  const expected = many.length * share;
  const doubt = 4 * Math.sqrt(many.length * share * (1 - share));
  expect(Math.abs(seen - expected)).toBeLessThanOrEqual(doubt);
};

describe('a link without faults', () => {
  it('gives every byte once, in order', () => {
    fc.assert(
      fc.property(fc.uint8Array(), (bytes) => {
        expect(through({}, bytes)).toEqual([...bytes]);
      }),
    );
  });

  it('gives a byte after its delay of 5 ms and not before', () => {
    const pipe = link({ delayMillis: 5 });
    pipe.send(Uint8Array.of(1), 100);
    expect(pipe.nextDue(100)).toBe(105);
    expect([...pipe.receive(104)]).toEqual([]);
    expect([...pipe.receive(105)]).toEqual([1]);
    expect(pipe.nextDue(105)).toBeNull();
  });

  it('keeps the order of bytes whatever times they are sent at', () => {
    const pipe = link({ delayMillis: 5 });
    pipe.send(Uint8Array.of(1), 100);
    pipe.send(Uint8Array.of(2), 90);
    expect([...pipe.receive(99)]).toEqual([]);
    expect([...pipe.receive(105)]).toEqual([1, 2]);
  });
});

describe('faults', () => {
  it.each([0.01, 0.2, 0.9])('lose a share of %f', (lossShare) => {
    const pipe = link({ lossShare });
    pipe.send(many, 0);
    const got = pipe.receive(0).length;
    expectShare(many.length - got, lossShare);
    expect(pipe.tally().lost).toBe(many.length - got);
  });

  it.each([0.01, 0.2, 0.9])('turn over exactly one bit in a share of %f', (flipShare) => {
    const pipe = link({ flipShare });
    pipe.send(many, 0);
    const turned = [...pipe.receive(0)]
      .map((byte, place) => byte ^ many[place]!)
      .filter((bits) => bits !== 0);
    expectShare(turned.length, flipShare);
    expect(pipe.tally().flipped).toBe(turned.length);
    expect(turned.every((bits) => (bits & (bits - 1)) === 0)).toBe(true);
    // All 8 bits have their turn; the fewest bytes here are about 40.
    expect(new Set(turned).size).toBe(8);
  });

  it('double a share of 0.05, next to each other', () => {
    const pipe = link({ duplicateShare: 0.05 });
    pipe.send(many.subarray(0, 3800), 0);
    const got = [...pipe.receive(0)];
    expect(got.length - 3800).toBe(pipe.tally().duplicated);
    // Neighbours in `many` differ, so what is left without equal neighbours is what was sent.
    expect(got.filter((byte, place) => byte !== got[place - 1])).toEqual([...many.subarray(0, 3800)]);
    expect(Math.abs(pipe.tally().duplicated - 190)).toBeLessThanOrEqual(4 * Math.sqrt(3800 * 0.05 * 0.95));
  });

  it('at shares of 1 lose every byte, turn every byte, double every byte', () => {
    expect(through({ lossShare: 1 })).toEqual([]);
    expect(through({ flipShare: 1 }).every((byte, place) => byte !== many[place])).toBe(true);
    expect(through({ duplicateShare: 1 }, Uint8Array.of(7, 8))).toEqual([7, 7, 8, 8]);
  });

  it('are the same for the same seed and others for another', () => {
    const spoilt = (seed: number): readonly number[] =>
      through({ dice: seededDice(seed), lossShare: 0.1, flipShare: 0.1 });
    expect(spoilt(5)).toEqual(spoilt(5));
    expect(spoilt(5)).not.toEqual(spoilt(6));
  });

  it('turn the same bytes whether or not others are doubled', () => {
    const turned = (duplicateShare: number): number => {
      const pipe = link({ flipShare: 0.1, duplicateShare });
      pipe.send(many, 0);
      return pipe.tally().flipped;
    };
    expect(turned(0.5)).toBe(turned(0));
  });
});

describe('a stall', () => {
  const stalled = [{ fromMillis: 10, untilMillis: 50 }];

  it('holds bytes from 10 to 50 ms and then gives all at once', () => {
    const pipe = link({ stalled });
    pipe.send(Uint8Array.of(1), 10);
    pipe.send(Uint8Array.of(2), 30);
    expect([...pipe.receive(49)]).toEqual([]);
    expect(pipe.nextDue(30)).toBe(50);
    expect([...pipe.receive(50)]).toEqual([1, 2]);
  });

  it('lets through before it begins', () => {
    const pipe = link({ stalled });
    pipe.send(Uint8Array.of(1), 9);
    expect([...pipe.receive(9)]).toEqual([1]);
  });

  it('that follows another adds to it', () => {
    const pipe = link({ stalled: [...stalled, { fromMillis: 40, untilMillis: 90 }] });
    pipe.send(Uint8Array.of(1), 20);
    expect(pipe.nextDue(20)).toBe(90);
  });

  it('without end never gives anything, and says so', () => {
    const pipe = link({ stalled: [{ fromMillis: 0, untilMillis: Infinity }] });
    pipe.send(Uint8Array.of(1), 0);
    expect(pipe.nextDue(0)).toBeNull();
    expect([...pipe.receive(1e12)]).toEqual([]);
  });
});

describe('bounds', () => {
  it('holds 4096 bytes and counts what is lost on top', () => {
    const pipe = link({ delayMillis: 1000 });
    pipe.send(new Uint8Array(LINK_BYTES_MAX + 7), 0);
    expect(pipe.tally().overrun).toBe(7);
    expect(pipe.receive(1000)).toHaveLength(LINK_BYTES_MAX);
  });

  it.each<[string, Partial<LinkFaults>]>([
    ['a share above 1', { lossShare: 1.01 }],
    ['a share below 0', { flipShare: -0.01 }],
    ['a share that is no number', { duplicateShare: NaN }],
    ['a delay below 0', { delayMillis: -1 }],
  ])('refuses %s', (_, change) => {
    expect(() => link(change)).toThrow(BrokenAssertion);
  });
});

describe('a board behind a bad link', () => {
  const OFF = Uint8Array.of(0xf5, 8, 0);
  const OUTPUT_AND_OFF = Uint8Array.of(0xf4, 8, 1, 0xf5, 8, 0);
  const runningPump = (): Desk => {
    const desk = started();
    desk.peer.receive(Uint8Array.of(0xf5, 8, 1), BOOT_MILLIS);
    return desk;
  };

  it('may be made deaf by 1 bit: F5 08 00 becomes F4 08 00, an input that no F5 reaches', () => {
    const desk = runningPump();
    desk.peer.receive(Uint8Array.of(0xf5 ^ 1, 8, 0), BOOT_MILLIS);
    expect(desk.levelOf(8)).toBe('floating');
    desk.peer.receive(OFF, BOOT_MILLIS);
    expect(desk.levelOf(8)).toBe('floating');
    desk.peer.receive(OUTPUT_AND_OFF, BOOT_MILLIS);
    expect(desk.levelOf(8)).toBe(0);
  });

  it('obeys the first mode and switch-off after 600 bytes with 1 in 3 spoilt, whatever was spoilt', () => {
    const during = new Map<Level, number>();
    for (let seed = 1; seed <= 200; seed += 1) {
      const desk = runningPump();
      const noisy = link({ dice: seededDice(seed), lossShare: 0.1, flipShare: 0.15, duplicateShare: 0.1 });
      for (let sent = 0; sent < 100; sent += 1)
        noisy.send(Uint8Array.of(0xf4, 8, 1, 0xf5, 8, 1), BOOT_MILLIS);
      desk.peer.receive(noisy.receive(BOOT_MILLIS), BOOT_MILLIS);
      during.set(desk.levelOf(8), (during.get(desk.levelOf(8)) ?? 0) + 1);
      desk.peer.receive(OUTPUT_AND_OFF, BOOT_MILLIS);
      expect(desk.levelOf(8)).toBe(0);
    }
    // The noise did leave the pin where it was not meant to be; else this had shown nothing.
    expect(during.size).toBeGreaterThan(1);
  });
});
