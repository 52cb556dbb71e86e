import { describe, expect, it } from 'vitest';
import { dayView, isByDay, shows, spanAt } from '../../../src/plan/day-view.ts';
import { wallMillis } from '../../../src/time/instant.ts';
import { exampleFarm, farmWith } from '../../support/farm.ts';
import { utc } from '../../support/moments.ts';

const view = dayView(exampleFarm, utc('2026-07-14T12:00Z'));
const before = (instant: number): ReturnType<typeof wallMillis> => wallMillis(instant - 1);

describe('one local day as the schedule sees it', () => {
  it('is the day that the instant belongs to, from its first to its last millisecond', () => {
    expect(view.day.date).toBe('2026-07-14');
    expect([shows(view, view.day.start), shows(view, before(view.day.end))]).toEqual([true, true]);
    expect([shows(view, before(view.day.start)), shows(view, view.day.end)]).toEqual([false, false]);
  });

  it('has 5 pieces: the night comes at both ends', () => {
    expect(view.spans.map(({ part }) => part.name)).toEqual([
      'night',
      'early morning',
      'heat of the day',
      'late afternoon',
      'night',
    ]);
  });

  it('a boundary belongs to the part that begins at it: 08:00 is the heat of the day', () => {
    const eight = utc('2026-07-14T07:00Z');
    expect(spanAt(view, eight).part.name).toBe('heat of the day');
    expect(spanAt(view, before(eight)).part.name).toBe('early morning');
  });

  it('every piece is found by its first and last instant', () => {
    for (const span of view.spans) {
      expect(spanAt(view, span.start)).toBe(span);
      expect(spanAt(view, before(span.end))).toBe(span);
    }
  });

  // Meeus ch. 15 by hand: declination 21.6° and a sun at −0.833° give a half arc of 7 h 14 min; solar noon is 8° west of
  // Greenwich and 6 min late, at 12:38 UTC. Hence 05:24 and 19:52 UTC, to some minutes.
  it('is day from sunrise to sunset, about 06:24 to 20:52', () => {
    expect(Math.abs(view.sunrise - utc('2026-07-14T05:24Z'))).toBeLessThan(3 * 60_000);
    expect(Math.abs(view.sunset - utc('2026-07-14T19:52Z'))).toBeLessThan(3 * 60_000);
    expect([isByDay(view, view.sunrise), isByDay(view, before(view.sunset))]).toEqual([true, true]);
    expect([isByDay(view, before(view.sunrise)), isByDay(view, view.sunset)]).toEqual([false, false]);
  });

  it('far from Greenwich sunrise and sunset still lie inside the local day', () => {
    const farm = farmWith(
      [['place', 'timeZone'], 'Pacific/Auckland'],
      [['place', 'latitudeDegrees'], -36.8],
      [['place', 'longitudeDegrees'], 174.8],
      [['dayPlan'], [{ part: 'all day', from: '00:00', to: '00:00', restMinutes: 30, floodMinutes: 20 }]],
    );
    const there = dayView(farm, utc('2026-07-14T12:30Z'));
    expect(there.day.date).toBe('2026-07-15');
    expect([shows(there, there.sunrise), shows(there, there.sunset)]).toEqual([true, true]);
    expect(there.sunrise).toBeLessThan(there.sunset);
  });
});
