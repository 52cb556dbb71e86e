import { wallAfterMinutes, type MonotonicMillis, type Now, minutesBetween } from '../time/instant.ts';
import { localClockText } from '../time/local-day.ts';
import type { TimeLeft } from '../estimate/time-left.ts';

/** Beyond this, "from 14:40" would mislead more than it helps. */
const SAID_AS_CLOCK_MINUTES = 20 * 60;

/** A moment in words: `13:42`, or how many minutes ago where no clock can be believed. */
export const momentText = (moment: MonotonicMillis, now: Now, timeZone: string): string => {
  const ago = minutesBetween(moment, now.monotonic);
  if (now.wall === 'unknown') return `${ago.toFixed(0)} min ago`;
  return localClockText(wallAfterMinutes(now.wall, -ago), timeZone);
};

export const sinceText = (moment: MonotonicMillis, now: Now, timeZone: string): string =>
  now.wall === 'unknown'
    ? `for ${minutesBetween(moment, now.monotonic).toFixed(0)} min`
    : `since ${momentText(moment, now, timeZone)}`;

/** Which bench may begin to wilt from when, on the dry edge of the doubt. */
export const wiltText = (left: TimeLeft, now: Now, timeZone: string): string => {
  if (left.bench === null || left.minutes >= SAID_AS_CLOCK_MINUTES) {
    return 'No bench should wilt within the next 20 hours.';
  }
  if (left.minutes < 1) return `${left.bench} may be wilting already.`;
  const minutes = Math.floor(left.minutes);
  if (now.wall === 'unknown') return `${left.bench} may begin to wilt in ${minutes} min.`;
  const from = localClockText(wallAfterMinutes(now.wall, minutes), timeZone);
  return `${left.bench} may begin to wilt from ${from} (about ${spanText(minutes)} left).`;
};

/** `45 min`, `3 h 20 min` */
export const spanText = (minutes: number): string => {
  const whole = Math.round(minutes);
  if (whole < 90) return `${whole} min`;
  const hours = Math.floor(whole / 60);
  const rest = whole - hours * 60;
  return rest === 0 ? `${hours} h` : `${hours} h ${rest} min`;
};
