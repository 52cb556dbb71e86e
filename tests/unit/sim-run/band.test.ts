import { describe, expect, it } from 'vitest';
import { bandOf, quantile } from '../../../sim/run/band.ts';

describe('a band', () => {
  it('of 1 to 21 runs from 2 to 20, its middle 11', () => {
    const values = Array.from({ length: 21 }, (_, place) => 21 - place);
    expect(bandOf(values)).toEqual({ low: 2, middle: 11, high: 20 });
  });

  it('of one run is that run', () => {
    expect(bandOf([7])).toEqual({ low: 7, middle: 7, high: 7 });
  });

  it('lies between two runs by their share: type 7 of Hyndman & Fan 1996, as R and NumPy have it', () => {
    // R: quantile(c(1, 2, 4, 8), c(.05, .5, .95)) gives 1.15, 3, 7.4; computed by hand from the definition.
    expect(quantile([1, 2, 4, 8], 0.05)).toBeCloseTo(1.15, 12);
    expect(quantile([1, 2, 4, 8], 0.5)).toBe(3);
    expect(quantile([1, 2, 4, 8], 0.95)).toBeCloseTo(7.4, 12);
  });

  it('keeps an endless value without making a mess of the others', () => {
    expect(bandOf([1, 2, Infinity])).toMatchObject({ middle: 2 });
    expect(quantile([1, Infinity, Infinity], 1)).toBe(Infinity);
  });
});
