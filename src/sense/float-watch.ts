import { minutesBetween, secondsBetween, type MonotonicMillis } from '../time/instant.ts';
import type { Reading } from './reading.ts';

/**
 * Whether the tank float still moves. Behind a float valve, or in a tank that is kept full, a good one never does, and looks
 * like one that is stuck: only a hand can tell the two apart.
 */
export interface FloatWatch {
  /** Where it was last seen to stay; null before it has spoken. */
  readonly low: boolean | null;
  /** For so long it has been looked at without a move, over restarts too; what nobody looked at does not count. */
  readonly unmovedMinutes: number;
  /** When it was last looked at and read well; null where it does not. */
  readonly lookedAt: MonotonicMillis | null;
  /** Since when it has read the other way. */
  readonly otherSince: MonotonicMillis | null;
}

export const FLOAT_UNWATCHED: FloatWatch = { low: null, unmovedMinutes: 0, lookedAt: null, otherSince: null };

/** Every month or so a hand should try what the pump is saved by. Judgement. */
export const FLOAT_UNMOVED_DAYS = 30;
const MINUTES_A_DAY = 24 * 60;
/** A contact that bounces is back sooner, and a hand holds it longer (common practice, no source). */
const STAYS_SECONDS = 2;
/** Between two looks that lie further apart, as while the machine slept, nobody looked. */
const LOOK_MINUTES_MAX = 10;

/** The watch after one more look. */
export const floatLooked = (watch: FloatWatch, float: Reading<boolean>, now: MonotonicMillis): FloatWatch => {
  if (float.quality !== 'good') return { ...watch, lookedAt: null, otherSince: null };
  const minutes = watch.lookedAt === null ? 0 : minutesBetween(watch.lookedAt, now);
  const looked: FloatWatch = {
    ...watch,
    unmovedMinutes: watch.unmovedMinutes + (minutes <= LOOK_MINUTES_MAX ? minutes : 0),
    lookedAt: now,
    otherSince: null,
  };
  if (watch.low === null) return { ...looked, low: float.value };
  if (float.value === watch.low) return looked;
  const otherSince = watch.otherSince ?? now;
  return secondsBetween(otherSince, now) >= STAYS_SECONDS
    ? { low: float.value, unmovedMinutes: 0, lookedAt: now, otherSince: null }
    : { ...looked, otherSince };
};

/** Whole days without a move, from the thirtieth on; null before. */
export const floatUnmovedDays = ({ unmovedMinutes }: FloatWatch): number | null => {
  const days = Math.floor(unmovedMinutes / MINUTES_A_DAY);
  return days >= FLOAT_UNMOVED_DAYS ? days : null;
};

/** The watch of an earlier host: its looks are over, what it counted is not. */
export const floatWatchKept = (watch: FloatWatch): FloatWatch => ({
  ...watch,
  lookedAt: null,
  otherSince: null,
});
