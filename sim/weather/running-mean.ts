import { bounded } from '../../src/units/bounded.ts';
import { MILLIS_PER_MINUTE } from '../../src/time/instant.ts';
import { spotAt, valueAt } from './line.ts';
import type { Air, Sky } from './sky.ts';

const HALF_DAY_MILLIS = 12 * 60 * MILLIS_PER_MINUTE;
const STEP_MILLIS = 5 * MILLIS_PER_MINUTE;

/**
 * The mean of something in the air over the 24 hours about a moment: a "daily mean" that does not step at midnight.
 * Near the ends of the sky it is the mean of its first or last 24 hours, or of the whole where it is shorter.
 */
export const runningDayMean = (sky: Sky, of: (air: Air) => number): ((epochMillis: number) => number) => {
  const steps = Math.max(1, Math.ceil((sky.end - sky.start) / STEP_MILLIS));
  const step = (sky.end - sky.start) / steps;
  const times = Float64Array.from({ length: steps + 1 }, (_, index) =>
    index === steps ? sky.end : sky.start + index * step,
  );
  const values = Float64Array.from(times, (time) => of(sky.at(time)));
  /** Summed up from the start of the sky, by trapezoids. */
  const sums = new Float64Array(steps + 1);
  for (let index = 1; index <= steps; index += 1) {
    const both = (values[index - 1] ?? NaN) + (values[index] ?? NaN);
    sums[index] = (sums[index - 1] ?? NaN) + (step * both) / 2;
  }
  const sumAt = (time: number): number => valueAt(sums, spotAt(times, time));
  return (epochMillis) => {
    const from = bounded(
      epochMillis - HALF_DAY_MILLIS,
      sky.start,
      Math.max(sky.start, sky.end - 2 * HALF_DAY_MILLIS),
    );
    const to = Math.min(sky.end, from + 2 * HALF_DAY_MILLIS);
    return (sumAt(to) - sumAt(from)) / (to - from);
  };
};
