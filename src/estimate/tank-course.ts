import type { Farm } from '../farm/farm.ts';
import { minutesBetween, type MonotonicMillis } from '../time/instant.ts';
import { median } from '../units/median.ts';
import {
  inChannelsLitres,
  lowestUnfilledLitres,
  unfilledLowInMinutes,
  wholeFloodLitres,
} from './tank-top-up.ts';

/** Slopes that are taken together. */
const SLOPES = 3;
/** What is longer ago says nothing of now. */
const SLOPE_AGE_MINUTES = 12 * 60;
/**
 * Falling faster than plants can drink by this is a leak: a whole tank in 40 hours, yet well above what a sensor that is
 * wrong by 2 L makes of half an hour. Judgement, no source.
 */
const LEAK = { hoursForWholeTank: 40, litresPerHourLeast: 10 } as const;
/** It has ended when it is slower than this share of that. */
const ENDED_SHARE = 0.5;
/**
 * It is soon too low for a whole flood when that comes within a night, before anybody comes by himself; and no longer when
 * it is half as far again. Judgement, no source.
 */
const SOON_MINUTES = { within: 8 * 60, again: 12 * 60 } as const;

export interface TankSlope {
  readonly at: MonotonicMillis;
  /** How much faster the tank fell than the benches can have drunk from it; below zero where it did not. */
  readonly beyondLitresPerHour: number;
  /** What the benches can have drunk meanwhile. */
  readonly drunkLitresPerHour: number;
  /** How fast the tank fell, whoever took it. */
  readonly fellLitresPerHour: number;
}

/** What the tank is believed to do, by the slopes between comparable moments. */
export interface TankCourse {
  /** The latest slopes, oldest first. */
  readonly slopes: readonly TankSlope[];
  readonly last: { readonly at: MonotonicMillis; readonly litres: number } | null;
  /** Whether the tank is believed to leak, and so much that it is soon too low. */
  readonly course: 'well' | 'falls' | 'falls-soon-low';
  /** The lowest level since plants have been drinking the tank too low with too little topping it up; null while they do not. */
  readonly unfilledLitres: number | null;
}

export const NO_COURSE: TankCourse = { slopes: [], last: null, course: 'well', unfilledLitres: null };

const beyond = (slopes: readonly TankSlope[]): number =>
  slopes.length === 0 ? 0 : median(slopes.map(({ beyondLitresPerHour }) => beyondLitresPerHour));

const fellLitresPerHour = (slopes: readonly TankSlope[]): number =>
  slopes.length === 0 ? 0 : median(slopes.map((slope) => slope.fellLitresPerHour));

const leakLitresPerHour = (farm: Farm): number =>
  Math.max(LEAK.litresPerHourLeast, farm.tank.litres / LEAK.hoursForWholeTank);

/**
 * The emptier the tank the less of a flood goes out by a leak of the loop, and an empty one cannot fall at all. Down to here a leak
 * that is as it was still shows by the share that counts; below, a tank that stands still says nothing.
 */
const isNearEmpty = (farm: Farm, litres: number): boolean =>
  litres <= farm.tank.dryLitres + ENDED_SHARE * inChannelsLitres(farm);

/** The slowest fall that is a leak, or of one that is known still is. */
const leastLitresPerHour = (farm: Farm, course: TankCourse['course']): number =>
  leakLitresPerHour(farm) * (course === 'well' ? 1 : ENDED_SHARE);

/** Slopes by which a tank is believed to fall count until others take their place, however long that takes. */
const slopesWith = (
  farm: Farm,
  { slopes, course }: TankCourse,
  slope: TankSlope | null,
  litres: number,
): readonly TankSlope[] => {
  if (slope === null) return slopes;
  const falls = course !== 'well';
  const isSlow = slope.beyondLitresPerHour < leastLitresPerHour(farm, course);
  if (falls && isSlow && isNearEmpty(farm, litres)) return slopes;
  return [...slopes, slope]
    .filter(({ at }) => falls || minutesBetween(at, slope.at) <= SLOPE_AGE_MINUTES)
    .slice(-SLOPES);
};

/** Until the pump draws air in a whole flood, at the pace of the latest slopes, counted from the latest moment. */
const lowInMinutes = (farm: Farm, { slopes, last }: TankCourse): number => {
  if (last === null) return Infinity;
  const drunk = Math.max(...slopes.map(({ drunkLitresPerHour }) => drunkLitresPerHour));
  return ((last.litres - wholeFloodLitres(farm)) * 60) / (beyond(slopes) + drunk);
};

const courseAfter = (farm: Farm, tank: TankCourse): TankCourse['course'] => {
  const { course, slopes } = tank;
  if (slopes.length < SLOPES) return course;
  if (beyond(slopes) < leastLitresPerHour(farm, course)) return 'well';
  const soon = course === 'falls-soon-low' ? SOON_MINUTES.again : SOON_MINUTES.within;
  return lowInMinutes(farm, tank) < soon ? 'falls-soon-low' : 'falls';
};

/** The course with one comparable moment more, and the slope to it where it has one. */
export const courseWith = (
  farm: Farm,
  before: TankCourse,
  slope: TankSlope | null,
  last: NonNullable<TankCourse['last']>,
): TankCourse => {
  const tank = { ...before, slopes: slopesWith(farm, before, slope, last.litres), last };
  const fell = tank.slopes.length < SLOPES ? null : fellLitresPerHour(tank.slopes);
  return {
    ...tank,
    course: courseAfter(farm, tank),
    unfilledLitres: lowestUnfilledLitres(farm, before.unfilledLitres, last.litres, fell),
  };
};

/** The course of an earlier host, gone on from by what a later one saw before it knew of that: too few slopes of its own say nothing. */
export const courseAcross = (farm: Farm, before: TankCourse, ours: TankCourse): TankCourse => {
  const last = ours.last ?? before.last;
  const slopes = ours.slopes.reduce(
    (known, slope) => slopesWith(farm, { ...before, slopes: known }, slope, last?.litres ?? 0),
    before.slopes,
  );
  const unfilled =
    before.unfilledLitres === null || ours.last === null
      ? before.unfilledLitres
      : lowestUnfilledLitres(farm, before.unfilledLitres, ours.last.litres, null);
  return {
    slopes,
    last,
    course: ours.course === 'well' ? courseAfter(farm, { ...before, slopes, last }) : ours.course,
    unfilledLitres: ours.unfilledLitres ?? unfilled,
  };
};

/** A tank that falls by more than plants can drink, or that they drink too low with too little topping it up. */
export interface TankFall {
  /** By how much more than they can drink, at least; null where it is they who drink it. */
  readonly beyondLitresPerHour: number | null;
  /** Until the pump draws air in a whole flood, at this pace. */
  readonly lowInMinutes: number;
  readonly isSoonLow: boolean;
}

export const tankFall = (farm: Farm, tank: TankCourse, now: MonotonicMillis): TankFall | null => {
  const { course, slopes, last, unfilledLitres } = tank;
  if (last === null) return null;
  const fromNow = (minutes: number): number => Math.max(0, minutes - minutesBetween(last.at, now));
  if (course !== 'well')
    return {
      beyondLitresPerHour: beyond(slopes),
      lowInMinutes: fromNow(lowInMinutes(farm, tank)),
      isSoonLow: course === 'falls-soon-low',
    };
  if (unfilledLitres === null) return null;
  const minutes = unfilledLowInMinutes(farm, last.litres, fellLitresPerHour(slopes));
  return { beyondLitresPerHour: null, lowInMinutes: fromNow(minutes), isSoonLow: true };
};
