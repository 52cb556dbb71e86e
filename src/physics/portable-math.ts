/**
 * Exponential, logarithm and power made of + − × ÷, `Math.sqrt` and `Math.floor`, which every engine must round
 * alike. `Math.exp`, `Math.log` and `**` may differ in the last bit from engine to engine, and then one seed
 * would no longer give one result.
 */

/** ln 2 in two parts: the first has 32 trailing zero bits, so a product with a small integer is exact. */
const LN2_HIGH = 6.9314718036912381649e-1;
const LN2_LOW = 1.90821492927058770002e-10;
const LOG2_E = 1.4426950408889634;
const LN2 = LN2_HIGH + LN2_LOW;
const EXPONENT_MIN = -1074;
const EXPONENT_NORMAL_MIN = -1022;
/** Doublings that make the smallest double a normal number. */
const SUBNORMAL_SHIFT = 54;
const EXPONENT_MAX = 1023;
/** Beyond these the result leaves the range of a double. */
const EXP_ARGUMENT_MAX = 709.782712893384;
const EXP_ARGUMENT_MIN = -745.1332191019412;
const SQRT_HALF = 0.7071067811865476;
/** Whole exponents up to this size are multiplied out, which keeps their error below `exponent` roundings. */
const WHOLE_EXPONENT_MAX = 64;

const powersOfTwo = ((): Float64Array => {
  const table = new Float64Array(EXPONENT_MAX - EXPONENT_MIN + 1);
  let up = 1;
  for (let k = 0; k <= EXPONENT_MAX; k += 1, up *= 2) table[k - EXPONENT_MIN] = up;
  let down = 0.5;
  for (let k = -1; k >= EXPONENT_MIN; k -= 1, down /= 2) table[k - EXPONENT_MIN] = down;
  return table;
})();

/** 2^k for a whole k from −1074 to 1023. */
const twoToThe = (k: number): number => powersOfTwo[k - EXPONENT_MIN] ?? NaN;

/**
 * e^x for any x; relative error below 4e-16 where the result is a normal number. Cody & Waite 1980, ch. 6:
 * x = k ln 2 + r with |r| ≤ 0.347, then the series of e^r to r^13, whose next term is below 5e-18.
 */
export const exp = (x: number): number => {
  if (x > EXP_ARGUMENT_MAX) return Infinity;
  if (x < EXP_ARGUMENT_MIN) return 0;
  const k = Math.floor(x * LOG2_E + 0.5);
  const r = x - k * LN2_HIGH - k * LN2_LOW;
  let tail = 1 / 6227020800;
  tail = tail * r + 1 / 479001600;
  tail = tail * r + 1 / 39916800;
  tail = tail * r + 1 / 3628800;
  tail = tail * r + 1 / 362880;
  tail = tail * r + 1 / 40320;
  tail = tail * r + 1 / 5040;
  tail = tail * r + 1 / 720;
  tail = tail * r + 1 / 120;
  tail = tail * r + 1 / 24;
  tail = tail * r + 1 / 6;
  tail = tail * r + 0.5;
  const mantissa = 1 + (r + r * r * tail);
  if (k > EXPONENT_MAX) return mantissa * 2 * twoToThe(k - 1);
  if (k < EXPONENT_MIN) return (mantissa / 2) * twoToThe(k + 1);
  return mantissa * twoToThe(k);
};

/** Up to here in either direction the exponent is found by doubling, beyond by search. */
const NEAR_ONE = 256;

/** The whole k with √½ ≤ x·2^−k < √2, found by halving the range of exponents; for normal numbers. */
const binaryExponent = (x: number): number => {
  let low = EXPONENT_NORMAL_MIN;
  let high = EXPONENT_MAX + 1;
  while (low < high) {
    const middle = Math.floor((low + high + 1) / 2);
    if (x * SQRT_HALF >= twoToThe(middle - 1)) low = middle;
    else high = middle - 1;
  }
  return low;
};

/** x·2^−k in two exact steps, since 2^k alone may leave the range of a double. */
const withoutExponent = (x: number, k: number): number => {
  const half = Math.floor(k / 2);
  return x / twoToThe(half) / twoToThe(k - half);
};

/**
 * Natural logarithm: −∞ at 0, NaN below; relative error below 5e-16. ln m = 2 artanh s with s = (m−1)/(m+1),
 * |s| ≤ 0.172, series to s^21, whose next term is below 2e-19 (the reduction of Cody & Waite 1980, ch. 5).
 */
export const ln = (x: number): number => {
  if (!(x > 0)) return x === 0 ? -Infinity : NaN;
  if (x === Infinity) return Infinity;
  if (x < twoToThe(EXPONENT_NORMAL_MIN)) return ln(x * twoToThe(SUBNORMAL_SHIFT)) - SUBNORMAL_SHIFT * LN2;
  let k = 0;
  let mantissa = x;
  if (x > NEAR_ONE || x < 1 / NEAR_ONE) {
    k = binaryExponent(x);
    mantissa = withoutExponent(x, k);
  }
  for (; mantissa >= 2 * SQRT_HALF; k += 1) mantissa /= 2;
  for (; mantissa < SQRT_HALF; k -= 1) mantissa *= 2;
  const f = mantissa - 1;
  const s = f / (2 + f);
  const square = s * s;
  let tail = 2 / 21;
  tail = tail * square + 2 / 19;
  tail = tail * square + 2 / 17;
  tail = tail * square + 2 / 15;
  tail = tail * square + 2 / 13;
  tail = tail * square + 2 / 11;
  tail = tail * square + 2 / 9;
  tail = tail * square + 2 / 7;
  tail = tail * square + 2 / 5;
  tail = tail * square + 2 / 3;
  // 2s = f − s·f, so the large part f is carried without rounding.
  return k * LN2_HIGH + (f - (s * (f - square * tail) - k * LN2_LOW));
};

const wholePower = (base: number, exponent: number): number => {
  let result = 1;
  let factor = base;
  for (let left = exponent; left > 0; left = Math.floor(left / 2)) {
    if (left % 2 === 1) result *= factor;
    factor *= factor;
  }
  return result;
};

/**
 * `base` to the `exponent`, base ≥ 0 (NaN below 0). Multiples of ½ up to 64 go by multiplication and √; others by
 * e^(exponent·ln base), relative error about (1 + |exponent·ln base|)·3e-16.
 */
export const power = (base: number, exponent: number): number => {
  if (exponent === 0) return 1;
  if (!(base >= 0)) return NaN;
  const size = exponent < 0 ? -exponent : exponent;
  if (size <= WHOLE_EXPONENT_MAX && Math.floor(2 * size) === 2 * size) {
    const whole = Math.floor(size);
    const positive = wholePower(base, whole) * (whole === size ? 1 : Math.sqrt(base));
    return exponent < 0 ? 1 / positive : positive;
  }
  return exp(exponent * ln(base));
};
