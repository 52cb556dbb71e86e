import { isCalendarDate } from '../../src/time/local-day.ts';
import { EXIT } from './exit-code.ts';
import { Refusal } from './refusal.ts';

const SPAN = /^(\d+(?:\.\d+)?)(s|min|h|d)$/;
const MINUTES = { s: 1 / 60, min: 1, h: 60, d: 1440 } as const;
const CLOCK = /^([01]?\d|2[0-3]):([0-5]\d)$/;

const isUnit = (text: string | undefined): text is keyof typeof MINUTES =>
  text !== undefined && Object.hasOwn(MINUTES, text);

/** `24h`, `90min`, `2d`, `30s` in minutes. @throws Refusal */
export const spanMinutes = (text: string, option: string): number => {
  const [, number, unit] = SPAN.exec(text) ?? [];
  if (number === undefined || !isUnit(unit) || Number(number) <= 0) {
    throw new Refusal(
      `${option}: found "${text}"; allowed is a length of time such as 24h, 90min or 2d.`,
      EXIT.usage,
    );
  }
  return Number(number) * MINUTES[unit];
};

/** `13:00` as minute of the day. @throws Refusal */
export const minuteOfDay = (text: string, option: string): number => {
  const [, hour, minute] = CLOCK.exec(text) ?? [];
  if (hour === undefined || minute === undefined) {
    throw new Refusal(`${option}: found "${text}"; allowed is a time of day such as 13:00.`, EXIT.usage);
  }
  return Number(hour) * 60 + Number(minute);
};

/** @throws Refusal when the text is no calendar date from 2020 to 2100 */
export const calendarDate = (text: string, option: string): string => {
  if (!isCalendarDate(text) || text < '2020-01-02' || text > '2100-12-31') {
    throw new Refusal(
      `${option}: found "${text}"; allowed is a calendar date such as 2026-07-15, from 2020 to 2100.`,
      EXIT.usage,
    );
  }
  return text;
};

/** A whole number within bounds. @throws Refusal */
export const wholeNumber = (text: string, option: string, least: number, most: number): number => {
  const value = Number(text);
  if (text.trim() === '' || !Number.isInteger(value) || value < least || value > most) {
    throw new Refusal(
      `${option}: found "${text}"; allowed is a whole number from ${least} to ${most}.`,
      EXIT.usage,
    );
  }
  return value;
};

/** A number within bounds. @throws Refusal */
export const numberWithin = (text: string, option: string, least: number, most: number): number => {
  const value = Number(text);
  if (text.trim() === '' || !Number.isFinite(value) || value < least || value > most) {
    throw new Refusal(
      `${option}: found "${text}"; allowed is a number from ${least} to ${most}.`,
      EXIT.usage,
    );
  }
  return value;
};

const SEED_MAX = 2_147_483_647;

/** The seed of all dice of a run, 1 where none is given. @throws Refusal */
export const seedFrom = (text: string | undefined): number =>
  text === undefined ? 1 : wholeNumber(text, '--seed', 0, SEED_MAX);
