import type { Farm } from '../farm/farm.ts';
import { afterMinutes, afterSeconds, minutesBetween, type MonotonicMillis } from '../time/instant.ts';
import { median } from '../units/median.ts';
import { courseWith, NO_COURSE, type TankCourse, type TankSlope } from './tank-course.ts';

/**
 * How the tank goes, from its level sensor. A flood moves tens of litres out and back, so only comparable moments are
 * held against each other: so many minutes after the pump's stop in one rest and in the next, each after a flood that came
 * or each after one that was missed, or later moments of one long rest, in which what still drains back can only hide a
 * fall. The pace is the median of the slopes between
 * neighbours: the robust slope of H. Theil (1950, Proc. KNAW 53, 386) and P. K. Sen (1968, J. Am. Stat. Assoc. 63,
 * 1379) over neighbouring pairs alone, so that a step of whatever size (a tank topped up, or drawn from by hand) is one
 * slope, which a median does not follow.
 */

/** By then most of a flood has drained back, and the shortest usual rest is not over. */
const DRAINED_MINUTES = 10;
/** Moments of one long rest are this far apart. */
const EVERY_MINUTES = 30;
/** One moment is the median of so many readings, so that a bad one counts for nothing … */
const READINGS = 5;
const READINGS_APART_SECONDS = 30;
/** … and is none when they were not had by then, */
const MOMENT_MINUTES = 8;
/** or when their median absolute deviation (F. R. Hampel 1974, J. Am. Stat. Assoc. 69, 383) is above this: no water does that. */
const SPREAD = { litres: 5, share: 0.01 } as const;
/**
 * Where much still comes back the moment is put off, and while it comes back at the limit of what shows, by minutes more or
 * less from rest to rest: of two rests only moments that are so long after the stop to within this are comparable …
 */
const ALIKE_MINUTES = 1;
/** … and so many of the latest are kept for the next one that is. */
const MARKS = 6;
const SLOPE_MINUTES = { least: 20, most: 360 } as const;
/** A tank is full when so many moments in a row say so: one that somebody fills to its brim is drawn down by the next flood. */
const FULL_MOMENTS = 2;
/** The level at a comparable moment, with what the benches had drunk and held by then. */
interface TankMoment {
  readonly at: MonotonicMillis;
  readonly afterStopMinutes: number;
  readonly litres: number;
  /** All that they can have drunk since the start. */
  readonly drunkLitres: number;
  readonly heldLitres: number;
}

/** What is known of the flood before a rest: one that was missed leaves no water in the channels to drain back. */
export type FloodBefore = 'missed' | 'not-missed';

/** The rest that the pump has now. */
interface TankRest {
  readonly since: MonotonicMillis;
  /** Which of its moments is next. */
  readonly next: number;
  readonly readings: readonly number[];
  readonly readAt: MonotonicMillis | null;
  /** Its latest moment, which is the one before `next`; null when that was not had. */
  readonly before: TankMoment | null;
}

export interface TankTrend extends TankCourse {
  readonly at: MonotonicMillis | null;
  readonly drunkLitres: number;
  readonly rest: TankRest | null;
  /** The first moments of the latest rests of either kind that had one, oldest first. */
  readonly marks: Readonly<Record<FloodBefore, readonly TankMoment[]>>;
  /** How many of the latest moments in a row had the tank full to its brim. */
  readonly fullMoments: number;
}

const NO_MARKS = { missed: [], 'not-missed': [] } as const;

export const NO_TREND: TankTrend = {
  at: null,
  drunkLitres: 0,
  rest: null,
  marks: NO_MARKS,
  ...NO_COURSE,
  fullMoments: 0,
};

/** What one look brings. */
export interface TankLook {
  /** `unknown` where nobody can say what the pump does, or did. */
  readonly pump:
    | { readonly kind: 'rests'; readonly since: MonotonicMillis }
    | { readonly kind: 'runs' }
    | { readonly kind: 'unknown' };
  /** A good reading of the level. */
  readonly litres: number | undefined;
  readonly lastFlood: FloodBefore;
  /** What the benches drink at most. */
  readonly drinkLitresPerHourMost: number;
  readonly heldLitres: number;
}

/** So far apart readings of the same water may be. */
const spreadLitres = (tankLitres: number): number => Math.max(SPREAD.litres, SPREAD.share * tankLitres);

/** The median of the readings; null when they do not agree. */
const agreed = (readings: readonly number[], tankLitres: number): number | null => {
  const middle = median(readings);
  const deviation = median(readings.map((litres) => Math.abs(litres - middle)));
  return deviation <= spreadLitres(tankLitres) ? middle : null;
};

/** Between rests the benches take what they drink, and what they hold more than before; within one rest nothing. */
const slopeBetween = (
  one: TankMoment,
  other: TankMoment,
  rests: 'one-rest' | 'two-rests',
): TankSlope | null => {
  const minutes = minutesBetween(one.at, other.at);
  if (minutes < SLOPE_MINUTES.least || minutes > SLOPE_MINUTES.most) return null;
  const drunk = other.drunkLitres - one.drunkLitres;
  const fell = one.litres - other.litres;
  const taken = rests === 'one-rest' ? 0 : drunk + Math.max(0, other.heldLitres - one.heldLitres);
  return {
    at: other.at,
    beyondLitresPerHour: ((fell - taken) * 60) / minutes,
    drunkLitresPerHour: (drunk * 60) / minutes,
    fellLitresPerHour: (fell * 60) / minutes,
  };
};

const isBrimful = (farm: Farm, litres: number): boolean =>
  litres >= farm.tank.litres - spreadLitres(farm.tank.litres);

const likeOf = (marks: readonly TankMoment[], moment: TankMoment): TankMoment | null =>
  marks.findLast(
    ({ afterStopMinutes }) => Math.abs(afterStopMinutes - moment.afterStopMinutes) <= ALIKE_MINUTES,
  ) ?? null;

/** The trend with one comparable moment more. */
const withMoment = (
  farm: Farm,
  trend: TankTrend,
  rest: TankRest,
  moment: TankMoment,
  lastFlood: FloodBefore,
): TankTrend => {
  const marks = trend.marks[lastFlood];
  const before = rest.next === 0 ? likeOf(marks, moment) : rest.before;
  const slope =
    before === null ? null : slopeBetween(before, moment, rest.next === 0 ? 'two-rests' : 'one-rest');
  return {
    ...trend,
    ...courseWith(farm, trend, slope, { at: moment.at, litres: moment.litres }),
    rest: { ...rest, next: rest.next + 1, readings: [], before: moment },
    marks: rest.next === 0 ? { ...trend.marks, [lastFlood]: [...marks, moment].slice(-MARKS) } : trend.marks,
    fullMoments: isBrimful(farm, moment.litres) ? Math.min(FULL_MOMENTS, trend.fullMoments + 1) : 0,
  };
};

const momentFrom = ({ since, next }: Pick<TankRest, 'since' | 'next'>): MonotonicMillis =>
  afterMinutes(since, DRAINED_MINUTES + next * EVERY_MINUTES);

/** A rest of which a moment went by unread goes on with the next. */
const caughtUp = (rest: TankRest, now: MonotonicMillis): TankRest => {
  let { next } = rest;
  while (minutesBetween(momentFrom({ since: rest.since, next }), now) > MOMENT_MINUTES) next += 1;
  return next === rest.next ? rest : { ...rest, next, readings: [], before: null };
};

const restNow = ({ rest }: TankTrend, since: MonotonicMillis, now: MonotonicMillis): TankRest =>
  caughtUp(rest?.since === since ? rest : { since, next: 0, readings: [], readAt: null, before: null }, now);

const readingDueAt = (rest: TankRest): MonotonicMillis => {
  const from = momentFrom(rest);
  if (rest.readAt === null) return from;
  const apart = afterSeconds(rest.readAt, READINGS_APART_SECONDS);
  return apart > from ? apart : from;
};

/** When a reading is wanted next; null where none is. */
export const nextTankLook = ({ rest }: TankTrend): MonotonicMillis | null =>
  rest === null ? null : readingDueAt(rest);

/** The trend after one look at the tank. */
export const tankLooked = (
  farm: Farm,
  before: TankTrend,
  look: TankLook,
  now: MonotonicMillis,
): TankTrend => {
  const hours = before.at === null ? 0 : minutesBetween(before.at, now) / 60;
  const trend: TankTrend = {
    ...before,
    at: now,
    drunkLitres: before.drunkLitres + look.drinkLitresPerHourMost * hours,
  };
  if (look.pump.kind === 'runs') return { ...trend, rest: null };
  if (look.pump.kind === 'unknown') return { ...trend, rest: null, marks: NO_MARKS };
  const rest = restNow(trend, look.pump.since, now);
  if (look.litres === undefined || now < readingDueAt(rest)) return { ...trend, rest };
  const readings = [...rest.readings, look.litres];
  const read: TankRest = { ...rest, readings, readAt: now };
  if (readings.length < READINGS) return { ...trend, rest: read };
  const litres = agreed(readings, farm.tank.litres);
  if (litres === null)
    return { ...trend, rest: { ...read, next: rest.next + 1, readings: [], before: null } };
  const moment = {
    at: now,
    afterStopMinutes: minutesBetween(rest.since, now),
    litres,
    drunkLitres: trend.drunkLitres,
    heldLitres: look.heldLitres,
  };
  return withMoment(farm, trend, read, moment, look.lastFlood);
};

/** Litres in a tank that is full to its brim and stays so; null where it is not. A sensor may read more than there can be. */
export const brimfulLitres = (farm: Farm, { fullMoments, last }: TankTrend): number | null =>
  fullMoments >= FULL_MOMENTS && last !== null ? Math.min(last.litres, farm.tank.litres) : null;
