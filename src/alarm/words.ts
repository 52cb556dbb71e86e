import type { MonotonicMillis, Now } from '../time/instant.ts';
import type { TimeLeft } from '../estimate/time-left.ts';
import { momentOf, wiltOf } from './facts.ts';
import { ENGLISH } from './language/english.ts';

/** Times and spans as journal, page and console tell them: in English. */

/** A moment in words: `13:42`, or how many minutes ago where no clock can be believed. */
export const momentText = (moment: MonotonicMillis, now: Now, timeZone: string): string => {
  const told = momentOf(moment, now, timeZone);
  return told.kind === 'clock' ? told.time : `${told.minutes.toFixed(0)} min ago`;
};

export const sinceText = (moment: MonotonicMillis, now: Now, timeZone: string): string =>
  ENGLISH.since(momentOf(moment, now, timeZone));

/** Which bench may begin to wilt from when, on the dry edge of the doubt. */
export const wiltText = (left: TimeLeft, now: Now, timeZone: string): string =>
  ENGLISH.wilt(wiltOf(left, now, timeZone));

/** `45 min`, `3 h 20 min` */
export const spanText = ENGLISH.span;

export const holdText = (minutes: number): string => `hold for ${spanText(minutes)}`;
