import { assert, itemAt } from '../../src/units/assertion.ts';

const MONTHS = 12;
/** Each step at least halves the error. */
const STEPS = 60;

const around = (values: readonly number[], place: number): number =>
  itemAt(values, ((place % MONTHS) + MONTHS) % MONTHS);

/**
 * A curve through the year of which each month has the mean asked for: straight lines from mid-month to mid-month, whose
 * corners are moved until it has (Sheng & Zwiers 1998, Climate Dynamics 14:609–613; from memory). Lines
 * through the means themselves would cut the warmest and the coldest month.
 * @returns the value at `month` 0–11 and a share 0–1 of the way through it
 * @throws BrokenAssertion when there are not twelve means
 */
export const monthCurve = (means: readonly number[]): ((month: number, share: number) => number) => {
  assert(means.length === MONTHS, `a year of ${means.length} months`);
  let corners = means;
  for (let step = 0; step < STEPS; step += 1) {
    const before = corners;
    // The mean over one month of the two lines that meet at its middle.
    const meanOf = (place: number): number =>
      (6 * around(before, place) + around(before, place - 1) + around(before, place + 1)) / 8;
    corners = before.map((corner, place) => corner + itemAt(means, place) - meanOf(place));
  }
  return (month, share) => {
    const own = around(corners, month);
    const neighbour = around(corners, share < 0.5 ? month - 1 : month + 1);
    return own + (neighbour - own) * Math.abs(share - 0.5);
  };
};
