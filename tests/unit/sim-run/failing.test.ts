import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { seededDice } from '../../../sim/dice.ts';
import { spoiled, WAYS, type Signal, type Way } from '../../../sim/faults/failing.ts';

const COUNTS: Signal = { kind: 'level', least: 0, most: 1023, cut: 1023 };
const CONTACT: Signal = { kind: 'contact', least: 0, most: 1, cut: 1 };
const MINUTE = 60_000;
const START = Date.UTC(2026, 6, 14, 11);

/** What is told minute by minute of a truth. */
const told = (
  way: Way,
  signal: Signal,
  truth: (minute: number) => number,
  minutes: number,
  each = 1,
): readonly number[] => {
  const tells = spoiled(way, signal, seededDice(3));
  return Array.from({ length: minutes / each + 1 }, (_, place) =>
    tells(truth(place * each), START + place * each * MINUTE),
  );
};
const at = (minute: number): number => minute;

describe('the seven ways', () => {
  it('are seven', () => {
    expect(WAYS).toEqual(['off', 'stuck', 'garbage', 'wrong', 'slow', 'delayed', 'intermittent']);
  });

  it.each(WAYS)('%s stays inside what the signal can be, and a contact is 0 or 1', (way) => {
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.nat(1023), fc.nat(7_200_000)), { maxLength: 30 }), (row) => {
        const level = spoiled(way, COUNTS, seededDice(1));
        const contact = spoiled(way, CONTACT, seededDice(1));
        let now = START;
        for (const [truth, later] of row) {
          now += later;
          const shown = level(truth, now);
          expect(shown >= 0 && shown <= 1023).toBe(true);
          expect([0, 1]).toContain(contact(truth % 2, now));
        }
      }),
    );
  });
});

describe('off', () => {
  it('is what a cut cable reads, whatever is true', () => {
    expect(new Set(told('off', COUNTS, at, 60))).toEqual(new Set([1023]));
    expect(new Set(told('off', { ...COUNTS, cut: 0 }, at, 60))).toEqual(new Set([0]));
    expect(new Set(told('off', CONTACT, () => 0, 60))).toEqual(new Set([1]));
  });
});

describe('stuck', () => {
  it('stays at what was true when it began', () => {
    expect(new Set(told('stuck', COUNTS, (minute) => 500 + minute, 60))).toEqual(new Set([500]));
    expect(new Set(told('stuck', CONTACT, (minute) => Number(minute < 5), 60))).toEqual(new Set([1]));
  });
});

describe('garbage', () => {
  it('is anywhere in the range and says nothing of the truth', () => {
    const shown = told('garbage', COUNTS, () => 500, 1000);
    expect(Math.min(...shown)).toBeLessThan(50);
    expect(Math.max(...shown)).toBeGreaterThan(973);
    const closed = told('garbage', CONTACT, () => 0, 1000).filter((level) => level === 1).length;
    // A fair coin thrown a thousand times: five standard deviations of 16.
    expect(Math.abs(closed - 500)).toBeLessThan(80);
  });
});

describe('wrong', () => {
  it('is a fifth of the range too low, and a contact the wrong way round', () => {
    expect(told('wrong', COUNTS, () => 500, 0)[0]).toBeCloseTo(500 - 0.2 * 1023, 9);
    expect(told('wrong', COUNTS, () => 100, 0)).toEqual([0]);
    expect(told('wrong', CONTACT, (minute) => minute % 2, 3)).toEqual([1, 0, 1, 0]);
  });
});

describe('slow', () => {
  it('has gone 63 % of a step after 30 min, by the law of a first-order lag, and begins with the truth', () => {
    const step = told('slow', COUNTS, (minute) => (minute === 0 ? 0 : 1000), 60);
    expect(step[0]).toBe(0);
    expect(step[30]).toBeCloseTo(1000 * (1 - Math.exp(-1)), 6);
    expect(step[60]).toBeCloseTo(1000 * (1 - Math.exp(-2)), 6);
  });

  it('is as far whether it is looked at each minute or each second', () => {
    const fine = told('slow', COUNTS, (minute) => (minute === 0 ? 0 : 1000), 30, 1 / 60);
    expect(fine.at(-1)).toBeCloseTo(1000 * (1 - Math.exp(-1)), 6);
  });

  it('closes a contact when it has gone half of the way, after 30 · ln 2 = 20.8 min', () => {
    const closes = told('slow', CONTACT, (minute) => Number(minute > 0), 40);
    expect(closes.indexOf(1)).toBe(21);
  });
});

describe('delayed', () => {
  it('tells what was true 15 min ago, and the first truth until then', () => {
    const shown = told('delayed', COUNTS, at, 60);
    expect(shown.slice(0, 16)).toEqual(Array(16).fill(0));
    expect([shown[20], shown[60]]).toEqual([5, 45]);
  });
});

describe('intermittent', () => {
  it('is the truth or a cut cable, by turns of up to 20 s, and each for about half of the time', () => {
    const shown = told('intermittent', COUNTS, () => 500, 600, 1 / 60);
    expect(new Set(shown)).toEqual(new Set([500, 1023]));
    const loose = shown.filter((counts) => counts === 1023).length / shown.length;
    expect(Math.abs(loose - 0.5)).toBeLessThan(0.05);
    const turns = shown.join(' ').match(/(?:500 ?)+|(?:1023 ?)+/g) ?? [];
    const longest = Math.max(...turns.map((turn) => turn.trim().split(' ').length));
    // It is looked at each second, so a turn of 20 s may be seen 21 times.
    expect(longest).toBeLessThanOrEqual(21);
    expect(longest).toBeGreaterThan(15);
  });
});
