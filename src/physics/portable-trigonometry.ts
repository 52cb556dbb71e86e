/**
 * Sine, cosine and their inverses made of + − × ÷, `Math.sqrt` and `Math.floor`, for the reason given in
 * `portable-math.ts`. Sine and cosine: absolute error below 3e-16 for angles up to a million radians.
 */

/** π/2 in two parts: the first has 33 bits, so a product with a whole number up to 2^20 is exact. */
const QUARTER_HIGH = 1.57079632673412561417;
const QUARTER_LOW = 6.07710050650619224932e-11;
const QUARTERS_PER_RADIAN = 0.6366197723675814;

/** Series of sin to x^17 for |x| ≤ π/4; the next term is below 1e-19. */
const sineNearZero = (x: number): number => {
  const square = x * x;
  let tail = 1 / 355687428096000;
  tail = tail * square - 1 / 1307674368000;
  tail = tail * square + 1 / 6227020800;
  tail = tail * square - 1 / 39916800;
  tail = tail * square + 1 / 362880;
  tail = tail * square - 1 / 5040;
  tail = tail * square + 1 / 120;
  tail = tail * square - 1 / 6;
  return x + x * square * tail;
};

/** Series of cos to x^16 for |x| ≤ π/4; the next term is below 3e-18. */
const cosineNearZero = (x: number): number => {
  const square = x * x;
  let tail = 1 / 20922789888000;
  tail = tail * square - 1 / 87178291200;
  tail = tail * square + 1 / 479001600;
  tail = tail * square - 1 / 3628800;
  tail = tail * square + 1 / 40320;
  tail = tail * square - 1 / 720;
  tail = tail * square + 1 / 24;
  return 1 - (0.5 * square - square * square * tail);
};

const sineFromQuarter = (quarter: number, rest: number): number => {
  const turned = quarter - 4 * Math.floor(quarter / 4);
  const size = turned % 2 === 0 ? sineNearZero(rest) : cosineNearZero(rest);
  return turned < 2 ? size : -size;
};

/** Sine of an angle in radians. */
export const sine = (radians: number): number => {
  const quarter = Math.floor(radians * QUARTERS_PER_RADIAN + 0.5);
  return sineFromQuarter(quarter, radians - quarter * QUARTER_HIGH - quarter * QUARTER_LOW);
};

/** Cosine of an angle in radians. */
export const cosine = (radians: number): number => {
  const quarter = Math.floor(radians * QUARTERS_PER_RADIAN + 0.5);
  return sineFromQuarter(quarter + 1, radians - quarter * QUARTER_HIGH - quarter * QUARTER_LOW);
};

const QUARTER = QUARTER_HIGH + QUARTER_LOW;

/** Series of arctan to x^21 for |x| ≤ tan(π/16); the next term is below 4e-18. */
const arctangentNearZero = (x: number): number => {
  const square = x * x;
  let tail = 1 / 21;
  tail = 1 / 19 - tail * square;
  tail = 1 / 17 - tail * square;
  tail = 1 / 15 - tail * square;
  tail = 1 / 13 - tail * square;
  tail = 1 / 11 - tail * square;
  tail = 1 / 9 - tail * square;
  tail = 1 / 7 - tail * square;
  tail = 1 / 5 - tail * square;
  tail = 1 / 3 - tail * square;
  return x - x * square * tail;
};

/** The tangent of half the angle whose tangent is x. */
const halved = (x: number): number => x / (1 + Math.sqrt(1 + x * x));

/** Angle in radians, from −π/2 to π/2, of a tangent; relative error below 6e-16. */
export const arctangent = (tangent: number): number => {
  if (tangent < 0) return -arctangent(-tangent);
  if (tangent > 1) return QUARTER - arctangent(1 / tangent);
  return 4 * arctangentNearZero(halved(halved(tangent)));
};

/** Angle in radians, from 0 to π, of a cosine; NaN beyond −1 to 1. */
export const arccosine = (cosineOfAngle: number): number =>
  2 * arctangent(Math.sqrt((1 - cosineOfAngle) / (1 + cosineOfAngle)));

/** Angle in radians, from −π/2 to π/2, of a sine; NaN beyond −1 to 1. */
export const arcsine = (sineOfAngle: number): number =>
  arctangent(sineOfAngle / Math.sqrt((1 - sineOfAngle) * (1 + sineOfAngle)));

/** Direction of a point in radians, from −π to π. */
export const direction = (eastward: number, northward: number): number => {
  if (eastward > 0) return arctangent(northward / eastward);
  if (eastward === 0 && northward === 0) return 0;
  if (northward < 0) return -QUARTER - arctangent(eastward / northward);
  return QUARTER - arctangent(eastward / northward);
};
