import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Judgements } from '../../sim/plant/judgements.ts';
import { oxygenAfter, oxygenLaws, saturatedOxygen } from '../../sim/plant/oxygen.ts';
import { saturatedOxygenMilligramsPerLitre } from '../../src/physics/oxygen.ts';
import { anyBenchToday, LETTUCE_TODAY } from '../support/bench-today.ts';
import { between } from '../support/between.ts';
import {
  air,
  anyJudgements,
  anyShed,
  DAY_MINUTES,
  daySky,
  flooded,
  LETTUCE,
  MINUTE,
  plantBuild,
  rested,
  START,
  steadySky,
} from '../support/plant.ts';

/** FAO-56 eq. 7 at 0 m. */
const SEA_LEVEL = 101.3;
/** All water is as warm at the start. */
const START_CELSIUS = 20;
/** Straight lines an eighth of a degree long lie above a curve that bends as saturation does by 2.6e-6 of it at most. */
const TABLE = 3e-6;
const STILL = { drainableLitres: 0, drainedLitres: 0, refilledLitres: 0, lostLitres: 0 } as const;

// Law 2 of the model, for oxygen: no step makes it negative, whatever its length, and none fills water above the air.
describe('the oxygen of a bench', () => {
  it('is never below 0 nor above what the air gives, in steps of up to 30 min', () => {
    const laws = oxygenLaws(SEA_LEVEL, 0, 1.7);
    fc.assert(
      fc.property(
        anyBenchToday,
        between(0, 1),
        between(0, 40),
        between(0, 40),
        between(0.001, 30),
        (today, theta, drainable, celsius, minutes) => {
          const held = theta * today.capacityLitres;
          const before = { drainableLitres: drainable, heldLitres: held };
          const saturated = saturatedOxygen(laws, celsius);
          const water = { ...STILL, ...before, refilledLitres: drainable / 10 };
          for (const start of [0, saturated / 2, saturated]) {
            const end = oxygenAfter(start, today, before, water, celsius, laws, minutes);
            expect(end).toBeGreaterThanOrEqual(0);
            expect(end).toBeLessThanOrEqual(saturated * (1 + 1e-12));
          }
        },
      ),
      { numRuns: 1000 },
    );
  });

  it('stays within 0 and what the coldest water of the day could hold, through a day of floods in any shed', () => {
    fc.assert(
      fc.property(anyShed, ({ benches, judgements, day, floods }) => {
        const plant = rested(plantBuild(benches, {}, judgements), daySky(day), {
          tankLitres: 20_000,
          celsius: START_CELSIUS,
        });
        // The air may warm a bench and the water keeps what it held when it was cool.
        const coldest = plant.state.benches.map(() => Infinity);
        const most = plant.state.benches.map(() => 0);
        let sound = true;
        flooded(plant, floods, DAY_MINUTES, (state) => {
          state.benches.forEach(({ oxygenMilligramsPerLitre: oxygen, waterCelsius }, place) => {
            if (waterCelsius < coldest[place]!) {
              coldest[place] = waterCelsius;
              most[place] = saturatedOxygenMilligramsPerLitre(
                Math.min(waterCelsius, START_CELSIUS),
                SEA_LEVEL,
              );
            }
            sound &&= oxygen >= 0 && oxygen <= most[place]! * (1 + TABLE);
          });
        });
        return sound;
      }),
      { numRuns: 40 },
    );
  });

  // Law 10 of the model.
  it('goes to saturation where there are no roots and no flood: to 3e-6 within two days', () => {
    fc.assert(
      fc.property(anyJudgements, between(1, 35), (judgements, celsius) => {
        const bare = plantBuild([{ ...LETTUCE, leafSquareMetresMax: 0, rootGramsMax: 0 }], {}, judgements);
        const plant = rested(bare, steadySky(air(celsius, 0.5, 0)), { celsius });
        plant.state.benches[0]!.oxygenMilligramsPerLitre = 0.1;
        plant.advance(START + 2 * DAY_MINUTES * MINUTE);
        const saturated = saturatedOxygenMilligramsPerLitre(celsius, SEA_LEVEL);
        const share = plant.state.benches[0]!.oxygenMilligramsPerLitre / saturated;
        expect(Math.abs(share - 1)).toBeLessThan(TABLE);
      }),
      { numRuns: 40 },
    );
  });

  it('comes to rest where the air gives what the roots use: kLA/v·(Cs − C) = Rm/cap·C/(Ko + C)', () => {
    // Full bench of 40 days, still water at 25 °C: the positive root of the quadratic that the equation is.
    const laws = oxygenLaws(SEA_LEVEL, 0, 1.7);
    const { capacityLitres: held } = LETTUCE_TODAY;
    const before = { drainableLitres: 0, heldLitres: held };
    let oxygen = 8;
    for (let minute = 0; minute < 2000; minute += 1)
      oxygen = oxygenAfter(oxygen, LETTUCE_TODAY, before, { ...STILL, ...before }, 25, laws, 1);
    const give = (LETTUCE_TODAY.aerationLitresPerMinute * 1.024 ** 5) / held;
    const use = LETTUCE_TODAY.respirationPerLitre;
    const saturated = saturatedOxygenMilligramsPerLitre(25, SEA_LEVEL);
    const b = give * (0.5 - saturated) + use;
    const root = (-b + Math.sqrt(b * b + 4 * give * give * 0.5 * saturated)) / (2 * give);
    expect(oxygen).toBeCloseTo(root, 4);
  });

  it('errs a quarter as much with half the step: second order', () => {
    const laws = oxygenLaws(SEA_LEVEL, 0, 1.7);
    const { capacityLitres: held } = LETTUCE_TODAY;
    const before = { drainableLitres: 0, heldLitres: held };
    const after = (steps: number): number => {
      let oxygen = 8;
      for (let step = 0; step < steps; step += 1)
        oxygen = oxygenAfter(oxygen, LETTUCE_TODAY, before, { ...STILL, ...before }, 25, laws, 16 / steps);
      return oxygen;
    };
    const fine = after(4096);
    const ratio = Math.abs(after(8) - fine) / Math.abs(after(16) - fine);
    expect(ratio).toBeGreaterThan(3.3);
    expect(ratio).toBeLessThan(4.7);
  });
});

describe('a night of 25 °C without a flood, a bench of 40 days', () => {
  it('ends anywhere between 0.1 and 8.1 mg/L over the ranges of kLA, Rm and of what of the roots breathes', () => {
    const atDawn = (judged: Partial<Judgements>): number => {
      const build = plantBuild([LETTUCE], {}, judged);
      const plant = rested(build, steadySky(air(25, 2.2, 0)), { celsius: 25 });
      plant.advance(START + 10 * 60 * MINUTE);
      return plant.state.benches[0]!.oxygenMilligramsPerLitre;
    };
    // Equation 5 by Euler steps of 0.01 min, apart from the plant: 0.238 and 7.910, and over all four 0.098 and 8.078.
    const least = { aerationLitresPerMinute: 0.3, respirationMilligrams: 5 };
    const most = { aerationLitresPerMinute: 6, respirationMilligrams: 1.5 };
    expect(atDawn(least)).toBeCloseTo(0.238, 2);
    expect(atDawn(most)).toBeCloseTo(7.91, 2);
    expect(atDawn({ ...least, rootDryShare: 0.08, rootSubmergedShare: 0.6 })).toBeCloseTo(0.098, 2);
    expect(atDawn({ ...most, rootDryShare: 0.05, rootSubmergedShare: 0.25 })).toBeCloseTo(8.078, 2);
  });
});
