import { minutesBetween, type MonotonicMillis } from '../../src/time/instant.ts';

/** More of a minute's messages spoilt than this is a bad line (faults.md, row 31). */
const BAD_PERCENT = 5;
/** And it is well again below this: a line at its limit does not come and go. Judgement. */
const WELL_PERCENT = 2.5;
const JUDGED_MINUTES = 1;
/** Of fewer messages a single one is already too large a share. Judgement. */
const JUDGED_MESSAGES_MIN = 60;
/** A line that has said so little for so long is judged anew: its share is none of a minute. */
const COLLECTED_MINUTES_MAX = 10;

/** What has come over the line so far; counted anew with every connection. */
export interface LineCounts {
  readonly connections: number;
  readonly messages: { readonly whole: number; readonly spoilt: number };
}

export interface LineWatch {
  /** Where the minute began that is being counted; null while the link is down. */
  readonly from: { readonly at: MonotonicMillis; readonly counts: LineCounts } | null;
  readonly bad: { readonly percentSpoilt: number; readonly since: MonotonicMillis } | null;
}

export const LINE_UNWATCHED: LineWatch = { from: null, bad: null };

/**
 * The line after one more look. `counts` is null while the link is down: what a board says before it is known, and what
 * a line brings that is being pulled out, says nothing of its quality. A line that was bad stays so until it is seen to be well.
 */
export const lineWatched = (
  { from, bad }: LineWatch,
  counts: LineCounts | null,
  now: MonotonicMillis,
): LineWatch => {
  if (counts === null) return { from: null, bad };
  const anew = { at: now, counts };
  if (from?.counts.connections !== counts.connections) return { from: anew, bad };
  const minutes = minutesBetween(from.at, now);
  const spoilt = counts.messages.spoilt - from.counts.messages.spoilt;
  const all = counts.messages.whole - from.counts.messages.whole + spoilt;
  if (minutes < JUDGED_MINUTES || all < JUDGED_MESSAGES_MIN) {
    return { from: minutes > COLLECTED_MINUTES_MAX ? anew : from, bad };
  }
  const percentSpoilt = (100 * spoilt) / all;
  const isBad = percentSpoilt > (bad === null ? BAD_PERCENT : WELL_PERCENT);
  return { from: anew, bad: isBad ? { percentSpoilt, since: bad?.since ?? from.at } : null };
};
