import { ln } from '../../src/physics/portable-math.ts';
import { assert } from '../../src/units/assertion.ts';

/** m of x' = −k·x^m: through a mat of roots, down a part-full pipe, or slower still at the end. */
export type DrainExponent = 1 | 1.5 | 2;

/** How the channels of a bench drain. */
export interface Drain {
  /** k in L^(1−m)/min, scaled so that twice the channel drains twice the flow at twice the water. */
  readonly drainCoefficient: number;
  readonly drainExponent: DrainExponent;
}

/** Where all three let out the same, L on the usual channels: half of what a flood of 10 L/min leaves in them. Judgement. */
export const ALIKE_LITRES = 20;

export const drainExponentOf = (judged: number): DrainExponent => {
  assert(judged === 1 || judged === 1.5 || judged === 2, 'a drain exponent is 1, 1.5 or 2');
  return judged;
};

/**
 * k of the usual channels for an exponent, L^(1−m)/min, from that of a part-full pipe: at 20 L all drain alike, so that a
 * doubt of the law is none of the speed. Scaled so that `size` times the channel drains as much more at as much more water.
 */
export const drainCoefficientOf = (exponent: DrainExponent, ofPipe: number, size: number): number => {
  switch (exponent) {
    case 1:
      return ofPipe * Math.sqrt(ALIKE_LITRES);
    case 1.5:
      return ofPipe / Math.sqrt(size);
    case 2:
      return ofPipe / Math.sqrt(ALIKE_LITRES) / size;
  }
};

/** k·x^(m−1): what drains in a minute of each litre that stands. */
export const drainRate = ({ drainCoefficient, drainExponent }: Drain, drainableLitres: number): number => {
  switch (drainExponent) {
    case 1:
      return drainCoefficient;
    case 1.5:
      return drainCoefficient * Math.sqrt(Math.max(0, drainableLitres));
    case 2:
      return drainCoefficient * Math.max(0, drainableLitres);
  }
};

/** How long channels that stood at `fromLitres`, and only drain, take to come to so much less: the three laws in closed form. */
export const drainMinutes = (
  { drainCoefficient, drainExponent }: Drain,
  fromLitres: number,
): ((litres: number) => number) => {
  switch (drainExponent) {
    case 1:
      return (litres) => ln(fromLitres / litres) / drainCoefficient;
    case 1.5: {
      const perRoot = 2 / (drainCoefficient * Math.sqrt(fromLitres));
      return (litres) => (Math.sqrt(fromLitres / litres) - 1) * perRoot;
    }
    case 2:
      return (litres) => (fromLitres / litres - 1) / (drainCoefficient * fromLitres);
  }
};
