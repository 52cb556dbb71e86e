import { describe, expect, it } from 'vitest';
import { wallMillis } from '../../../src/time/instant.ts';
import {
  dayAfter,
  dayBefore,
  localClockInstant,
  localDayOf,
  type LocalDay,
} from '../../../src/time/local-day.ts';
import { clockChanges, type ClockChange } from '../../support/clock-changes.ts';

const MINUTE = 60_000;
const CHANGES = clockChanges(2026);

/** The day of a change with its neighbours. */
const daysAround = ({ timeZone, at }: ClockChange): readonly LocalDay[] => {
  const on = localDayOf(wallMillis(at), timeZone);
  return [dayBefore(dayBefore(on)), dayBefore(on), on, dayAfter(on)];
};

/** Milliseconds since 1970 as the clock on the wall shows them, reckoned from the offsets alone. */
const shownAt = ({ at, before, after }: ClockChange, instant: number): number =>
  instant + (instant < at ? before : after) * MINUTE;

const dateText = (shown: number): string => new Date(shown).toISOString().slice(0, 10);

describe('every zone whose clocks change in 2026', () => {
  it('are among them half an hour, two hours, and changes at midnight', () => {
    const stepsOf = (timeZone: string): readonly number[] =>
      CHANGES.filter((change) => change.timeZone === timeZone).map(({ before, after }) => after - before);
    expect(stepsOf('Australia/Lord_Howe')).toEqual([-30, 30]);
    expect(stepsOf('Antarctica/Troll')).toEqual([120, -120]);
    expect(stepsOf('Africa/Cairo')).toEqual([60, -60]);
    expect(stepsOf('America/Havana')).toEqual([60, -60]);
    expect(stepsOf('Atlantic/Azores')).toEqual([60, -60]);
    expect(CHANGES.length).toBeGreaterThanOrEqual(50);
  });

  it('the days around a change meet without gap or overlap and show their own date from first to last', () => {
    for (const change of CHANGES) {
      const days = daysAround(change);
      days.forEach((day, place) => {
        const where = `${day.date} ${day.timeZone}`;
        if (place > 0) expect(day.start, where).toBe(days[place - 1]!.end);
        for (let instant: number = day.start; instant < day.end; instant += 15 * MINUTE) {
          expect(dateText(shownAt(change, instant)), where).toBe(day.date);
        }
        expect(dateText(shownAt(change, day.end)), where).not.toBe(day.date);
        expect(dateText(shownAt(change, day.start - 1)), where).not.toBe(day.date);
      });
    }
  });

  it('the days around a change are together as much shorter as the clocks go forward', () => {
    for (const change of CHANGES) {
      const days = daysAround(change);
      const minutes = days.reduce((sum, day) => sum + (day.end - day.start) / MINUTE, 0);
      expect(minutes, change.timeZone).toBe(4 * 1440 - (change.after - change.before));
    }
  });

  it('each minute of the clock is the first instant that shows it, a skipped one the moment of the jump', () => {
    for (const change of CHANGES) {
      for (const day of daysAround(change)) {
        const first = new Map<number, number>();
        for (let instant: number = day.start; instant < day.end; instant += MINUTE) {
          const minuteOfDay = (shownAt(change, instant) / MINUTE) % 1440;
          if (!first.has(minuteOfDay)) first.set(minuteOfDay, instant);
        }
        const wrong: string[] = [];
        for (let minuteOfDay = 0; minuteOfDay < 1440; minuteOfDay += 1) {
          const expected = first.get(minuteOfDay) ?? change.at;
          // Every minute within three hours of the change, further off every half hour.
          if (Math.abs(expected - change.at) > 180 * MINUTE && minuteOfDay % 30 !== 0) continue;
          const found = localClockInstant(day, minuteOfDay);
          if (found !== expected) wrong.push(`${minuteOfDay}: ${found - expected} ms off`);
        }
        expect(wrong, `${day.date} ${day.timeZone}`).toEqual([]);
      }
    }
  });

  it('minutes of the clock never run backwards, and 24:00 is the end of the day', () => {
    for (const change of CHANGES) {
      for (const day of daysAround(change)) {
        let last: number = day.start;
        for (let minuteOfDay = 0; minuteOfDay <= 1440; minuteOfDay += 15) {
          const instant = localClockInstant(day, minuteOfDay);
          expect(instant, `${day.date} ${day.timeZone} ${minuteOfDay}`).toBeGreaterThanOrEqual(last);
          last = instant;
        }
        expect(localClockInstant(day, 1440)).toBe(day.end);
      }
    }
  });
});
