import { describe, expect, it } from 'vitest';
import { wallMillis } from '../../../src/time/instant.ts';
import {
  dayAfter,
  dayBefore,
  daysBetweenDates,
  isCalendarDate,
  isTimeZone,
  localClockText,
  localDateTimeText,
  localDayOf,
  localDayOn,
  localTimeOfDay,
} from '../../../src/time/local-day.ts';
import { utc } from '../../support/moments.ts';

const hoursOf = (date: string, timeZone: string): number => {
  const day = localDayOn(date, timeZone);
  return (day.end - day.start) / 3_600_000;
};

describe('the length of a local day', () => {
  it.each([
    ['2026-03-29', 'Europe/Lisbon', 23],
    ['2026-10-25', 'Europe/Lisbon', 25],
    ['2026-07-14', 'Europe/Lisbon', 24],
    ['2026-10-04', 'Australia/Lord_Howe', 23.5],
    ['2026-04-05', 'Australia/Lord_Howe', 24.5],
    ['2026-03-29', 'Antarctica/Troll', 22],
    ['2026-10-25', 'Antarctica/Troll', 26],
    ['2026-04-24', 'Africa/Cairo', 23], // from 00:00 to 01:00: the day begins at 01:00
    ['2026-11-01', 'America/Havana', 25], // from 01:00 back to 00:00: midnight comes twice
    ['2026-03-28', 'America/Nuuk', 23], // from 23:00 to 00:00
    ['2026-03-29', 'Asia/Kolkata', 24],
  ])('%s in %s has %d hours', (date, timeZone, hours) => {
    expect(hoursOf(date, timeZone)).toBe(hours);
  });

  it('Samoa went over the date line: the day after 29 December 2011 was the 31st', () => {
    const day = localDayOn('2011-12-29', 'Pacific/Apia');
    expect(dayAfter(day).date).toBe('2011-12-31');
    expect(dayBefore(dayAfter(day))).toEqual(day);
  });
});

describe('which day an instant belongs to', () => {
  it('23:30 UTC on 14 July is 00:30 on the 15th in Lisbon and 16:30 on the 14th in Los Angeles', () => {
    const instant = utc('2026-07-14T23:30Z');
    expect(localDayOf(instant, 'Europe/Lisbon').date).toBe('2026-07-15');
    expect(localDayOf(instant, 'America/Los_Angeles').date).toBe('2026-07-14');
  });

  it('the start belongs to the day, the end to the next', () => {
    const day = localDayOn('2026-03-29', 'Europe/Lisbon');
    expect(localDayOf(day.start, day.timeZone)).toEqual(day);
    expect(localDayOf(wallMillis(day.end - 1), day.timeZone)).toEqual(day);
    expect(localDayOf(day.end, day.timeZone)).toEqual(dayAfter(day));
  });

  it('29 February is a day of 2028 and the day after 28 February 2027 is 1 March', () => {
    expect(dayAfter(localDayOn('2028-02-28', 'Europe/Lisbon')).date).toBe('2028-02-29');
    expect(dayAfter(localDayOn('2027-02-28', 'Europe/Lisbon')).date).toBe('2027-03-01');
  });

  it('19 January 2038, where 32-bit seconds end, is followed by the 20th', () => {
    const day = localDayOf(utc('2038-01-19T03:14:08Z'), 'Europe/Lisbon');
    expect([day.date, dayAfter(day).date]).toEqual(['2038-01-19', '2038-01-20']);
  });

  it.each([
    ['2026-02-30', 'Europe/Lisbon'],
    ['tomorrow', 'Europe/Lisbon'],
    ['2026-07-14', 'Europe/Ribeira'],
  ])('refuses %s in %s', (date, timeZone) => {
    expect(() => localDayOn(date, timeZone)).toThrow(RangeError);
  });
});

describe('calendar dates and clock texts', () => {
  it.each([
    ['2026-03-28', '2026-03-30', 2], // one of these days has 23 hours
    ['2026-10-24', '2026-10-26', 2], // and one of these 25
    ['2028-02-28', '2028-03-01', 2],
    ['2026-07-14', '2026-07-14', 0],
    ['2026-07-14', '2026-07-13', -1],
    ['2026-12-31', '2027-01-01', 1],
  ])('from %s to %s it is %d days', (from, to, days) => {
    expect(daysBetweenDates(from, to)).toBe(days);
  });

  it('writes hours and minutes with two digits, from 00:00 to 23:59', () => {
    expect(localClockText(utc('2026-07-13T23:00Z'), 'Europe/Lisbon')).toBe('00:00');
    expect(localClockText(utc('2026-07-14T22:59Z'), 'Europe/Lisbon')).toBe('23:59');
    expect(localDateTimeText(utc('2026-07-14T08:05Z'), 'Europe/Lisbon')).toBe('2026-07-14 09:05');
  });

  it.each([
    ['2026-07-14', true],
    ['2028-02-29', true],
    ['2026-02-29', false],
    ['2026-7-4', false],
    ['2026-07-14T12:00', false],
    ['20260714', false],
    ['', false],
  ])('“%s” as a calendar date: %s', (text, is) => {
    expect(isCalendarDate(text)).toBe(is);
  });

  it.each([
    ['Europe/Lisbon', true],
    ['Europe/Ribeira', false],
    ['', false],
  ])('“%s” as a time zone: %s', (name, is) => {
    expect(isTimeZone(name)).toBe(is);
  });
});

describe('the time of day by the local clock', () => {
  it.each([
    ['Europe/Lisbon', '2026-07-14T11:42:07Z', 12 * 60 + 42, 7],
    ['Asia/Kathmandu', '2026-07-14T18:20:00Z', 5, 0],
    ['Europe/Lisbon', '2026-10-25T00:30:00Z', 90, 0],
    ['Europe/Lisbon', '2026-10-25T01:30:00Z', 90, 0],
    ['Europe/Lisbon', '2026-03-29T01:00:00Z', 120, 0],
  ])('in %s at %s is minute %d, second %d', (timeZone, text, minute, second) => {
    expect(localTimeOfDay(wallMillis(Date.parse(text)), timeZone)).toEqual({ minute, second });
  });
});
