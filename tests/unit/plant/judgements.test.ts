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
  // The model has these central values without a range.
  extinction: [0.5, 0.64, 0.8],
  openShareInDark: [0.15, 0.35, 0.6],
  halfOpenWatts: [20, 50, 120],
  aheadDays: [-5, 0, 5],
  growthFactor: [0.8, 1, 1.25],
  rootFactor: [0.6, 1, 1.4],
  rootGramsInFilm: [0.5, 1.5, 3],
  pipeLitres: [8, 16, 24],
  sunWarming: [0.02, 0.037, 0.06],
  sunWarmingShaded: [0.5, 0.7, 0.9],
  tankExchangeLitresPerMinute: [0.08, 0.25, 0.6],
  saltUptake: [1, 1.6, 2.2],
  saltHalfStrength: [0.2, 0.5, 1],
  oxygenHalf: [0.2, 0.5, 1],
  floodSaturation: [0.8, 0.95, 1],
  // Its equation 1 names all three.
  drainExponent: [1, 1.5, 2],
};
const ALL = Object.keys(MODEL) as Judgement[];
const NAMES = ALL.filter((name) => name !== 'drainExponent');
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

describe('drainExponent', () => {
  it('is doubted as 1, 1.5 or 2 and nothing between, and taken as 1.5', () => {
    expect(DOUBTS.drainExponent).toEqual({ least: 1, central: 1.5, most: 2, onlyThese: true });
    expect(CENTRAL.drainExponent).toBe(1.5);
    expect(new Set(draws.map(({ drainExponent }) => drainExponent))).toEqual(new Set([1, 1.5, 2]));
  });

  it('is 1 and 2 in a quarter of 4000 draws each, within 3 %', () => {
    for (const law of [1, 2]) {
      const drawn = draws.filter(({ drainExponent }) => drainExponent === law).length / DRAWS;
      // One standard deviation is 0.7 %.
      expect(Math.abs(drawn - 0.25)).toBeLessThan(0.03);
    }
  });
});

describe('one draw', () => {
  it('doubts everything that is judged: no judgement is without a range', () => {
    expect(Object.keys(DOUBTS).toSorted()).toEqual(ALL.toSorted());
    for (const name of ALL) {
      expect(DOUBTS[name].least).toBeLessThan(DOUBTS[name].central);
      expect(DOUBTS[name].central).toBeLessThan(DOUBTS[name].most);
    }
  });

  it('is the same for the same seed and another for the next', () => {
    expect(drawnJudgements(seededDice(1))).toEqual(drawnJudgements(seededDice(1)));
    expect(drawnJudgements(seededDice(1))).not.toEqual(drawnJudgements(seededDice(2)));
  });

  it('moves each judgement by itself: no two go up and down together in 1000 draws', () => {
    for (const one of ALL) {
      for (const other of ALL.filter((name) => name > one)) {
        const together = draws
          .slice(0, 1000)
          .filter((judged) => judged[one] > CENTRAL[one] === judged[other] > CENTRAL[other]);
        // 500 of 1000 when they are independent, one standard deviation 16.
        expect(Math.abs(together.length - 500)).toBeLessThan(80);
      }
    }
  });
});
