import { describe, expect, it } from 'vitest';
import { seededDice } from '../../../sim/dice.ts';
import { drawnJudgements, JUDGEMENTS, type Judgements } from '../../../sim/plant/judgements.ts';
import { hangsOn, normalQuantile, rankCorrelation } from '../../../sim/run/hangs-on.ts';

const drawn = (count: number, figure: (judged: Judgements) => number, seed = 3) => {
  const dice = seededDice(seed);
  return Array.from({ length: count }, () => {
    const judgements = drawnJudgements(dice);
    return { judgements, figure: figure(judgements) };
  });
};

const named = (draws: Parameters<typeof hangsOn>[0]): ReturnType<typeof hangsOn> =>
  hangsOn(draws, JUDGEMENTS);

describe('the normal quantile', () => {
  // NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.1, and any table of the normal law (from memory).
  it.each([
    [0.5, 0],
    [0.05, 1.64485],
    [0.025, 1.95996],
    [0.005, 2.57583],
    [0.0005, 3.29053],
  ])('of a chance of %d is %d, within 4.5e-4', (chance, expected) => {
    expect(Math.abs(normalQuantile(chance) - expected)).toBeLessThan(4.5e-4);
  });
});

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
    const [first] = named(drawn(32, ({ capacityFactor }) => capacityFactor ** 3));
    expect(first).toEqual({ judgement: 'capacityFactor', rank: expect.closeTo(1, 9) as number });
    const [other] = named(drawn(32, ({ deficitWatts }) => 1 / deficitWatts));
    expect(other).toMatchObject({ judgement: 'deficitWatts', rank: expect.closeTo(-1, 9) as number });
  });

  it('puts the stronger of two first', () => {
    const found = named(
      drawn(64, ({ capacityFactor, refillPerMinute }) => 3 * capacityFactor + refillPerMinute),
    );
    expect(found.slice(0, 1).map(({ judgement }) => judgement)).toEqual(['capacityFactor']);
  });

  it('is nothing where the figure is chance: of 34 things asked any passes in one rehearsal of twenty, over 200 seeds', () => {
    let rehearsals = 0;
    for (let seed = 0; seed < 200; seed += 1) {
      const dice = seededDice(1000 + seed);
      if (named(drawn(32, () => dice(), seed)).length > 0) rehearsals += 1;
    }
    // 200 trials at 5 % at most: 10, one standard deviation 3. One in twenty for each would be 165.
    expect(rehearsals).toBeGreaterThan(0);
    expect(rehearsals).toBeLessThan(20);
  });

  it('asks less of each where it asks about fewer: 1.96/√31 of one alone, 3.18/√31 of one among 34', () => {
    const mixed = (share: number): ReturnType<typeof drawn> =>
      drawn(32, ({ refillPerMinute, capacityFactor }) => capacityFactor + share * refillPerMinute);
    const rankOf = (draws: ReturnType<typeof drawn>): number =>
      rankCorrelation(
        draws.map(({ judgements }) => judgements.refillPerMinute),
        draws.map(({ figure }) => figure),
      );
    const shares = Array.from({ length: 200 }, (_, step) => step / 20);
    const draws = shares.map(mixed).find((some) => rankOf(some) > 0.4 && rankOf(some) < 0.5)!;
    expect(hangsOn(draws, ['refillPerMinute'])).toHaveLength(1);
    expect(named(draws).map(({ judgement }) => judgement)).not.toContain('refillPerMinute');
    expect(hangsOn(draws, [])).toEqual([]);
  });

  it('is not asked of fewer than 16 draws', () => {
    expect(named(drawn(15, ({ capacityFactor }) => capacityFactor))).toEqual([]);
  });
});
