import { describe, expect, it } from 'vitest';
import { canopyCover, grownShare, rootGrams } from '../../../src/physics/growth.ts';

const traits = { leafSquareMetresMax: 0.4, rootGramsMax: 40, halfGrownDays: 41, growthPerDay: 0.19 };

describe('growth of one plant', () => {
  it('logistic curve: 20 g of root at 41 days, half of 40 g', () => {
    expect(rootGrams(41, traits)).toBe(20);
  });

  it('logistic curve: ln 9 / 0.19 days before and after the half it stands at 0.1 and 0.9', () => {
    const days = Math.log(9) / 0.19;
    expect(grownShare(41 - days, 41, 0.19)).toBeCloseTo(0.1, 12);
    expect(grownShare(41 + days, 41, 0.19)).toBeCloseTo(0.9, 12);
  });

  it('grows on every day and stays between 0 and 1 from 0 to 200 days', () => {
    for (let age = 1; age <= 200; age += 1) {
      expect(grownShare(age, 41, 0.19)).toBeGreaterThan(grownShare(age - 1, 41, 0.19));
      expect(grownShare(age, 41, 0.19)).toBeLessThan(1);
    }
    expect(grownShare(0, 41, 0.19)).toBeGreaterThan(0);
  });

  it('Monsi & Saeki 1953: a leaf area index of ln 2 / 0.64 catches half of the light, none catches 0', () => {
    expect(canopyCover(Math.log(2) / 0.64, 0.64)).toBeCloseTo(0.5, 12);
    expect(canopyCover(0, 0.64)).toBe(0);
  });
});
