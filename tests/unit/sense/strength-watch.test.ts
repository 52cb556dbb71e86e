import { describe, expect, it } from 'vitest';
import {
  STRENGTH_UNWATCHED,
  strengthLooked,
  strengthWatchKept,
  type StrengthWatch,
} from '../../../src/sense/strength-watch.ts';
import { afterMinutes, monotonicMillis } from '../../../src/time/instant.ts';

const BAND = { least: 1.2, usual: 1.6, most: 2.08 };
const DAY = 24 * 60;

/** Looks once a minute, from one minute up to another. */
const looked = (
  watch: StrengthWatch,
  from: number,
  to: number,
  good: number | null | ((minute: number) => number | null),
): StrengthWatch => {
  let after = watch;
  for (let minute = from; minute <= to; minute += 1) {
    const read = typeof good === 'function' ? good(minute) : good;
    after = strengthLooked(after, BAND, read, monotonicMillis(minute * 60_000));
  }
  return after;
};
const STRONG = looked(STRENGTH_UNWATCHED, 0, 30, 2.6);

describe('the strength outside its band of 1.2 to 2.08 mS/cm', () => {
  it('counts once it has read so for 30 min, and not at 29', () => {
    expect(looked(STRENGTH_UNWATCHED, 0, 29, 2.6).is).toBe('usual');
    expect(STRONG.is).toBe('strong');
    expect(looked(STRENGTH_UNWATCHED, 0, 29, 0.9).is).toBe('usual');
    expect(looked(STRENGTH_UNWATCHED, 0, 30, 0.9).is).toBe('weak');
  });

  it('does not at its edges, nor by one good reading inside in every 30 min', () => {
    expect(looked(STRENGTH_UNWATCHED, 0, DAY, 2.08).is).toBe('usual');
    expect(looked(STRENGTH_UNWATCHED, 0, DAY, 1.2).is).toBe('usual');
    expect(looked(STRENGTH_UNWATCHED, 0, DAY, (minute) => (minute % 30 === 0 ? 1.6 : 2.6)).is).toBe('usual');
  });

  it('begins anew when it changes from too weak to too strong', () => {
    expect(looked(looked(STRENGTH_UNWATCHED, 0, 20, 0.9), 21, 50, 2.6).is).toBe('usual');
  });

  it('is over after 10 min a fifth of the way inside, 1.984 or 1.28 mS/cm, and not at 9 or nearer to the edge', () => {
    expect(looked(STRONG, 31, 40, 1.98).is).toBe('strong');
    expect(looked(STRONG, 31, 41, 1.98).is).toBe('usual');
    expect(looked(STRONG, 31, DAY, 1.99).is).toBe('strong');
    const weak = looked(STRENGTH_UNWATCHED, 0, 30, 0.9);
    expect(looked(weak, 31, 41, 1.29).is).toBe('usual');
    expect(looked(weak, 31, DAY, 1.27).is).toBe('weak');
  });
});

describe('a probe that is not good', () => {
  it('raises nothing in a day, and ends nothing', () => {
    for (const bad of [null, NaN, Infinity]) {
      expect(looked(STRENGTH_UNWATCHED, 0, DAY, bad).is).toBe('usual');
      expect(looked(looked(STRENGTH_UNWATCHED, 0, 15, 2.6), 16, DAY, bad).is).toBe('usual');
      const silent = looked(STRONG, 31, DAY, bad);
      expect([silent.is, silent.read]).toEqual(['strong', STRONG.read]);
    }
  });

  it('hides no wrong mix by a word that is now and then in doubt: only the minutes between good ones count', () => {
    const flickering = (minute: number): number | null => (minute % 3 === 2 ? null : 2.6);
    expect(looked(STRENGTH_UNWATCHED, 0, 85, flickering).is).toBe('usual');
    expect(looked(STRENGTH_UNWATCHED, 0, 95, flickering).is).toBe('strong');
  });

  it('that reads 2 % less each day in a solution of 1.6 is told as too weak on the thirteenth day', () => {
    const drifting = (minute: number): number => 1.6 * (1 - (0.02 * minute) / DAY);
    expect(looked(STRENGTH_UNWATCHED, 0, 12.5 * DAY, drifting).is).toBe('usual');
    expect(looked(STRENGTH_UNWATCHED, 0, 12.6 * DAY, drifting).is).toBe('weak');
  });
});

describe('the strength over a restart', () => {
  it('stays as it was found, and the hours in which no host looked are none', () => {
    const kept = strengthWatchKept(STRONG, (moment) => afterMinutes(moment, -60));
    expect([kept.is, kept.lookedAt, kept.read?.at]).toEqual(['strong', null, monotonicMillis(-30 * 60_000)]);
    const half = strengthWatchKept(looked(STRENGTH_UNWATCHED, 0, 15, 2.6), (moment) => moment);
    expect(looked(half, 600, 614, 2.6).is).toBe('usual');
    expect(looked(half, 600, 615, 2.6).is).toBe('strong');
  });

  it('nor are those in which the machine slept', () => {
    const slept = strengthLooked(
      looked(STRENGTH_UNWATCHED, 0, 15, 2.6),
      BAND,
      2.6,
      monotonicMillis(600 * 60_000),
    );
    expect([slept.is, slept.instead?.minutes]).toEqual(['usual', 15]);
  });
});
