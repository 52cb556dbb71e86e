import { standingLitres } from '../farm/channel-water.ts';
import type { Farm } from '../farm/farm.ts';

/**
 * Falling slower than this is not told from a sensor that is wrong by 2 L at each end of an hour: nor, on a night, from a tank
 * that nobody needs to fill before the morning. Judgement, no source.
 */
const LITRES_PER_HOUR_LEAST = 5;
/**
 * Below a valve that should fill, a tank is called soon too low a few hours ahead: a slow valve that falls behind in the heat of a
 * hot day and catches up by night is further from that. Whoever fills by hand knows his tank, and is called when the next whole flood
 * may be too much for it, not on each hot day on which it goes down as it should. Judgement, no source.
 */
const SOON_MINUTES = { valve: 4 * 60, byHand: 0 } as const;
/** So far below where it closes a float valve is open, and the sensor no longer at its edge. Judgement, no source. */
const VALVE_OPEN = { litres: 10, share: 0.02 } as const;

/** What stands out in the channels late in a flood, L. */
export const inChannelsLitres = ({ benches }: Farm): number =>
  benches.reduce((sum, bench) => sum + standingLitres(bench), 0);

/** With less than this in a rest the pump draws air in a whole flood, L. */
export const wholeFloodLitres = (farm: Farm): number => farm.tank.dryLitres + inChannelsLitres(farm);

/**
 * Below this a tank that goes down is watched for its top-up, L: with a valve where that should be filling, without one at any level,
 * and not at all where a float tells the grower, later and more surely, that it is time.
 */
const watchedBelowLitres = ({ evidence, tank: { topUp, litres } }: Farm): number => {
  if (topUp === 'by-hand') return evidence.tankFloat ? -Infinity : Infinity;
  return topUp.floatValveAtLitres - Math.max(VALVE_OPEN.litres, VALVE_OPEN.share * litres);
};

/** Minutes until a tank at this level, falling at this pace, is too low for a whole flood. */
export const unfilledLowInMinutes = (farm: Farm, litres: number, fellLitresPerHour: number): number =>
  ((litres - wholeFloodLitres(farm)) * 60) / Math.max(LITRES_PER_HOUR_LEAST, fellLitresPerHour);

/**
 * The lowest level since plants have been drinking the tank down with too little topping it up, L; null while it is not soon too
 * low by that. `fellLitresPerHour` is the pace of the latest rests; null where too few are known. Nights and still air slow the fall
 * and fill nothing: it is over once the valve's level is reached, or more was poured in than can have drained back.
 */
export const lowestUnfilledLitres = (
  farm: Farm,
  before: number | null,
  litres: number,
  fellLitresPerHour: number | null,
): number | null => {
  if (litres >= watchedBelowLitres(farm)) return null;
  if (before !== null) return litres - before > inChannelsLitres(farm) ? null : Math.min(before, litres);
  if (fellLitresPerHour === null || fellLitresPerHour < LITRES_PER_HOUR_LEAST) return null;
  const soon = farm.tank.topUp === 'by-hand' ? SOON_MINUTES.byHand : SOON_MINUTES.valve;
  return unfilledLowInMinutes(farm, litres, fellLitresPerHour) < soon ? litres : null;
};
