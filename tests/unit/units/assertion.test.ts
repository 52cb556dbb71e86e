import { describe, expect, it } from 'vitest';
import { assert, BrokenAssertion, itemAt } from '../../../src/units/assertion.ts';

describe('assert', () => {
  it('passes over what holds and throws a BrokenAssertion with its message where it does not', () => {
    expect(() => {
      assert(true, 'never said');
    }).not.toThrow();
    expect(() => {
      assert(false, 'a part without a pace');
    }).toThrow(new BrokenAssertion('a part without a pace'));
  });

  it('is told from other errors by its name, BrokenAssertion', () => {
    const error = new BrokenAssertion('x');
    expect(error).toBeInstanceOf(Error);
    expect(error.name).toBe('BrokenAssertion');
  });
});

describe('itemAt', () => {
  it('gives the items at both ends of a list of 3', () => {
    expect([itemAt(['a', 'b', 'c'], 0), itemAt(['a', 'b', 'c'], 2)]).toEqual(['a', 'c']);
  });

  it('gives items that are null, 0 or empty', () => {
    expect([itemAt([null], 0), itemAt([0], 0), itemAt([''], 0)]).toEqual([null, 0, '']);
  });

  it.each([3, -1, 0.5, Number.NaN])('throws for place %d of a list of 3', (place) => {
    expect(() => itemAt(['a', 'b', 'c'], place)).toThrow(BrokenAssertion);
  });
});
