import { describe, expect, it } from 'vitest';
import { gaussian, seededDice } from '../../../sim/dice.ts';

const row = (seed: number, count: number): readonly number[] => {
  const dice = seededDice(seed);
  return Array.from({ length: count }, dice);
};

describe('seeded dice', () => {
  it('give the same 100 numbers for the same seed and others for the next', () => {
    expect(row(7, 100)).toEqual(row(7, 100));
    expect(row(7, 100)).not.toEqual(row(8, 100));
  });

  it('lie in [0, 1), their mean within 0.01 of a half in 10,000', () => {
    const all = row(3, 10_000);
    expect(Math.min(...all)).toBeGreaterThanOrEqual(0);
    expect(Math.max(...all)).toBeLessThan(1);
    // One standard deviation of the mean is 1/√(12·10,000) = 0.0029.
    expect(Math.abs(all.reduce((sum, one) => sum + one, 0) / all.length - 0.5)).toBeLessThan(0.01);
  });
});

describe('the first numbers of the seeds 0 to 999', () => {
  it.each([0, 1, 2])('number %d is spread over [0, 1) as any other is, not by its seed', (place) => {
    const firsts = Array.from({ length: 1000 }, (_, seed) => row(seed, place + 1)[place]!);
    const mean = firsts.reduce((sum, one) => sum + one, 0) / firsts.length;
    const tenths = Array.from({ length: 10 }, (_, tenth) =>
      firsts.filter((one) => Math.floor(one * 10) === tenth),
    );
    // One standard deviation of the mean is 0.009; of a tenth's count of 100 it is 9.5.
    expect(Math.abs(mean - 0.5)).toBeLessThan(0.04);
    for (const tenth of tenths) expect(Math.abs(tenth.length - 100)).toBeLessThan(40);
  });
});

describe('the normal distribution of Box and Muller', () => {
  const dice = seededDice(11);
  const all = Array.from({ length: 10_000 }, () => gaussian(dice));
  const share = (within: number): number => all.filter((one) => Math.abs(one) < within).length / all.length;

  it('has 68.3 % within one and 95.4 % within two standard deviations, to 1.5 % in 10,000', () => {
    // One standard deviation of the first share is 0.5 %.
    expect(Math.abs(share(1) - 0.683)).toBeLessThan(0.015);
    expect(Math.abs(share(2) - 0.954)).toBeLessThan(0.015);
  });

  it('has a mean within 0.04 of 0 and is finite also where the dice show 0', () => {
    expect(Math.abs(all.reduce((sum, one) => sum + one, 0) / all.length)).toBeLessThan(0.04);
    expect(Math.abs(gaussian(() => 0))).toBe(0);
    expect(Number.isFinite(gaussian(() => 1 - 2 ** -53))).toBe(true);
  });
});
