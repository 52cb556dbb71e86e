import { describe, expect, it } from 'vitest';
import type { PlantBuild } from '../../../sim/plant/build.ts';
import { accountOf } from '../../../sim/oracle/account.ts';
import { heldShares, type Plant } from '../../../sim/plant/plant.ts';
import {
  air,
  DAY_MINUTES,
  daySky,
  HOT_DAY,
  LETTUCE,
  MINUTE,
  plantBuild,
  rested,
  START,
  steadySky,
} from '../../support/plant.ts';

const NOON = START + 12 * 60 * MINUTE;

/** A grown crop that is cut at noon of the first day; seedlings of 5 days come, or nothing. */
const replantedBuild = (plants: number, startedInPlace = false): PlantBuild => {
  const build = plantBuild([{ ...LETTUCE, ageDays: 55 }, LETTUCE]);
  const [first, ...others] = build.benches;
  const [grown] = first!.plantings;
  const young = {
    ...grown!,
    fromMillis: NOON,
    plants,
    sownMillis: NOON - 5 * DAY_MINUTES * MINUTE,
    startedInPlace,
  };
  return { ...build, benches: [{ ...first!, plantings: [grown!, young] }, ...others] };
};
const floodedTo = (plant: Plant, untilMillis: number): void => {
  for (let at = plant.state.atMillis; at < untilMillis; at += 60 * MINUTE) {
    plant.setPump(true);
    plant.advance(Math.min(untilMillis, at + 20 * MINUTE));
    plant.setPump(false);
    plant.advance(Math.min(untilMillis, at + 60 * MINUTE));
  }
};

describe('a bench that is cut and planted anew at noon', () => {
  it('holds what seedlings of 5 days hold from then on, full, and drinks next to nothing', () => {
    const plant = rested(replantedBuild(300), daySky(HOT_DAY), { tankLitres: 5000 });
    floodedTo(plant, NOON);
    const before = plant.today()[0]!.capacityLitres;
    plant.advance(NOON + MINUTE / 60);
    expect(before).toBeGreaterThan(30);
    expect(plant.today()[0]!.capacityLitres).toBeLessThan(8);
    expect(heldShares(plant)[0]).toBeGreaterThan(0.99);
    expect(plant.state.benches[0]!.harvestedLitres).toBeGreaterThan(15);
  });

  it('loses no water and no salts by it: the account holds to 1e-11 over two days, planted or left empty', () => {
    for (const plants of [300, 0]) {
      const plant = rested(replantedBuild(plants), daySky(HOT_DAY), { tankLitres: 5000 });
      const before = accountOf(plant.state);
      floodedTo(plant, START + 2 * DAY_MINUTES * MINUTE);
      const after = accountOf(plant.state);
      expect(Math.abs(after.litres / before.litres - 1)).toBeLessThan(1e-11);
      expect(Math.abs(after.salts / before.salts - 1)).toBeLessThan(1e-11);
    }
  });

  it('means the same to a plant that goes on from a copy made just before, at, and after it', () => {
    for (const copied of [NOON - MINUTE, NOON, NOON + MINUTE]) {
      const whole = rested(replantedBuild(300), daySky(HOT_DAY), { tankLitres: 5000 });
      whole.advance(copied);
      const other = whole.forked();
      whole.advance(NOON + 60 * MINUTE);
      other.advance(NOON + 60 * MINUTE);
      expect(other.state).toEqual(whole.state);
    }
  });

  it('leaves the other bench alone', () => {
    const planted = rested(replantedBuild(300), steadySky(air(24, 1.5, 300)), { tankLitres: 5000 });
    planted.advance(NOON + MINUTE);
    expect(planted.state.benches[1]!.harvestedLitres).toBe(0);
  });
});

describe('seedlings that were started in place', () => {
  const noonLoss = (startedInPlace: boolean): { drunk: number; evaporated: number; theta: number } => {
    const build = plantBuild([{ ...LETTUCE, ageDays: 4, startedInPlace }]);
    const plant = rested(build, steadySky(air(34, 2, 900)), { tankLitres: 5000 });
    plant.advance(START + 60 * MINUTE);
    const [bench] = plant.state.benches;
    return {
      drunk: bench!.drunkLitres,
      evaporated: bench!.evaporatedLitres,
      theta: heldShares(plant)[0]!,
    };
  };

  it('lose water from the wet cups as well, which grown plants set there do not', () => {
    expect(noonLoss(false).evaporated).toBe(0);
    // Some 1.1 mm in an hour of 900 W/m² over 300 cups of 16 cm²: half a litre.
    expect(noonLoss(true).evaporated).toBeGreaterThan(0.4);
    expect(noonLoss(true).evaporated).toBeLessThan(0.6);
    expect(noonLoss(true).theta).toBeLessThan(noonLoss(false).theta);
  });

  it('leave the salts behind where the air takes the water: none is taken up beyond what was drunk', () => {
    const build = plantBuild([{ ...LETTUCE, ageDays: 4, leafSquareMetresMax: 0, startedInPlace: true }]);
    const plant = rested(build, steadySky(air(34, 2, 900)), { tankLitres: 5000 });
    plant.advance(START + 60 * MINUTE);
    const [bench] = plant.state.benches;
    expect(bench!.saltsTakenUp).toBe(0);
    expect(bench!.salts / bench!.heldLitres).toBeGreaterThan(1.6);
  });

  it('take up a film with a third of the contact at first, as well as any other after 30 days', () => {
    const refill = (ageDays: number, startedInPlace: boolean): number =>
      rested(plantBuild([{ ...LETTUCE, ageDays, startedInPlace }]), steadySky(air(20, 2, 0))).today()[0]!
        .refillPerMinute;
    expect(refill(0, true) / refill(0, false)).toBeLessThan(0.4);
    expect(refill(30, true)).toBe(refill(30, false));
  });
});
