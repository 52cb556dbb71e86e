import { exp } from '../../src/physics/portable-math.ts';

/** (1 − e^(−a)) / a for a ≥ 0, without loss where a is small. */
const meanDecay = (a: number): number => (a < 1e-5 ? 1 - a * (0.5 - a / 6) : (1 - exp(-a)) / a);

/**
 * The exact end of y' = inflow − rate·y after `minutes`, never negative.
 * What left is `start + inflow·minutes − end`; every sink takes its share of that one figure.
 */
export const afterDecay = (start: number, inflow: number, rate: number, minutes: number): number => {
  const decays = rate * minutes;
  return start * exp(-decays) + inflow * minutes * meanDecay(decays);
};
