import { assert } from '../../src/units/assertion.ts';

/** Of a figure over all runs: what one run in twenty undercuts, the middle, and what one in twenty exceeds. */
export interface Band {
  readonly low: number;
  readonly middle: number;
  readonly high: number;
}

const SHARES = { low: 0.05, middle: 0.5, high: 0.95 } as const;

/** The quantile of type 7 of Hyndman & Fan 1996, Am. Statistician 50:361–365: straight between the ordered values. */
export const quantile = (rising: readonly number[], share: number): number => {
  const place = share * (rising.length - 1);
  const before = rising[Math.floor(place)] ?? NaN;
  const after = rising[Math.ceil(place)] ?? NaN;
  return before === after ? before : before + (after - before) * (place - Math.floor(place));
};

/** @throws BrokenAssertion when there are no values */
export const bandOf = (values: readonly number[]): Band => {
  assert(values.length > 0, 'a band of no values');
  const rising = [...values].sort((a, b) => a - b);
  return {
    low: quantile(rising, SHARES.low),
    middle: quantile(rising, SHARES.middle),
    high: quantile(rising, SHARES.high),
  };
};
