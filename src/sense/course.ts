import { minutesBetween, type MonotonicMillis } from '../time/instant.ts';

/** What the weather, or the water of a tank, does not do. */
export interface CourseLimits {
  /** Faster than this is a sensor in the sun or a bad contact. */
  readonly perMinuteMax: number;
  /** A sensor that has not moved by more than this for so long hangs. */
  readonly still: { readonly within: number; readonly minutes: number };
}

/** How a reading has gone of late: enough to see a jump, and whether it moves at all. */
export interface Course {
  readonly last: Point;
  /** Held against readings of half a minute later. */
  readonly mark: Point;
  /** Held against later readings to see whether they move. */
  readonly anchor: Point;
  /** `backSince` is null while the reading is not where it was before. */
  readonly jump: {
    readonly at: MonotonicMillis;
    readonly from: number;
    readonly backSince: MonotonicMillis | null;
  } | null;
}

interface Point {
  readonly value: number;
  readonly at: MonotonicMillis;
}

/** Noise must not pass for a slope: rates are taken over at least this. */
const MARK_MINUTES = 0.5;
/** After a jump the sensor must agree with itself for this long before it is believed again, … */
const CALM_MINUTES = 5;
/** … and where it did not come back to where it was, for half a day: until the day itself has turned. Judgement. */
const ELSEWHERE_MINUTES = 720;

const began = (point: Point): Course => ({ last: point, mark: point, anchor: point, jump: null });

/** From or to a value that is no number it is a jump as well: that is a loose contact. */
const jumped = (from: Point, to: Point, limits: CourseLimits): boolean => {
  const minutes = Math.max(minutesBetween(from.at, to.at), MARK_MINUTES);
  return !(Math.abs(to.value - from.value) / minutes <= limits.perMinuteMax);
};

/** The course with one reading more; `plausible` tells whether the value could be one at all. */
export const courseWith = (
  before: Course | undefined,
  point: Point,
  limits: CourseLimits,
  plausible: (value: number) => boolean,
): Course => {
  if (before === undefined) return began(point);
  const { last, mark, anchor, jump } = before;
  const marked = minutesBetween(mark.at, point.at) >= MARK_MINUTES;
  const jumps = jumped(last, point, limits) || (marked && jumped(mark, point, limits));
  const from = jump === null || !jumpStands(before, point.at, limits) ? mark.value : jump.from;
  const moves = Math.abs(point.value - anchor.value) > limits.still.within;
  return {
    last: point,
    mark: marked ? point : mark,
    anchor: plausible(point.value) && moves ? point : anchor,
    jump: jumps ? { at: point.at, from, backSince: null } : jumpAfter(jump, point, limits),
  };
};

const isBackAt = (from: number, { value }: Point, limits: CourseLimits): boolean =>
  Math.abs(value - from) <= limits.perMinuteMax * MARK_MINUTES;

/** One after which the sensor has been back for long enough is forgotten: later the day itself goes elsewhere. */
const jumpAfter = (jump: Course['jump'], point: Point, limits: CourseLimits): Course['jump'] => {
  if (jump === null) return null;
  if (!isBackAt(jump.from, point, limits)) return { ...jump, backSince: null };
  const backSince = jump.backSince ?? point.at;
  const calm = minutesBetween(jump.at, point.at) >= CALM_MINUTES;
  return calm && minutesBetween(backSince, point.at) >= CALM_MINUTES ? null : { ...jump, backSince };
};

const jumpStands = ({ jump, last }: Course, now: MonotonicMillis, limits: CourseLimits): boolean => {
  if (jump === null) return false;
  const minutes = minutesBetween(jump.at, now);
  if (minutes < CALM_MINUTES) return true;
  return !isBackAt(jump.from, last, limits) && minutes < ELSEWHERE_MINUTES;
};

/** Why the course speaks against the sensor, as the end of a sentence; undefined when it does not. */
export const courseDoubt = (
  course: Course,
  limits: CourseLimits,
  now: MonotonicMillis,
): string | undefined => {
  if (jumpStands(course, now, limits)) return 'jumped';
  const { minutes } = limits.still;
  if (minutesBetween(course.anchor.at, now) <= minutes) return undefined;
  return `has not moved for ${minutes / 60} hours`;
};
