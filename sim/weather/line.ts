import { saturationVapourKilopascals } from '../../src/physics/vapour.ts';
import { wallMillis } from '../../src/time/instant.ts';
import { assert, BrokenAssertion, itemAt } from '../../src/units/assertion.ts';
import type { Air, Sky } from './sky.ts';

/** The air at one moment through which a line is drawn. */
export interface Knot extends Air {
  readonly epochMillis: number;
}

/** Where a moment lies: after which knot, and at what share of the way to the next. */
interface Spot {
  readonly knot: number;
  readonly share: number;
}

/**
 * The knot at or before `moment`, which must lie within `times`, at least two and rising. Even grids are
 * found at the first guess, uneven ones by halving.
 */
export const spotAt = (times: Float64Array, moment: number): Spot => {
  const last = times.length - 1;
  const first = times[0] ?? NaN;
  const spread = (times[last] ?? NaN) - first;
  let low = Math.min(last - 1, Math.max(0, Math.floor(((moment - first) / spread) * last)));
  let high = low + 1;
  if (!((times[low] ?? NaN) <= moment && moment <= (times[high] ?? NaN))) {
    low = 0;
    high = last;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if ((times[middle] ?? NaN) <= moment) low = middle;
      else high = middle;
    }
  }
  const before = times[low] ?? NaN;
  return { knot: low, share: (moment - before) / ((times[high] ?? NaN) - before) };
};

/** The value on the straight line between two neighbours of `values`. Exact at both of them. */
export const valueAt = (values: Float64Array, { knot, share }: Spot): number => {
  const before = values[knot] ?? NaN;
  if (share === 0) return before;
  const after = values[knot + 1] ?? NaN;
  return share === 1 ? after : before + (after - before) * share;
};

/**
 * A sky of straight lines through `knots`. Saturation is convex in temperature, so that a line between two
 * saturated knots runs above it: the vapour is held at saturation at every moment.
 * @throws BrokenAssertion when there are fewer than two knots or they do not rise in time
 */
export const skyThrough = (knots: readonly Knot[]): Sky => {
  assert(knots.length >= 2, `a sky needs two moments at least, found ${knots.length}`);
  const times = Float64Array.from(knots, (knot) => knot.epochMillis);
  assert(
    times.every((time, place) => Number.isFinite(time) && (place === 0 || time > (times[place - 1] ?? NaN))),
    'the moments of a sky must rise',
  );
  const airCelsius = Float64Array.from(knots, (knot) => knot.airCelsius);
  const vapour = Float64Array.from(knots, (knot) => knot.vapourKilopascals);
  const sun = Float64Array.from(knots, (knot) => knot.sunWattsPerSquareMetre);
  const wind = Float64Array.from(knots, (knot) => knot.windMetresPerSecond);
  const start = wallMillis(itemAt(knots, 0).epochMillis);
  const end = wallMillis(itemAt(knots, knots.length - 1).epochMillis);
  return {
    start,
    end,
    at: (epochMillis): Air => {
      // Not by `assert`: its message would be put together at every step of every plant.
      if (!(epochMillis >= start && epochMillis <= end)) {
        throw new BrokenAssertion(`no weather at ${epochMillis}: the sky reaches from ${start} to ${end}`);
      }
      const spot = spotAt(times, epochMillis);
      const celsius = valueAt(airCelsius, spot);
      return {
        airCelsius: celsius,
        vapourKilopascals: Math.min(valueAt(vapour, spot), saturationVapourKilopascals(celsius)),
        sunWattsPerSquareMetre: valueAt(sun, spot),
        windMetresPerSecond: valueAt(wind, spot),
      };
    },
  };
};
