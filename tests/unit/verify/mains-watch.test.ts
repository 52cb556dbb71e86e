import { describe, expect, it } from 'vitest';
import type { Reading } from '../../../src/sense/reading.ts';
import {
  MAINS_THERE,
  mainsLostSince,
  mainsWatch,
  type BesideMains,
  type MainsWatch,
} from '../../../src/verify/mains-watch.ts';
import { absent, good, minute, second, stale, suspect } from '../../support/moments.ts';

const DRY: BesideMains = { water: 'not-seen', wetUntil: minute(-3), lastFlood: 'not-missed' };
const WET: BesideMains = { ...DRY, water: 'seen' };

const after = (
  looks: readonly (readonly [minutes: number, contact: Reading<boolean>, beside?: BesideMains])[],
): MainsWatch =>
  looks.reduce(
    (watch, [minutes, contact, beside]) => mainsWatch(watch, contact, beside ?? DRY, minute(minutes)),
    MAINS_THERE,
  );
const LOST = good(false);
const THERE = good(true);

describe('a mains contact', () => {
  it('that reads lost is believed after 10 s, with the moment at which it began', () => {
    const lost = after([[0, LOST]]);
    expect(mainsLostSince(lost, second(9))).toBeNull();
    expect(mainsLostSince(lost, second(10))).toBe(minute(0));
    expect(lost.restedSince).toBe(minute(-3));
  });

  it('keeps its first moment while it stands, and forgets it when the mains are there', () => {
    expect(
      mainsLostSince(
        after([
          [0, LOST],
          [5, LOST],
        ]),
        minute(5),
      ),
    ).toBe(minute(0));
    expect(
      after([
        [0, LOST],
        [5, LOST],
        [6, THERE],
      ]),
    ).toEqual(MAINS_THERE);
  });

  it.each([
    ['stale', stale(true)],
    ['suspect', suspect(true)],
    ['absent', absent],
  ] as const)('that is %s changes nothing: a lost supply stays lost', (_, reading) => {
    expect(
      mainsLostSince(
        after([
          [0, LOST],
          [5, reading],
        ]),
        minute(5),
      ),
    ).toBe(minute(0));
    expect(after([[0, reading]])).toEqual(MAINS_THERE);
  });

  it('is denied by water 12 min after the loss, and not by what still drains after 11', () => {
    expect(
      after([
        [0, LOST],
        [11.9, LOST, WET],
      ]).word,
    ).toBe('believed');
    expect(
      after([
        [0, LOST],
        [12, LOST, WET],
      ]).word,
    ).toBe('denied');
    expect(
      mainsLostSince(
        after([
          [0, LOST],
          [12, LOST, WET],
        ]),
        minute(12),
      ),
    ).toBeNull();
  });

  it('once denied stays so through the rests, until it reads there, or a flood is missed after all', () => {
    const denied = [
      [0, LOST],
      [12, LOST, WET],
      [30, LOST, DRY],
    ] as const;
    expect(after(denied).word).toBe('denied');
    expect(after([...denied, [31, LOST, { ...DRY, lastFlood: 'missed' }]]).word).toBe('believed');
    expect(after([...denied, [31, THERE], [32, LOST]])).toMatchObject({
      word: 'believed',
      lostSince: minute(32),
    });
  });
});
