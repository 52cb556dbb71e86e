import { describe, expect, it } from 'vitest';
import { afterMinutes, minutesBetween, secondsBetween } from '../../../src/time/instant.ts';
import { beganFlood } from '../../../src/verify/flood.ts';
import type { Sighting } from '../../../src/verify/sighting.ts';
import { nextLook } from '../../../src/verify/watched.ts';
import { farmWith } from '../farm/example.ts';
import { BLIND, NO_WATER, START, WATER, watchedThrough } from './watching.ts';

/** Shortest off is 30 s, and a retry gets 3 min; floods of 20 min, of which water is there from 2 min on. */
const FARM = farmWith();

const wetBut =
  (...gaps: readonly (readonly [from: number, until: number])[]) =>
  (minute: number): Sighting =>
    minute < 2 || gaps.some(([from, until]) => minute >= from && minute < until) ? NO_WATER : WATER;

const powered =
  (sensor: 'current' | 'contact', until: number) =>
  (minute: number): Sighting => ({ ...BLIND, [sensor]: minute < until ? 'seen' : 'not-seen' });

const stoppedMinutes = (clue: { stoppedAt: number | null; startedAt: number }): number =>
  ((clue.stoppedAt ?? Number.NaN) - clue.startedAt) / 60_000;

describe('a flood whose water stops half way', () => {
  it('is tried again after 2 min without, and missed 7 min later: not as a weak one at its end', () => {
    const { verdict, after, pump } = watchedThrough(FARM, wetBut([9, Infinity]));
    expect(pump).toEqual(['off at 11', 'on at 11.5', 'off at 14.5', 'on at 15']);
    expect(after).toBe(18);
    expect(verdict).toMatchObject({
      kind: 'missed',
      says: 'the water stopped after 9 min and did not come back in 9 min and 2 retries',
    });
    if (verdict.kind !== 'missed') return;
    expect(stoppedMinutes(verdict.clue)).toBe(9);
    expect(minutesBetween(START, verdict.clue.deadline)).toBe(18);
  });

  it('keeps of the relay what was seen at the last try: it was closed while there was water', () => {
    const { verdict } = watchedThrough(FARM, (minute) => ({
      ...wetBut([9, Infinity])(minute),
      contact: minute < 9 ? 'seen' : 'not-seen',
    }));
    expect(verdict).toMatchObject({ kind: 'missed', clue: { contact: 'not-seen' } });
  });

  it('is confirmed when the first retry brings it back, with the whole of its minutes', () => {
    const { verdict, after, flood } = watchedThrough(FARM, wetBut([9, 13]));
    expect(verdict).toMatchObject({ kind: 'confirmed', says: 'water back after 1.5 min, after 1 retries' });
    expect(after).toBe(31.5);
    expect(flood.goneSince).toBeNull();
  });

  it('has no retry left for a third stop, and counts from there', () => {
    const { verdict, after } = watchedThrough(FARM, wetBut([9, 13], [17, 21], [25, Infinity]));
    expect(verdict).toMatchObject({ kind: 'missed' });
    expect(after).toBe(27);
    if (verdict.kind === 'missed') expect(stoppedMinutes(verdict.clue)).toBe(25);
  });

  it('is not tried again while the tank is dry: missed after 2 min without', () => {
    const { verdict, after } = watchedThrough(FARM, wetBut([9, Infinity]), { dry: true });
    expect([verdict.kind, after]).toEqual(['missed', 11]);
  });

  it('goes on through gaps of 1.5 min: bubbles are no stop', () => {
    const { verdict, pump } = watchedThrough(FARM, wetBut([9, 10.5], [12, 13.5]));
    expect([verdict.kind, pump]).toEqual(['confirmed', []]);
  });

  it('is tried again at its end when its last two looks see none, and ends when only the last does', () => {
    expect(watchedThrough(FARM, wetBut([19.5, 22])).pump).toEqual(['off at 20', 'on at 20.5']);
    expect(watchedThrough(FARM, wetBut([20, 22]))).toMatchObject({ after: 20, pump: [] });
  });

  it('does not take for a stop, before the lag of 8 min, what the flood before had left in the channels', () => {
    const leftOver = (minute: number): Sighting => (minute < 1 || minute >= 7 ? WATER : NO_WATER);
    expect(watchedThrough(FARM, leftOver)).toMatchObject({ verdict: { kind: 'confirmed' }, pump: [] });
    const nothingMore = (minute: number): Sighting => (minute < 2 ? WATER : NO_WATER);
    expect(watchedThrough(FARM, nothingMore)).toMatchObject({
      after: 15,
      verdict: { says: 'no water came back in 15 min and 2 retries', clue: { stoppedAt: null } },
    });
  });

  it.each(['current', 'contact'] as const)('is found by its %s where nothing sees the water', (sensor) => {
    const { verdict, pump, after } = watchedThrough(FARM, powered(sensor, 9));
    expect(pump).toEqual(['off at 11', 'on at 11.5', 'off at 12.5', 'on at 13']);
    expect([verdict.kind, after]).toEqual(['missed', 14]);
  });

  it('waits while nothing can be read, and does not begin its 2 min anew', () => {
    const blind = (minute: number): Sighting =>
      minute >= 9.5 && minute < 12 ? BLIND : wetBut([9, 16])(minute);
    expect(watchedThrough(FARM, blind).pump[0]).toBe('off at 12');
  });

  it('is looked at when its 2 min are over', () => {
    const flood = {
      ...beganFlood({ id: 1, part: 'night', reason: '', minutes: 20, lagMinutes: 8 }, null, START),
      goneSince: afterMinutes(START, 9),
    };
    const now = afterMinutes(START, 10.8);
    expect(secondsBetween(now, nextLook(flood, now))).toBeCloseTo(12);
  });
});
