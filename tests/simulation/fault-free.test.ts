import { describe, expect, it } from 'vitest';
import { seededDice } from '../../sim/dice.ts';
import { drawnJudgements } from '../../sim/plant/judgements.ts';
import { HOUR, lowestTheta, runShed, timesRaised, told } from './shed-run.ts';
import { DAY, FARM, shedWith } from './sheds.ts';

const CLIMATES = {
  'hot and dry': { minCelsius: 21, maxCelsius: 36, humidityPercent: 45 },
  mild: { minCelsius: 14, maxCelsius: 25, humidityPercent: 65 },
  'warm and humid': { minCelsius: 24, maxCelsius: 33, humidityPercent: 75 },
};

/** Invariants I1 and I2: an alarm without a cause is a breach, and so is a flood without a verdict. */
describe('thirty days without a fault, with the noise of cheap sensors', () => {
  for (const [climate, hotDay] of Object.entries(CLIMATES)) {
    it(`raises no alarm and confirms every flood in ten days that are ${climate}`, () => {
      const farm = shedWith([['hotDay'], hotDay]);
      for (const seed of [1, 2, 3, 4, 5]) {
        const run = runShed({ farm, fromMillis: DAY.start, untilMillis: DAY.start + 48 * HOUR, seed });
        expect(timesRaised(run)).toEqual({});
        const verdicts = told(run, 'verdict');
        expect(verdicts.filter(({ verdict }) => verdict.kind !== 'confirmed')).toEqual([]);
        expect(told(run, 'flood-started').length - verdicts.length).toBeLessThanOrEqual(1);
        expect(verdicts.length).toBeGreaterThan(20);
        expect(lowestTheta(run)).toBeGreaterThan(farm.floors.stress);
      }
    });
  }

  it('raises no alarm either in ten sheds whose unmeasured parameters are drawn from their doubt', () => {
    const dice = seededDice(20260714);
    for (let draw = 0; draw < 10; draw += 1) {
      const judgements = drawnJudgements(dice);
      const run = runShed({
        farm: FARM,
        fromMillis: DAY.start,
        untilMillis: DAY.end,
        seed: draw,
        judgements,
      });
      expect(timesRaised(run)).toEqual({});
      expect(lowestTheta(run)).toBeGreaterThan(FARM.floors.wilt);
    }
  });
});
