import { describe, expect, it } from 'vitest';
import { seededDice } from '../../sim/dice.ts';
import { CENTRAL, drawnJudgements, type Judgements } from '../../sim/plant/judgements.ts';
import { heldShares } from '../../sim/plant/plant.ts';
import { openWater } from '../../sim/run/shed.ts';
import { bucketCard } from '../../src/estimate/bucket-card.ts';
import { hotSky } from './shed-run.ts';
import { clock, DAY, FARM } from './sheds.ts';

const MINUTE = 60_000;
const DRAWS = 64;
/** A dry edge leaves one run in twenty beyond it. */
const BELOW_SHARE_MAX = 0.05;

const CARD = bucketCard(FARM, DAY.date);
const HEAT = CARD.hours.find(({ name }) => name === 'heat')!;

/** The lowest θ of any bench from 11 to 17 h with the pump dead and the card followed to the litre and the minute. */
const lowestByBucket = (judgements: Judgements, pours: 'poured' | 'none'): number => {
  const startMillis = clock(11);
  const plant = openWater({ farm: FARM, sky: hotSky(FARM, DAY.start, 2), judgements, startMillis });
  const { benches, tank } = plant.state;
  let lowest = 1;
  for (let minute = 1; minute <= 6 * 60; minute += 1) {
    plant.advance(startMillis + minute * MINUTE);
    lowest = Math.min(lowest, ...heldShares(plant));
    if (pours === 'none') continue;
    HEAT.rounds.forEach(({ bench, channels, litresPerChannel, everyMinutes }) => {
      if (everyMinutes === null || minute % everyMinutes !== 0) return;
      const state = benches[FARM.benches.findIndex(({ name }) => name === bench)]!;
      const litres = channels * litresPerChannel;
      const salts = (tank.salts * litres) / tank.litres;
      state.drainableLitres += litres;
      state.salts += salts;
      tank.litres -= litres;
      tank.salts -= salts;
      // A pour is an event: the plant takes fine steps after it.
      plant.faultsChanged();
    });
  }
  return lowest;
};

describe('the bucket card followed through six hours of the hot day without a pump', () => {
  const dice = seededDice(5);
  const lowest = Array.from({ length: DRAWS }, () => lowestByBucket(drawnJudgements(dice), 'poured'));

  it('keeps every bench above its stress floor where the judgements are as believed', () => {
    expect(lowestByBucket(CENTRAL, 'poured')).toBeGreaterThan(FARM.floors.stress);
  });

  it(`keeps every bench above its wilt floor in 19 of 20 of ${DRAWS} plants as doubted`, () => {
    const below = lowest.filter((theta) => theta < FARM.floors.wilt);
    expect(below.length / DRAWS).toBeLessThanOrEqual(BELOW_SHARE_MAX);
  });

  it('is needed: without it the first bench falls below its wilt floor', () => {
    expect(lowestByBucket(CENTRAL, 'none')).toBeLessThan(FARM.floors.wilt);
  });

  it('names the bench that dries first at the top', () => {
    const minutes = HEAT.rounds.map(({ minutesFromFull }) => minutesFromFull);
    expect(minutes).toEqual(minutes.toSorted((a, b) => a - b));
  });
});
