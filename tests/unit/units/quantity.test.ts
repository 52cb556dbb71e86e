import { describe, expect, it } from 'vitest';
import { celsius, litres, minus, plus, scaled, seconds } from '../../../src/units/quantity.ts';

const MAKERS = { seconds, litres, celsius };

describe('making a quantity', () => {
  for (const [name, make] of Object.entries(MAKERS)) {
    it(`${name} keeps 0, −3.5 and 1e300 as they are`, () => {
      expect([make(0), make(-3.5), make(1e300)]).toEqual([0, -3.5, 1e300]);
    });

    it.each([Number.NaN, Infinity, -Infinity])(`${name} refuses %d`, (value) => {
      expect(() => make(value)).toThrow(RangeError);
    });
  }

  it('says what was expected and what was found', () => {
    expect(() => litres(Number.NaN)).toThrow('expected a finite number of litres, found NaN');
    expect(() => celsius(Infinity)).toThrow('expected a finite number of degrees Celsius, found Infinity');
    expect(() => seconds(-Infinity)).toThrow('expected a finite number of seconds, found -Infinity');
  });
});

describe('reckoning within one unit', () => {
  it('adds, takes away and scales: 40 L + 2.5 L, 40 L − 2.5 L, 40 L × 0.25', () => {
    expect(plus(litres(40), litres(2.5))).toBe(42.5);
    expect(minus(litres(40), litres(2.5))).toBe(37.5);
    expect(scaled(litres(40), 0.25)).toBe(10);
  });

  // The type check fails where one of these is allowed.
  it('the compiler refuses litres plus seconds, less seconds, and bare numbers', () => {
    // @ts-expect-error two units have no sum
    expect(plus(litres(1), seconds(2))).toBe(3);
    // @ts-expect-error two units have no difference
    expect(minus(litres(3), seconds(2))).toBe(1);
    // @ts-expect-error a bare number has no unit
    expect(plus(litres(1), 2)).toBe(3);
  });
});
