import { describe, expect, it } from 'vitest';
import { ageDays, benchToday } from '../../../sim/plant/bench.ts';
import { CENTRAL, type Judgements } from '../../../sim/plant/judgements.ts';
import { waterStep } from '../../../sim/plant/water.ts';
import { heldMillilitresMax } from '../../../src/physics/holding.ts';
import { LETTUCE, MINUTE, plantBuild, START, type BenchFacts } from '../../support/plant.ts';

const today = (facts: Partial<BenchFacts>): ReturnType<typeof benchToday> =>
  benchToday(plantBuild([{ ...LETTUCE, ...facts }]).benches[0]!, CENTRAL, START);

describe('what one plant holds', () => {
  it('is 25 mL without roots, 75 mL with 20 g of them and 125 mL with 40 g', () => {
    // The model: 20 mL cup, 5 mL film, 1.5 mL in each gram of root and 1 mL pooled behind it.
    expect(heldMillilitresMax(0)).toBe(25);
    expect(heldMillilitresMax(20)).toBe(75);
    expect(heldMillilitresMax(40)).toBe(125);
  });
});

describe('a bench at its age', () => {
  it('holds 22.5 L with 300 plants at the age of half their size, and stresses at 11.25 L', () => {
    const half = today({ ageDays: 41 });
    expect(half.capacityLitres).toBeCloseTo(22.5, 9);
    expect(half.stressLitres).toBeCloseTo(11.25, 9);
  });

  it('holds 26 mL a plant at 18 days and 70 mL at 40 days, as the trial of the model says', () => {
    expect(Math.abs(today({ ageDays: 18 }).capacityLitres / 0.3 - 26)).toBeLessThan(1);
    expect(Math.abs(today({ ageDays: 40 }).capacityLitres / 0.3 - 70)).toBeLessThan(1);
  });

  it('drinks 41 mL an hour a plant at 40 days in the noon of the trial: 900 W/m², 34 °C, 2.13 kPa short', () => {
    // 60 % humidity at 34 °C leaves 0.4 · 5.32 kPa; FAO-56 eq. 11 for the saturation.
    const { canopy } = today({ ageDays: 40 });
    const open = 0.35 + (0.65 * 900) / 950;
    const litres = canopy.litresPerMinutePerWatt * 900 + canopy.litresPerMinutePerKilopascal * 2.13 * open;
    expect(Math.abs((litres * 60_000) / 300 - 41)).toBeLessThan(1.5);
  });

  it('twice as large drains twice the flow at twice the water', () => {
    const one = { ...today({}), refillPerMinute: 0 };
    const two = { ...today({ channelMetres: 144, plants: 600 }), refillPerMinute: 0 };
    const small = waterStep(one, 15, 10, 8, 0, 0.5);
    const large = waterStep(two, 30, 20, 16, 0, 0.5);
    expect(large.drainedLitres).toBeCloseTo(2 * small.drainedLitres, 10);
    expect(two.wettingLitres).toBe(2 * one.wettingLitres);
    expect(two.pipeLitres).toBe(2 * one.pipeLitres);
    expect(two.airExchangeLitresPerMinute).toBe(2 * one.airExchangeLitresPerMinute);
    expect(two.sunWarming).toBe(2 * one.sunWarming);
  });

  it('is warmed by the sun less and less as the canopy closes, to three tenths of a bare one', () => {
    const warming = [0, 20, 40, 60].map((age) => today({ ageDays: age }).sunWarming);
    expect(warming).toEqual([...warming].sort((a, b) => b - a));
    expect(warming[0]!).toBeLessThanOrEqual(0.037);
    expect(warming[3]!).toBeGreaterThan(0.3 * 0.037);
    expect(warming[3]!).toBeLessThan(0.35 * 0.037);
  });

  it('has leaves, open cups, breathing roots and mixing in proportion to what is doubted of them', () => {
    const build = plantBuild([{ ...LETTUCE, ageDays: 12, startedInPlace: true }]).benches[0]!;
    const usual = benchToday(build, CENTRAL, START);
    const times = (change: Partial<Judgements>): ReturnType<typeof benchToday> =>
      benchToday(build, { ...CENTRAL, ...change }, START);
    const leafy = times({ leafFactor: 1.25 });
    expect(leafy.canopy.litresPerMinutePerKilopascal).toBeCloseTo(
      1.25 * usual.canopy.litresPerMinutePerKilopascal,
      12,
    );
    expect(leafy.wetCupSquareMetres).toBeLessThan(usual.wetCupSquareMetres);
    expect(leafy.capacityLitres).toBe(usual.capacityLitres);
    const { wetCupSquareMetres } = times({ cupSquareMetres: 0.0008 });
    expect(wetCupSquareMetres).toBeCloseTo(usual.wetCupSquareMetres / 2, 12);
    const rooted = times({ rootDryShare: 0.03, rootSubmergedShare: 0.6 });
    expect(rooted.respirationPerLitre).toBeCloseTo(0.75 * usual.respirationPerLitre, 12);
    expect(times({ mixingPerMinute: 0.6 }).mixingPerMinute).toBe(2 * usual.mixingPerMinute);
  });

  it('with no plants holds what one cup holds and drinks nothing', () => {
    const empty = today({ plants: 0 });
    expect(empty.capacityLitres).toBeGreaterThan(0);
    expect(empty.canopy.litresPerMinutePerWatt).toBe(0);
    expect(empty.canopy.litresPerMinutePerKilopascal).toBe(0);
  });

  it('is 0 days old on a day before it is sown', () => {
    const build = plantBuild([{ ...LETTUCE, ageDays: -3 }]).benches[0]!.plantings[0]!;
    expect(ageDays(build, START)).toBe(0);
    expect(ageDays(build, START + 4 * 24 * 60 * MINUTE)).toBe(1);
  });
});
