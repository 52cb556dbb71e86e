import { exp } from '../../src/physics/portable-math.ts';

/** Below this, 1 − e^(−a) loses digits and two terms of its series are exact to rounding. */
const SMALL = 1e-5;

/**
 * The exact end of y' = inflow − rate·y after `minutes`, never negative.
 * What left is `start + inflow·minutes − end`; every sink takes its share of that one figure.
 */
export const afterDecay = (start: number, inflow: number, rate: number, minutes: number): number => {
  const decays = rate * minutes;
  const kept = exp(-decays);
  const meanKept = decays < SMALL ? 1 - decays * (0.5 - decays / 6) : (1 - kept) / decays;
  return start * kept + inflow * minutes * meanKept;
};
