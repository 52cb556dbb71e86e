import { standingLitres } from '../farm/channel-water.ts';
import type { Farm } from '../farm/farm.ts';

/**
 * Falling slower than this is not told from a sensor that is wrong by 2 L at each end of an hour: nor, on a night, from a tank
 * that nobody needs to fill before the morning. Judgement, no source.
 */
const LITRES_PER_HOUR_LEAST = 5;
/**
 * Below a valve that should fill, a tank is called soon too low these hours ahead: a slow valve that falls behind in the heat of a
 * hot day and catches up by night is further from that. Whoever fills by hand knows his tank, and is called when the next whole flood
 * may be too much for it, however slowly it came to that, and not on each hot day on which it goes down as it should. Judgement, no source.
 */
const SOON_HOURS = 4;
/** So far below where it closes a float valve is open, and the sensor no longer at its edge. Judgement, no source. */
const VALVE_OPEN = { litres: 10, share: 0.02 } as const;
/**
 * A valve is open in a flood, when much of the water stands in the channels, and closes again late in the rest: one that fills keeps
 * a rest's level this share of what stands there above where it closes, and is surely open in a flood that begins with less than the
 * other share. Judgement, no source.
 */
const FILLED_IN_FLOODS = { surely: 0.5, kept: 0.75 } as const;
/** A tank that is usually hardly fuller than a whole flood needs is low when it is down to this share of that. Judgement, no source. */
const LOW_SHARE_MOST = 0.75;
/** By the first moment of a rest less than this share of what stood in the channels is yet to drain back. Judgement, no source. */
const DRAINS_BACK_SHARE = 0.5;

/** What stands out in the channels late in a flood, L. */
export const inChannelsLitres = ({ benches }: Farm): number =>
  benches.reduce((sum, bench) => sum + standingLitres(bench), 0);

/** With less than this in a rest the pump draws air in a whole flood, L. */
export const wholeFloodLitres = (farm: Farm): number => farm.tank.dryLitres + inChannelsLitres(farm);

interface Levels {
  /** Below this the tank is too low, L. */
  readonly low: number;
  /** Below this one that goes down is watched for its top-up, L … */
  readonly watchedBelow: number;
  /** … and from here on it has been filled, L. */
  readonly filled: number;
}

/** Of a tank that is filled by hand: from where a whole flood may be too much on; filled from half of the way to the usual level on. */
const levelsByHand = ({ usualLitres }: Farm['tank'], low: number): Levels => ({
  low,
  watchedBelow: low,
  filled: (low + usualLitres) / 2,
});

/**
 * Of one with a valve that closes at this level: watched where that should be filling, in the rest or in each flood. One that keeps
 * less than a whole flood needs is as low as it is meant to be: its floods tell that.
 */
const levelsOfValve = (farm: Farm, wanted: number, valveLitres: number): Levels => {
  const { litres, usualLitres } = farm.tank;
  const edge = Math.max(VALVE_OPEN.litres, VALVE_OPEN.share * litres);
  const standing = inChannelsLitres(farm);
  const open = valveLitres - edge;
  const kept = Math.min(usualLitres, valveLitres + FILLED_IN_FLOODS.kept * standing);
  const low = Math.min(wanted, kept - edge);
  const filled = Math.max(open, (low + kept) / 2);
  const surely = FILLED_IN_FLOODS.surely * standing;
  // Where it begins it must not be over yet.
  const begins = open >= filled ? filled : filled - edge / 2;
  const watchedBelow = Math.max(low, open, Math.min(open, low) + surely);
  return { low, filled, watchedBelow: Math.min(watchedBelow, begins) };
};

/** What counts as low and as filled; null where a float tells the grower, later and more surely, that it is time. */
const levelsOf = (farm: Farm): Levels | null => {
  const { evidence, tank } = farm;
  const usually = tank.dryLitres + LOW_SHARE_MOST * (tank.usualLitres - tank.dryLitres);
  const low = Math.min(wholeFloodLitres(farm), usually);
  if (tank.topUp !== 'by-hand') return levelsOfValve(farm, low, tank.topUp.floatValveAtLitres);
  return evidence.tankFloat ? null : levelsByHand(tank, low);
};

/** Minutes until a tank at this level, falling at this pace, is too low for a whole flood. */
export const unfilledLowInMinutes = (farm: Farm, litres: number, fellLitresPerHour: number): number =>
  ((litres - wholeFloodLitres(farm)) * 60) / Math.max(LITRES_PER_HOUR_LEAST, fellLitresPerHour);

/** Whether a tank that goes down at this pace is too low, or soon will be though a valve should fill it. */
const isSoonLow = (farm: Farm, { low }: Levels, litres: number, fellLitresPerHour: number): boolean => {
  if (fellLitresPerHour <= 0) return false;
  if (litres < low) return true;
  if (farm.tank.topUp === 'by-hand' || fellLitresPerHour < LITRES_PER_HOUR_LEAST) return false;
  return (litres - low) / fellLitresPerHour < SOON_HOURS;
};

/**
 * The lowest level since plants have been drinking the tank down with too little topping it up, L; null while it is not soon too
 * low by that. `fellLitresPerHour` is the pace of the latest rests; null where too few are known. Nights and still air slow the fall
 * and fill nothing: it is over once the tank has been filled, or more was poured in than can still drain back.
 */
export const lowestUnfilledLitres = (
  farm: Farm,
  before: number | null,
  litres: number,
  fellLitresPerHour: number | null,
): number | null => {
  const levels = levelsOf(farm);
  if (levels === null) return null;
  if (before !== null) {
    const isPoured = litres - before > DRAINS_BACK_SHARE * inChannelsLitres(farm);
    return isPoured || litres >= levels.filled ? null : Math.min(before, litres);
  }
  if (fellLitresPerHour === null || litres >= levels.watchedBelow) return null;
  return isSoonLow(farm, levels, litres, fellLitresPerHour) ? litres : null;
};
