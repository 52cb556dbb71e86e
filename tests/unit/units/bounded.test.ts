import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bounded } from '../../../src/units/bounded.ts';

describe('bounded', () => {
  it.each([
    [5, 10],
    [10, 10],
    [17, 17],
    [75, 75],
    [90, 75],
    [Infinity, 75],
    [-Infinity, 10],
  ])('moves %d to %d when 10 to 75 is allowed', (value, expected) => {
    expect(bounded(value, 10, 75)).toBe(expected);
  });

  it('never leaves its bounds, and keeps what lies inside', () => {
    const number = fc.double({ noNaN: true });
    fc.assert(
      fc.property(number, number, number, (value, one, other) => {
        const [least, most] = [Math.min(one, other), Math.max(one, other)];
        const kept = bounded(value, least, most);
        expect(kept >= least && kept <= most).toBe(true);
        if (value >= least && value <= most) expect(kept).toBe(value);
      }),
    );
  });
});
