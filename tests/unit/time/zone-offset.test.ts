import { DateTime } from 'luxon';
import { describe, expect, it } from 'vitest';
import { seededDice } from '../../../sim/dice.ts';
import { wallMillis } from '../../../src/time/instant.ts';
import { localTimeOfDay } from '../../../src/time/local-day.ts';
import { offsetMinutesAt } from '../../../src/time/zone-offset.ts';

const YEAR = 365.25 * 86_400_000;
/** A zone that changes by half an hour, one by two, one that changes round Ramadan, and one in the middle of an hour of UTC. */
const ZONES = [
  'Australia/Lord_Howe',
  'Antarctica/Troll',
  'Africa/Casablanca',
  'Asia/Kathmandu',
  'Europe/Lisbon',
  'America/Havana',
  'UTC',
];

/** Moments when the offset changes in 60 years from 1970 on, to the millisecond. */
const changesOf = (timeZone: string): readonly number[] => {
  const at = (instant: number): number => DateTime.fromMillis(instant, { zone: timeZone }).offset;
  const found: number[] = [];
  for (let day = 0; day < 60 * YEAR; day += 86_400_000) {
    let [before, after] = [day, day + 86_400_000];
    if (at(before) === at(after)) continue;
    while (after - before > 1) {
      const middle = Math.floor((before + after) / 2);
      if (at(middle) === at(after)) after = middle;
      else before = middle;
    }
    found.push(after);
  }
  return found;
};

describe.each(ZONES)('the offset of %s, by luxon', (timeZone) => {
  const told = (instant: number): number => DateTime.fromMillis(instant, { zone: timeZone }).offset;

  it('is the same at 2,000 drawn moments of 60 years, asked twice', () => {
    const dice = seededDice(7);
    const moments = Array.from({ length: 2000 }, () => Math.floor(60 * YEAR * dice()));
    for (const instant of [...moments, ...moments])
      expect(offsetMinutesAt(instant, timeZone)).toBe(told(instant));
  });

  it('changes in the millisecond in which it changes there', () => {
    for (const change of changesOf(timeZone)) {
      for (const instant of [change - 1, change, change + 1])
        expect(offsetMinutesAt(instant, timeZone)).toBe(told(instant));
    }
  });

  it('gives the same time of day', () => {
    const dice = seededDice(8);
    for (let count = 0; count < 500; count += 1) {
      const instant = Math.floor(60 * YEAR * dice());
      const { hour, minute, second } = DateTime.fromMillis(instant, { zone: timeZone });
      expect(localTimeOfDay(wallMillis(instant), timeZone)).toEqual({ minute: hour * 60 + minute, second });
    }
  });
});

it('is no number in a zone that there is not', () => {
  expect(offsetMinutesAt(0, 'Nowhere/Here')).toBeNaN();
});
