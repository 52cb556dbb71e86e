import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  beliefAtStart,
  dried,
  lossPerMinute,
  moved,
  wetFrom,
  wetUntil,
  type Belief,
} from '../../../src/estimate/belief.ts';
import type { BenchFacts } from '../../../src/estimate/bench-facts.ts';
import { exampleFarm } from '../../support/farm.ts';
import { minute } from '../../support/moments.ts';
import { between } from '../../support/between.ts';

const STRESS = 0.5;

const bench = (litresPerMillimetre: number, planted = true): BenchFacts => ({
  name: `drinks ${litresPerMillimetre}`,
  planted,
  ageDays: 40,
  capacityLitres: 20,
  litresPerMillimetre,
});

const beliefOf = (...thetas: readonly number[]): Belief => ({
  at: minute(0),
  benches: thetas.map((theta) => ({ theta, thetaLow: theta })),
  wet: null,
});

describe('drying', () => {
  it('falls in a straight line down to the stress floor: 0.9 − 30 min × 0.01 = 0.6', () => {
    expect(dried(0.9, 0.01, STRESS, 30)).toBeCloseTo(0.6, 12);
  });

  // FAO-56 eq. 84: below the stress floor uptake falls in proportion, so θ = stress · e^(−loss·t/stress).
  it('goes on below it as an exponential: 0.5 · e^(−0.01 × 50 / 0.5) after 50 min from the floor', () => {
    expect(dried(0.5, 0.01, STRESS, 50)).toBeCloseTo(0.5 * Math.exp(-1), 9);
    expect(dried(0.9, 0.01, STRESS, 90)).toBeCloseTo(0.5 * Math.exp(-1), 9);
    expect(dried(0.3, 0.01, STRESS, 50)).toBeCloseTo(0.3 * Math.exp(-1), 9);
  });

  it('in two spans is as in one, never below 0, and less the longer and thirstier', () => {
    const share = between(0, 1);
    const loss = between(0, 0.2);
    const span = between(0, 600);
    fc.assert(
      fc.property(share, loss, span, span, (theta, perMinute, first, second) => {
        const whole = dried(theta, perMinute, STRESS, first + second);
        const halves = dried(dried(theta, perMinute, STRESS, first), perMinute, STRESS, second);
        expect(halves).toBeCloseTo(whole, 9);
        expect(whole).toBeGreaterThanOrEqual(0);
        expect(whole).toBeLessThanOrEqual(dried(theta, perMinute, STRESS, first) + 1e-12);
        expect(dried(theta, perMinute * 1.1, STRESS, first)).toBeLessThanOrEqual(
          dried(theta, perMinute, STRESS, first) + 1e-12,
        );
      }),
    );
  });

  it('20 L that lose 15 L for each of 0.8 mm/h lose 0.01 of themselves a minute; an empty bench nothing', () => {
    expect(lossPerMinute(bench(15), 0.8)).toBeCloseTo((15 * 0.8) / 60 / 20, 12);
    expect(lossPerMinute(bench(15, false), 0.8)).toBe(0);
  });
});

describe('the belief at the start', () => {
  it('takes each of 4 benches as half way between wilt 0.2 and stress 0.5', () => {
    const belief = beliefAtStart(exampleFarm, minute(7));
    expect(belief.benches).toHaveLength(4);
    for (const { theta, thetaLow } of belief.benches) {
      expect([theta, thetaLow]).toEqual([0.35, 0.35]);
    }
    expect([belief.at, belief.wet]).toEqual([minute(7), null]);
  });
});

describe('moving the belief', () => {
  it('uptake of 0.8 mm/h lowers both edges in 30 min, the dry one as 1.4·0.8 + 0.045 mm/h from 0.75 of the water', () => {
    const [{ theta, thetaLow }] = moved(beliefOf(0.98), [bench(12)], 0.8, STRESS, minute(30)).benches as [
      { theta: number; thetaLow: number },
    ];
    expect(0.98 - theta).toBeCloseTo((30 * 12 * 0.8) / 60 / 20, 9);
    expect(0.98 - thetaLow).toBeCloseTo((30 * 12 * (1.4 * 0.8 + 0.045)) / 60 / (0.75 * 20), 9);
  });

  it('a flood of 20 min raises both edges, the dry one less', () => {
    const wet = wetUntil(wetFrom(beliefOf(0.4), minute(5)), minute(25));
    const { theta, thetaLow } = moved(wet, [bench(12)], 0.8, STRESS, minute(30)).benches[0]!;
    expect(theta).toBeGreaterThan(0.7);
    expect(thetaLow).toBeGreaterThan(0.4);
    expect(thetaLow).toBeLessThan(theta);
  });

  it('counts each minute of water once, however the looks fall', () => {
    const wet = wetUntil(wetFrom(beliefOf(0.4), minute(3)), minute(21));
    const once = moved(wet, [bench(0)], 0.8, STRESS, minute(30)).benches[0]!;
    // Without uptake what is missing shrinks by e^(−0.13 t) over the 18 min of water.
    expect(once.theta).toBeCloseTo(1 - 0.6 * Math.exp(-0.13 * 18), 9);
    let often = wet;
    for (let now = 1; now <= 30; now += 1) often = moved(often, [bench(0)], 0.8, STRESS, minute(now));
    expect(often.benches[0]!.theta).toBeCloseTo(once.theta, 9);
  });

  it('keeps the order of the benches: the thirstiest is driest, and turning them round turns the belief round', () => {
    const facts = [bench(4), bench(16), bench(8)];
    const forth = moved(beliefOf(0.9, 0.9, 0.9), facts, 0.8, STRESS, minute(60)).benches;
    expect([...forth].sort((a, b) => a.theta - b.theta)).toEqual([forth[1], forth[2], forth[0]]);
    const back = moved(beliefOf(0.9, 0.9, 0.9), facts.toReversed(), 0.8, STRESS, minute(60)).benches;
    expect(back).toEqual(forth.toReversed());
  });

  it('to a moment that has passed changes nothing', () => {
    const belief = { ...beliefOf(0.9), at: minute(60) };
    expect(moved(belief, [bench(12)], 0.8, STRESS, minute(30))).toEqual(belief);
  });

  it('over a gap of a week ends, and stays between 0 and 1', () => {
    const { theta, thetaLow } = moved(beliefOf(1), [bench(12)], 0.8, STRESS, minute(7 * 1440)).benches[0]!;
    expect(theta).toBeGreaterThanOrEqual(0);
    expect(thetaLow).toBeLessThanOrEqual(theta);
  });

  it('the dry edge is never above the likely value, and both stay between 0 and 1, whatever comes', () => {
    const act = fc.record({
      minutes: between(0, 90),
      millimetresPerHour: between(0, 1.6),
      water: fc.constantFrom('starts', 'stops', 'as it is'),
    });
    const start = between(0, 1);
    fc.assert(
      fc.property(start, between(0, 30), fc.array(act), (theta, litres, acts) => {
        let belief = beliefOf(theta);
        for (const { minutes, millimetresPerHour, water } of acts) {
          if (water === 'starts') belief = wetFrom(belief, belief.at);
          if (water === 'stops') belief = wetUntil(belief, belief.at);
          const now = minute(belief.at / 60_000 + minutes);
          belief = moved(belief, [bench(litres)], millimetresPerHour, STRESS, now);
          const [edge] = belief.benches;
          expect(edge!.thetaLow).toBeLessThanOrEqual(edge!.theta + 1e-12);
          expect(edge!.thetaLow).toBeGreaterThanOrEqual(0);
          expect(edge!.theta).toBeLessThanOrEqual(1);
        }
      }),
    );
  });
});

describe('the stretch of water', () => {
  it('stays open at its first moment while water goes on being seen', () => {
    const wet = wetFrom(wetFrom(beliefOf(0.5), minute(5)), minute(9));
    expect(wet.wet).toEqual({ from: minute(5), until: null });
  });

  it('closes once, and a later stop does not lengthen it', () => {
    const wet = wetUntil(wetUntil(wetFrom(beliefOf(0.5), minute(5)), minute(9)), minute(20));
    expect(wet.wet).toEqual({ from: minute(5), until: minute(9) });
  });

  it('no water seen before any was changes nothing', () => {
    expect(wetUntil(beliefOf(0.5), minute(9)).wet).toBeNull();
  });
});
