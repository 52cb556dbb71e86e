import { exp } from '../../src/physics/portable-math.ts';

/** Up to here the series below is exact to rounding: the next term, a^14/15!, is under 5e-17. */
const SERIES_MAX = 0.5;

/**
 * (1 − e^(−a))/a for 0 ≤ a ≤ 0.5, the mean of e^(−t) from 0 to a, by its series Σ (−a)^n/(n+1)!. Even and odd terms are
 * summed apart, because a processor can work at both sums at once.
 */
const meanBySeries = (decays: number): number => {
  const square = decays * decays;
  let even = 1 / 6227020800;
  let odd = 1 / 87178291200;
  even = even * square + 1 / 39916800;
  odd = odd * square + 1 / 479001600;
  even = even * square + 1 / 362880;
  odd = odd * square + 1 / 3628800;
  even = even * square + 1 / 5040;
  odd = odd * square + 1 / 40320;
  even = even * square + 1 / 120;
  odd = odd * square + 1 / 720;
  even = even * square + 1 / 6;
  odd = odd * square + 1 / 24;
  return even * square + 1 - decays * (odd * square + 0.5);
};

/**
 * The exact end of y' = inflow − rate·y after `minutes`, never negative.
 * What left is `start + inflow·minutes − end`; every sink takes its share of that one figure.
 */
export const afterDecay = (start: number, inflow: number, rate: number, minutes: number): number => {
  const decays = rate * minutes;
  // Nearly every step of the plant goes this way; 1 − e^(−a) would lose digits here.
  if (decays <= SERIES_MAX) {
    const mean = meanBySeries(decays);
    return start * (1 - decays * mean) + inflow * minutes * mean;
  }
  const kept = exp(-decays);
  return start * kept + (inflow * minutes * (1 - kept)) / decays;
};
