import { describe, expect, it } from 'vitest';
import {
  FLOAT_UNWATCHED,
  floatLooked,
  floatUnmovedDays,
  floatWatchKept,
  type FloatWatch,
} from '../../../src/sense/float-watch.ts';
import type { Reading } from '../../../src/sense/reading.ts';
import { monotonicMillis } from '../../../src/time/instant.ts';

const DAY = 24 * 60;
const reads = (value: boolean): Reading<boolean> => ({ quality: 'good', value, ageSeconds: 0 });
const BAD: Reading<boolean> = { quality: 'suspect', value: true, ageSeconds: 0, why: 'it chatters' };
const lookAt = (watch: FloatWatch, float: Reading<boolean>, minutes: number): FloatWatch =>
  floatLooked(watch, float, monotonicMillis(minutes * 60_000));

/** Looks every 5 min from one minute to another. */
const lookedOn = (
  watch: FloatWatch,
  from: number,
  to: number,
  float: Reading<boolean> = reads(false),
): FloatWatch => {
  let looked = watch;
  for (let now = from; now <= to; now += 5) looked = lookAt(looked, float, now);
  return looked;
};

describe('a tank float that is looked at', () => {
  it('for 29 d 23 h without a move is none to test, for 30 d it is, and 12 h later it is still 30 d', () => {
    expect(floatUnmovedDays(lookedOn(FLOAT_UNWATCHED, 0, 30 * DAY - 60))).toBeNull();
    expect(floatUnmovedDays(lookedOn(FLOAT_UNWATCHED, 0, 30 * DAY))).toBe(30);
    expect(floatUnmovedDays(lookedOn(FLOAT_UNWATCHED, 0, 30 * DAY + 720))).toBe(30);
  });

  it.each([false, true])(
    'moved for 2 s from low = %s the other way counts anew, and 30 d later it is one to test again',
    (low) => {
      const still = lookedOn(FLOAT_UNWATCHED, 0, 31 * DAY, reads(low));
      const lifted = lookAt(still, reads(!low), 31 * DAY + 1);
      expect(floatUnmovedDays(lifted)).toBe(31);
      const held = lookAt(lifted, reads(!low), 31 * DAY + 1 + 2 / 60);
      expect([floatUnmovedDays(held), held.low]).toEqual([null, !low]);
      const from = 31 * DAY + 5;
      expect(floatUnmovedDays(lookedOn(held, from, from + 30 * DAY - 60, reads(!low)))).toBeNull();
      expect(floatUnmovedDays(lookedOn(held, from, from + 30 * DAY, reads(!low)))).toBe(30);
    },
  );

  it('that bounces 20 times for 1 s, or chatters for an hour, has not moved', () => {
    let watch = lookedOn(FLOAT_UNWATCHED, 0, 30 * DAY);
    for (let bounce = 0; bounce < 20; bounce += 1) {
      watch = lookAt(watch, reads(true), 30 * DAY + bounce / 10);
      watch = lookAt(watch, reads(true), 30 * DAY + bounce / 10 + 1 / 60);
      watch = lookAt(watch, reads(false), 30 * DAY + bounce / 10 + 2 / 60);
    }
    expect(floatUnmovedDays(lookedOn(watch, 30 * DAY + 5, 30 * DAY + 65, BAD))).toBe(30);
  });

  it('counts only what was looked at: not 20 d of silence, nor 8 h in which the machine slept', () => {
    const silent = lookedOn(lookedOn(FLOAT_UNWATCHED, 0, 20 * DAY), 20 * DAY + 5, 40 * DAY, BAD);
    expect(silent.unmovedMinutes).toBe(20 * DAY);
    const slept = lookedOn(lookedOn(FLOAT_UNWATCHED, 0, 100), 100 + 480, 100 + 480 + 50);
    expect(slept.unmovedMinutes).toBe(150);
  });

  it('over a restart goes on with what was counted, wherever the clock of the new host begins', () => {
    const before = floatWatchKept(lookedOn(FLOAT_UNWATCHED, 0, 20 * DAY));
    const after = lookedOn(before, 5, 10 * DAY);
    expect([after.unmovedMinutes, floatUnmovedDays(after)]).toEqual([30 * DAY - 5, null]);
    expect(floatUnmovedDays(lookAt(after, reads(false), 10 * DAY + 5))).toBe(30);
  });
});
