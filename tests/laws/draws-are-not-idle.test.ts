import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { benchToday } from '../../sim/plant/bench.ts';
import { DOUBTS, type Judgement } from '../../sim/plant/judgements.ts';
import { between } from '../support/between.ts';
import { anyBench, anyDay, anyFloods, anyJudgements, plantBuild, START } from '../support/plant.ts';

/** A law that is only ever tried on seedlings in the dark holds for any plant: these draws must not be that. */
const DRAWS = 1000;
const drawn = <Value>(any: fc.Arbitrary<Value>): readonly Value[] =>
  fc.sample(any, { numRuns: DRAWS, seed: 1 });
const shareOf = <Value>(values: readonly Value[], holds: (value: Value) => boolean): number =>
  values.filter(holds).length / values.length;

describe('what the laws are tried on', () => {
  it('of 1000 numbers from −5 to 50 has over 120 in each fifth of the range', () => {
    const values = drawn(between(-5, 50));
    for (let fifth = 0; fifth < 5; fifth += 1) {
      const inFifth = shareOf(values, (value) => Math.floor((value + 5) / 11) === fifth);
      expect(inFifth).toBeGreaterThan(0.12);
    }
    expect(Math.min(...values)).toBeGreaterThanOrEqual(-5);
    expect(Math.max(...values)).toBeLessThanOrEqual(50);
  });

  it.each(Object.keys(DOUBTS) as Judgement[])('%s comes within 2 %% of both ends of its doubt', (name) => {
    const { least, most } = DOUBTS[name];
    const values = drawn(anyJudgements).map((judged) => judged[name]);
    expect(Math.min(...values)).toBeGreaterThanOrEqual(least);
    expect(Math.max(...values)).toBeLessThanOrEqual(most);
    expect(Math.min(...values)).toBeLessThan(least + 0.02 * (most - least));
    expect(Math.max(...values)).toBeGreaterThan(most - 0.02 * (most - least));
  });

  it('has a third of its benches older than 40 days, and holds under 5 and over 60 L in one bench of eight each', () => {
    const benches = drawn(anyBench);
    const held = benches.map((bench) => {
      const build = plantBuild([bench]);
      return benchToday(build.benches[0]!, build.judgements, START).capacityLitres;
    });
    expect(shareOf(benches, (bench) => bench.ageDays > 40)).toBeGreaterThan(1 / 3);
    expect(shareOf(held, (litres) => litres < 5)).toBeGreaterThan(1 / 8);
    expect(shareOf(held, (litres) => litres > 60)).toBeGreaterThan(1 / 8);
  });

  it('has a third of its days above 500 W/m², a sixth hotter than 28 °C, and days of 1 to over 20 floods', () => {
    const days = drawn(anyDay);
    const floods = drawn(anyFloods);
    expect(shareOf(days, (day) => day.sunWattsMax > 500)).toBeGreaterThan(1 / 3);
    expect(shareOf(days, (day) => day.maxCelsius > 28)).toBeGreaterThan(1 / 6);
    const counts = floods.map((some) => some.length);
    expect(Math.min(...counts)).toBe(1);
    expect(Math.max(...counts)).toBeGreaterThan(20);
  });
});
