import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { ln } from '../src/physics/portable-math.ts';
import { cosine } from '../src/physics/portable-trigonometry.ts';

/** Evenly spread numbers in [0, 1), one after another; the same seed gives the same row. */
export type Dice = () => number;

/** Small seeds fill few bits of the state: the first number is near 1 for all of them, the second a multiple of a 16th. */
const MIXING_NUMBERS = 16;

export const seededDice = (seed: number): Dice => {
  const generator = xoroshiro128plus(seed);
  for (let thrownAway = 0; thrownAway < MIXING_NUMBERS; thrownAway += 1) uniformFloat64(generator);
  return () => uniformFloat64(generator);
};

/** Normally distributed with mean 0 and standard deviation 1 (Box and Muller 1958). */
export const gaussian = (dice: Dice): number => Math.sqrt(-2 * ln(1 - dice())) * cosine(2 * Math.PI * dice());
