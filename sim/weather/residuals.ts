/** How far one day's highest and lowest temperature lie from their seasonal means, in standard deviations. */
export interface Residuals {
  readonly max: number;
  readonly min: number;
}

type Matrix = readonly [readonly [number, number], readonly [number, number]];

/** Correlations between highest and lowest of the same day, and of a day with the day before it (Richardson & Wright
 * 1984, WGEN, ARS-8: means over stations of the United States; from memory). The sun, third in the paper, is left out: here it
 * follows from the range. */
const SAME_DAY = 0.633;
const DAY_BEFORE: Matrix = [
  [0.621, 0.445],
  [0.563, 0.674],
];

const determinant = 1 - SAME_DAY * SAME_DAY;
/** A = M1 · M0⁻¹ with M0 = [[1, r], [r, 1]]. */
const carriedOver = (row: readonly [number, number]): readonly [number, number] => [
  (row[0] - row[1] * SAME_DAY) / determinant,
  (row[1] - row[0] * SAME_DAY) / determinant,
];
const A: Matrix = [carriedOver(DAY_BEFORE[0]), carriedOver(DAY_BEFORE[1])];

/** What is left of M0 after A · M1ᵀ: the covariance of the part that is new each day. */
const leftOver = (row: 0 | 1, column: 0 | 1): number =>
  (row === column ? 1 : SAME_DAY) - (A[row][0] * DAY_BEFORE[column][0] + A[row][1] * DAY_BEFORE[column][1]);

/** Two numbers of mean 0 with this covariance, from two independent ones: the Cholesky factor. */
const paired = (
  variance: { readonly max: number; readonly both: number; readonly min: number },
  normal: () => number,
): Residuals => {
  const root = Math.sqrt(variance.max);
  const shared = variance.both / root;
  const first = normal();
  const second = normal();
  return { max: root * first, min: shared * first + Math.sqrt(variance.min - shared * shared) * second };
};

const STATIONARY = { max: 1, both: SAME_DAY, min: 1 };
const NEW_EACH_DAY = { max: leftOver(0, 0), both: leftOver(1, 0), min: leftOver(1, 1) };

/**
 * Day after day by the lag-one multivariate model χᵢ = A χᵢ₋₁ + B εᵢ of Richardson 1981 (Water Resources Research
 * 17:182–190; from memory), begun in its stationary state.
 * @param normal gives independent numbers of mean 0 and standard deviation 1
 */
export const residualDays = (count: number, normal: () => number): readonly Residuals[] => {
  const days: Residuals[] = [];
  for (let day = 0; day < count; day += 1) {
    const before = days.at(-1);
    if (before === undefined) {
      days.push(paired(STATIONARY, normal));
      continue;
    }
    const fresh = paired(NEW_EACH_DAY, normal);
    days.push({
      max: A[0][0] * before.max + A[0][1] * before.min + fresh.max,
      min: A[1][0] * before.max + A[1][1] * before.min + fresh.min,
    });
  }
  return days;
};
