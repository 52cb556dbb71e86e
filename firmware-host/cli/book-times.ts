import { localClockInstant, localDayOn } from '../../src/time/local-day.ts';
import { EXIT } from './exit-code.ts';
import { Refusal } from './refusal.ts';
import { calendarDate, minuteOfDay } from './times.ts';

const LOCAL = /^(\d{4}-\d{2}-\d{2})(?:[T ](\d{1,2}:\d{2}))?$/;
const UTC = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(?::\d{2}(?:\.\d+)?)?Z$/;

/** `2026-07-14` or `2026-07-14T13:00` by the farm's clock, or `…Z` by UTC, as UTC milliseconds. @throws Refusal */
export const momentFrom = (text: string, option: string, timeZone: string): number => {
  const [, date, clock] = LOCAL.exec(text) ?? [];
  if (date !== undefined) {
    const day = localDayOn(calendarDate(date, option), timeZone);
    return clock === undefined ? day.start : localClockInstant(day, minuteOfDay(clock, option));
  }
  const utc = UTC.test(text) ? Date.parse(text) : NaN;
  if (Number.isFinite(utc)) return utc;
  throw new Refusal(
    `${option}: found "${text}"; allowed is 2026-07-14 or 2026-07-14T13:00 by the farm's clock, or 2026-07-14T12:00Z by UTC.`,
    EXIT.usage,
  );
};
