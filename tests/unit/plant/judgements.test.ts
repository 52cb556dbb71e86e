import { describe, expect, it } from 'vitest';
import { seededDice } from '../../../sim/dice.ts';
import { CENTRAL, DOUBTS, drawnJudgements, type Judgement } from '../../../sim/plant/judgements.ts';

/** The ranges of the model's table of parameters, and its central values, for 300 plants on 72 m of channel. */
const MODEL: Readonly<Record<Judgement, readonly [least: number, central: number, most: number]>> = {
  flowFactor: [0.9, 1, 1.1],
  drainCoefficient: [0.02, 0.0395, 0.1],
  wettingLitres: [2, 5, 10],
  refillPerMinute: [0.05, 0.15, 0.3],
  capacityFactor: [0.75, 1, 1.25],
  stressTheta: [0.4, 0.5, 0.7],
  radiationShare: [0.2, 0.45, 0.6],
  deficitWatts: [10, 18, 30],
  airExchangeLitresPerMinute: [2, 3.3, 6],
  aerationLitresPerMinute: [0.3, 1.56, 6],
  respirationMilligrams: [1.5, 2.9, 5],
  respirationQ10: [1.4, 1.7, 1.75],
  // Not in the model's table: bare cups, how large the plants are, and what of the roots breathes from which water.
  cupContact: [0.15, 0.35, 0.7],
  cupSquareMetres: [0.001, 0.0016, 0.0025],
  leafFactor: [0.8, 1, 1.25],
  rootDryShare: [0.05, 0.06, 0.08],
  rootSubmergedShare: [0.25, 0.4, 0.6],
  mixingPerMinute: [0.15, 0.3, 0.6],
};
const NAMES = Object.keys(MODEL) as Judgement[];
const DRAWS = 4000;

const dice = seededDice(20_260_714);
const draws = Array.from({ length: DRAWS }, () => drawnJudgements(dice));

describe.each(NAMES)('%s', (name) => {
  const [least, central, most] = MODEL[name];
  const drawn = draws.map((judged) => judged[name]).sort((a, b) => a - b);

  it(`is doubted from ${String(least)} to ${String(most)}, and taken as ${String(central)}`, () => {
    expect(DOUBTS[name]).toEqual({ least, central, most });
    expect(CENTRAL[name]).toBe(central);
  });

  it('stays in its range in 4000 draws and comes within 1 % of both ends', () => {
    expect(drawn[0]!).toBeGreaterThanOrEqual(least);
    expect(drawn[DRAWS - 1]!).toBeLessThanOrEqual(most);
    expect(drawn[0]!).toBeLessThan(least + (most - least) / 100);
    expect(drawn[DRAWS - 1]!).toBeGreaterThan(most - (most - least) / 100);
  });

  it('lies below its central value in 47 to 53 % of the draws', () => {
    // Half of 4000 even draws, give or take 0.8 % for one standard deviation; 3 % is nearly four of them.
    const below = drawn.filter((value) => value < central).length / DRAWS;
    expect(Math.abs(below - 0.5)).toBeLessThan(0.03);
  });

  it('has half of its lower half in the lower half of that, so a half is drawn evenly', () => {
    const lower = drawn.filter((value) => value < central);
    const quarter = lower.filter((value) => value < (least + central) / 2).length / lower.length;
    // 2000 even draws: one standard deviation is 1.1 %.
    expect(Math.abs(quarter - 0.5)).toBeLessThan(0.045);
  });
});

describe('one draw', () => {
  it('is the same for the same seed and another for the next', () => {
    expect(drawnJudgements(seededDice(1))).toEqual(drawnJudgements(seededDice(1)));
    expect(drawnJudgements(seededDice(1))).not.toEqual(drawnJudgements(seededDice(2)));
  });

  it('moves each judgement by itself: no two go up and down together in 1000 draws', () => {
    for (const one of NAMES) {
      for (const other of NAMES.filter((name) => name > one)) {
        const together = draws
          .slice(0, 1000)
          .filter((judged) => judged[one] > CENTRAL[one] === judged[other] > CENTRAL[other]);
        // 500 of 1000 when they are independent, one standard deviation 16.
        expect(Math.abs(together.length - 500)).toBeLessThan(80);
      }
    }
  });
});
