import { assert } from './assertion.ts';

/** The middle value; of an even number the mean of the middle two. @throws BrokenAssertion when there are none */
export const median = (values: readonly number[]): number => {
  const sorted = [...values].sort((a, b) => a - b);
  const upper = sorted[Math.floor(sorted.length / 2)];
  const lower = sorted[Math.ceil(sorted.length / 2) - 1];
  assert(upper !== undefined && lower !== undefined, 'the median of no values');
  return (lower + upper) / 2;
};
