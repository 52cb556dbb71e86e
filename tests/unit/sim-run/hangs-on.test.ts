import { describe, expect, it } from 'vitest';
import { seededDice } from '../../../sim/dice.ts';
import { drawnJudgements, type Judgements } from '../../../sim/plant/judgements.ts';
import { hangsOn, rankCorrelation } from '../../../sim/run/hangs-on.ts';

const drawn = (count: number, figure: (judged: Judgements) => number, seed = 3) => {
  const dice = seededDice(seed);
  return Array.from({ length: count }, () => {
    const judgements = drawnJudgements(dice);
    return { judgements, figure: figure(judgements) };
  });
};

describe('Spearman’s rank correlation', () => {
  it('of the ten pairs of intelligence and hours of television is −29/165: the worked example in many textbooks', () => {
    // Values from memory; the sum of squared differences of rank is 194, 1 − 6·194/990.
    const quotient = [106, 100, 86, 101, 99, 103, 97, 113, 112, 110];
    const hours = [7, 27, 2, 50, 28, 29, 20, 12, 6, 17];
    expect(rankCorrelation(quotient, hours)).toBeCloseTo(-29 / 165, 12);
  });

  it('is 1 for anything that rises, −1 for what falls, 0 for what stays, and shares the rank of equals', () => {
    expect(rankCorrelation([1, 2, 3, 4], [1, 8, 27, 1000])).toBeCloseTo(1, 12);
    expect(rankCorrelation([1, 2, 3, 4], [4, 3, 2, 1])).toBeCloseTo(-1, 12);
    expect(rankCorrelation([1, 2, 3], [5, 5, 5])).toBe(0);
    expect(rankCorrelation([1, 1, 2, 2], [1, 1, 2, 2])).toBeCloseTo(1, 12);
  });
});

describe('what a figure hangs on', () => {
  it('is named first where the figure is made of one thing, whatever the curve', () => {
    const [first] = hangsOn(drawn(32, ({ capacityFactor }) => capacityFactor ** 3));
    expect(first).toEqual({ judgement: 'capacityFactor', rank: expect.closeTo(1, 9) as number });
    const [other] = hangsOn(drawn(32, ({ deficitWatts }) => 1 / deficitWatts));
    expect(other).toMatchObject({ judgement: 'deficitWatts', rank: expect.closeTo(-1, 9) as number });
  });

  it('puts the stronger of two first', () => {
    const found = hangsOn(
      drawn(64, ({ capacityFactor, refillPerMinute }) => 3 * capacityFactor + refillPerMinute),
    );
    expect(found.slice(0, 1).map(({ judgement }) => judgement)).toEqual(['capacityFactor']);
  });

  it('is nothing where the figure is chance: of 13 judgements one in twenty passes, in the mean of 40 seeds', () => {
    let passed = 0;
    for (let seed = 0; seed < 40; seed += 1) {
      const dice = seededDice(1000 + seed);
      passed += hangsOn(drawn(32, () => dice(), seed)).length;
    }
    // 40 × 13 trials at 5 %: 26, one standard deviation 5.
    expect(passed).toBeGreaterThan(10);
    expect(passed).toBeLessThan(46);
  });

  it('is not asked of fewer than 16 draws', () => {
    expect(hangsOn(drawn(15, ({ capacityFactor }) => capacityFactor))).toEqual([]);
  });
});
