import { describe, expect, it } from 'vitest';
import type { Farm } from '../../../src/farm/farm.ts';
import { dayView } from '../../../src/plan/day-view.ts';
import { paceNow, type Pace } from '../../../src/plan/pace.ts';
import type { Reading } from '../../../src/sense/reading.ts';
import { exampleFarm, farmWith, type Change } from '../../support/farm.ts';
import { absent, good, stale, suspect, utc } from '../../support/moments.ts';

/** Lisbon is an hour ahead of UTC in July. */
const NOON = utc('2026-07-14T12:00Z');
const NIGHT = utc('2026-07-14T23:30Z');

const paceAt = (wall: ReturnType<typeof utc>, air: Reading<number>, farm: Farm = exampleFarm): Pace =>
  paceNow(farm, dayView(farm, wall), wall, air);
const clueless = (air: Reading<number>, farm: Farm = exampleFarm): Pace =>
  paceNow(farm, null, 'unknown', air);

/** A plan of parts by number between clock times. */
const byNumber = (...parts: readonly (readonly [from: string, to: string, floods: number])[]): Change => [
  ['dayPlan'],
  parts.map(([from, to, floods]) => ({ part: `from ${from}`, from, to, floods, floodMinutes: 10 })),
];

describe('the pace of the plan', () => {
  it('at 30 °C, the reference, is the plan’s own: 25 min of rest and 20 of flood at noon', () => {
    expect(paceAt(NOON, good(30))).toEqual({
      part: 'heat of the day',
      restMinutes: 25,
      floodMinutes: 20,
      shortestRestMinutes: 10,
      longestRestMinutes: 75,
      partLeftMinutes: 180,
      why: 'rest of 25 min (heat of the day)',
    });
  });

  it('a part by number spreads its floods over its whole length: 2 floods of 20 min in 2 h rest 40 min', () => {
    const pace = paceAt(utc('2026-07-14T06:00Z'), good(30));
    expect([pace.part, pace.restMinutes]).toEqual(['early morning', 40]);
  });

  it('has the bounds of the night after sunset and before sunrise', () => {
    const pace = paceAt(NIGHT, good(30));
    expect([pace.part, pace.shortestRestMinutes, pace.longestRestMinutes]).toEqual(['night', 20, 210]);
  });

  it('a rest past the longest of the hour is held at it', () => {
    const farm = farmWith(byNumber(['06:00', '06:00', 12]));
    // 12 floods in 24 h would rest 110 min; by day 75 is the longest.
    expect(paceAt(NOON, good(30), farm).restMinutes).toBe(75);
    expect(paceAt(NIGHT, good(30), farm).restMinutes).toBe(110);
  });
});

describe('temperature', () => {
  it.each([
    // 4 % of 25 min for each degree from 30 °C.
    [33.1, 21.9, '33.1 °C shortens the rest from 25 to 22 min (heat of the day)'],
    [35, 20, '35.0 °C shortens the rest from 25 to 20 min (heat of the day)'],
    [25, 30, '25.0 °C lengthens the rest from 25 to 30 min (heat of the day)'],
    [30.2, 24.8, 'rest of 25 min (heat of the day)'],
    [48, 10, '48.0 °C shortens the rest from 25 to 10 min (heat of the day)'],
    [60, 10, '60.0 °C shortens the rest from 25 to 10 min (heat of the day)'],
    [-20, 75, '-20.0 °C lengthens the rest from 25 to 75 min (heat of the day)'],
  ])('of %d °C rests %d min: “%s”', (celsius, minutes, why) => {
    const pace = paceAt(NOON, good(celsius));
    expect(pace.restMinutes).toBeCloseTo(minutes, 9);
    expect(pace.why).toBe(why);
  });

  it.each([
    ['absent', absent, 'silent'],
    ['stale and cold', stale(5), 'old'],
    ['suspect and cold', suspect(5), 'jumped'],
  ])('%s: the shortest rest, and the reason says so', (_, air, why) => {
    const pace = paceAt(NOON, air);
    expect(pace.restMinutes).toBe(10);
    expect(pace.why).toBe(`no good temperature (${why}), so the shortest rest, 10 min`);
    expect(paceAt(NIGHT, air).restMinutes).toBe(20);
  });

  it('without a good one the rest said is one that can be, also where the floods hardly fit', () => {
    // 11 floods of 10 min in 2 h leave 0.9 min of rest.
    const farm = farmWith(byNumber(['12:00', '14:00', 11], ['14:00', '12:00', 22]));
    const pace = paceAt(NOON, absent, farm);
    expect([pace.restMinutes, pace.why]).toEqual([
      10,
      'no good temperature (silent), so the shortest rest, 10 min',
    ]);
  });

  it('plays no part where the rule gives it none', () => {
    const farm = farmWith([['temperatureRule', 'restPercentPerDegree'], 0]);
    for (const air of [absent, good(45), good(-5)]) expect(paceAt(NOON, air, farm).restMinutes).toBe(25);
  });

  it('lengthens the flood as well where the rule says so, between 10 and 35 min', () => {
    const farm = farmWith([['temperatureRule', 'floodPercentPerDegree'], 5]);
    const minutes = [20, 30, 34, 60, -20].map((celsius) => paceAt(NOON, good(celsius), farm).floodMinutes);
    expect(minutes).toEqual([10, 20, 24, 35, 10]);
  });

  it('without a good one the flood is the longest, if temperature rules it, and else the plan’s', () => {
    const farm = farmWith([['temperatureRule', 'floodPercentPerDegree'], 5]);
    expect(paceAt(NOON, absent, farm).floodMinutes).toBe(35);
    expect(paceAt(NOON, absent).floodMinutes).toBe(20);
  });
});

describe('an unknown time of day', () => {
  it('takes the wettest part of the plan, and says so', () => {
    expect(clueless(good(30))).toEqual({
      part: 'heat of the day',
      restMinutes: 25,
      floodMinutes: 20,
      shortestRestMinutes: 10,
      longestRestMinutes: 75,
      partLeftMinutes: null,
      why: 'time of day unknown, so the hot part of the plan: rest of 25 min (heat of the day)',
    });
  });

  it('is shortened by heat and not lengthened by cold: it may be a cool noon', () => {
    expect(clueless(good(35)).restMinutes).toBeCloseTo(20, 9);
    expect(clueless(good(5)).restMinutes).toBe(25);
  });

  it('without a good temperature rests the shortest by day', () => {
    const pace = clueless(absent);
    expect(pace.restMinutes).toBe(10);
    expect(pace.why).toContain('no good temperature');
  });

  it('finds the wettest part by number, each by its own length: 4 floods in 2 h rest 20 min', () => {
    const farm = farmWith(byNumber(['12:00', '14:00', 4], ['14:00', '20:00', 8], ['20:00', '12:00', 8]));
    expect(clueless(good(30), farm)).toMatchObject({ part: 'from 12:00', restMinutes: 20 });
  });

  it('a plan of one part of 24 floods of 10 min rests 50 min, as it does when the time is known', () => {
    const farm = farmWith(byNumber(['06:00', '06:00', 24]));
    expect(clueless(good(30), farm).restMinutes).toBe(50);
    expect(paceAt(NOON, good(30), farm).restMinutes).toBe(50);
  });

  it('is the same before the first day view, whatever the wall clock says', () => {
    expect(paceNow(exampleFarm, null, NOON, good(30))).toEqual(clueless(good(30)));
    expect(paceNow(exampleFarm, dayView(exampleFarm, NOON), 'unknown', good(30))).toEqual(clueless(good(30)));
  });
});
