import { describe, expect, it } from 'vitest';
import { partSpans } from '../../../src/farm/day-boundaries.ts';
import type { Farm } from '../../../src/farm/farm.ts';
import { wallMillis } from '../../../src/time/instant.ts';
import { dayAfter, dayBefore, localDayOf, localDayOn, type LocalDay } from '../../../src/time/local-day.ts';
import { clockChanges } from '../../support/clock-changes.ts';
import { farmWith, movedTo, type Change } from '../../support/farm.ts';
import { good } from '../../support/moments.ts';
import { floodsBetween } from '../../support/simple-shed.ts';

const MINUTE = 60_000;
const CHANGES = clockChanges(2026);

const byNumber = (part: string, from: string, to: string, floods: number): object => ({
  part,
  from,
  to,
  floods,
  floodMinutes: 10,
});
/** Bounds that no planned rest comes near, so that only the numbers speak. */
const WIDE: readonly Change[] = [
  [['bounds', 'restMinutesByDay'], { shortest: 5, longest: 300 }],
  [['bounds', 'restMinutesByNight'], { shortest: 5, longest: 300 }],
];
const PLANS = {
  'the night crosses the change': [
    byNumber('morning', '06:00', '08:00', 2),
    byNumber('day', '08:00', '16:00', 12),
    byNumber('evening', '16:00', '21:00', 5),
    byNumber('night', '21:00', '06:00', 3),
  ],
  'a part ends inside the hour that is skipped or comes twice': [
    byNumber('late', '20:00', '02:30', 4),
    byNumber('small hours', '02:30', '09:00', 5),
    byNumber('day', '09:00', '20:00', 14),
  ],
  'a part ends at midnight': [
    byNumber('first half', '00:00', '12:00', 11),
    byNumber('rest', '12:00', '00:00', 17),
  ],
};
const FARMS = Object.entries(PLANS).map(
  ([name, plan]) => [name, farmWith(...WIDE, [['dayPlan'], plan])] as const,
);

const daysFrom = (first: LocalDay, count: number): readonly LocalDay[] => {
  const days = [first];
  while (days.length < count) days.push(dayAfter(days.at(-1)!));
  return days;
};

/** Every whole part that begins after `from` and ends with these days, once each. */
const wholeParts = (farm: Farm, days: readonly LocalDay[], from: number): ReturnType<typeof partSpans> => {
  const spans = days.flatMap((day) => partSpans(farm.dayPlan, farm.place, day));
  const wholes = new Map(spans.map((span) => [span.wholeStart, span]));
  return [...wholes.values()].filter(
    ({ wholeStart, wholeEnd }) => wholeStart >= from && wholeEnd <= days.at(-1)!.end,
  );
};

describe('a day on which the clocks change, in every zone of 2026', () => {
  for (const [name, farm] of FARMS) {
    it(`gives each part its number of floods, none skipped and none doubled: ${name}`, () => {
      const wrong: string[] = [];
      let parts = 0;
      CHANGES.forEach((change, place) => {
        const there = movedTo(farm, change);
        const on = localDayOf(wallMillis(change.at), change.timeZone);
        const days = daysFrom(dayBefore(dayBefore(on)), 4);
        // The first flood comes at the start; which minute that is must not matter.
        const from = days[0]!.start + ((place * 37) % 240) * MINUTE + 7 * MINUTE;
        const floods = floodsBetween(there, from, days.at(-1)!.end, good(30));
        for (const { part, wholeStart, wholeEnd } of wholeParts(there, days, from)) {
          const ran = floods.filter(({ start }) => start >= wholeStart && start < wholeEnd).length;
          const planned = part.pace.kind === 'number' ? part.pace.floods : Number.NaN;
          parts += 1;
          if (ran !== planned) wrong.push(`${change.timeZone} ${part.name}: ${ran} of ${planned}`);
        }
      });
      expect(wrong).toEqual([]);
      expect(parts).toBeGreaterThanOrEqual(6 * CHANGES.length);
    });
  }

  it.each([
    ['2026-03-29', 8, 160],
    ['2026-10-25', 10, 200],
    ['2026-07-14', 9, 180],
  ])('the night to %s in Lisbon has %d h: its 3 floods are %d min apart', (date, hours, apart) => {
    const [, farm] = FARMS[0]!;
    const day = localDayOn(date, 'Europe/Lisbon');
    const night = partSpans(farm.dayPlan, farm.place, day)[0]!;
    expect((night.wholeEnd - night.wholeStart) / MINUTE).toBe(hours * 60);
    const from = night.wholeStart - 100 * MINUTE;
    const starts = floodsBetween(farm, from, night.wholeEnd, good(30))
      .map(({ start }) => start)
      .filter((start) => start >= night.wholeStart);
    const gaps = starts.slice(1).map((start, place) => Math.round((start - starts[place]!) / 1000));
    expect(gaps).toEqual([apart * 60, apart * 60]);
  });
});
