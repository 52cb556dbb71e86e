import { rootGrams } from '../physics/growth.ts';
import { heldMillilitresMax } from '../physics/holding.ts';
import { power } from '../physics/portable-math.ts';
import { daysBetweenDates } from '../time/local-day.ts';
import type { Bench, Standing } from './farm.ts';

/**
 * Drainage of a bench of 72 channel metres: outflow = k·x^1.5 of the drainable water x (L, min). Engineering
 * judgement, no source; the exponent is near that of a part-full pipe (Manning gives 1.44).
 */
const DRAIN_RATE = 0.0395;
const DRAIN_EXPONENT = 1.5;
const DRAIN_METRES = 72;

export const channelMetres = (bench: Bench): number => bench.channels * bench.lengthMetres;

/** Litres that stand in the channels of a bench late in a flood and run back after it: x where outflow is inflow. */
export const standingLitres = (bench: Bench): number => {
  const benchesOf72 = channelMetres(bench) / DRAIN_METRES;
  return benchesOf72 * power(bench.litresPerMinute / benchesOf72 / DRAIN_RATE, 1 / DRAIN_EXPONENT);
};

/** Litres that roots and cups of what stands on a bench hold back on a local date. */
export const heldLitresMax = ({ plants, sown, traits }: Standing, date: string): number =>
  (plants * heldMillilitresMax(rootGrams(Math.max(0, daysBetweenDates(sown, date)), traits))) / 1000;
