import { describe, expect, it } from 'vitest';
import { moved, type Belief } from '../../../src/estimate/belief.ts';
import type { BenchFacts } from '../../../src/estimate/bench-facts.ts';
import { relived, type WetSpan } from '../../../src/estimate/relived.ts';
import { minute } from '../../support/moments.ts';

const FACTS: readonly BenchFacts[] = [
  { name: 'Bench 1', planted: true, ageDays: 30, capacityLitres: 20, litresPerMillimetre: 12 },
];
const STRESS = 0.5;
const LOST: Belief = {
  at: minute(0),
  benches: [{ theta: 0.9, thetaLow: 0.8 }],
  wet: { from: minute(-5), until: null },
};
const span = (from: number, until: number): WetSpan => ({ from: minute(from), until: minute(until) });
const uptake = (): number => 0.6;
const at = (spans: readonly WetSpan[], now: number): Belief =>
  relived(LOST, spans, FACTS, uptake, STRESS, minute(now));
const theta = ({ benches }: Belief): number => benches[0]!.theta;

describe('a belief that is lived once more', () => {
  it('without water is the same as one that dried all the while', () => {
    const dried = moved({ ...LOST, wet: null }, FACTS, 0.6, STRESS, minute(60));
    expect(theta(at([], 60))).toBeCloseTo(theta(dried), 12);
    expect(at([], 60)).toMatchObject({ at: minute(60), wet: null });
  });

  it('with water from 20 to 40 min is the same as one that was told of it then', () => {
    const before = moved({ ...LOST, wet: null }, FACTS, 0.6, STRESS, minute(20));
    const wet = moved({ ...before, wet: span(20, 40) }, FACTS, 0.6, STRESS, minute(40));
    const after = moved({ ...wet, wet: null }, FACTS, 0.6, STRESS, minute(60));
    expect(theta(at([span(20, 40)], 60))).toBeCloseTo(theta(after), 12);
    expect(at([span(20, 40)], 60).benches[0]!.thetaLow).toBeCloseTo(after.benches[0]!.thetaLow, 12);
  });

  it('is wetter for a second flood, and for a later one', () => {
    expect(theta(at([span(20, 40), span(80, 100)], 120))).toBeGreaterThan(theta(at([span(20, 40)], 120)));
    expect(theta(at([span(80, 100)], 120))).toBeGreaterThan(theta(at([span(20, 40)], 120)));
  });

  it('dries by the uptake of each moment: all of it in the second half is all that counts', () => {
    const late = relived(LOST, [], FACTS, (when) => (when < minute(60) ? 0 : 1.2), STRESS, minute(120));
    const dried = moved({ ...LOST, at: minute(60), wet: null }, FACTS, 1.2, STRESS, minute(120));
    expect(theta(late)).toBeCloseTo(theta(dried), 12);
  });

  it('goes on wet where the last water still drains, and takes no water of the future', () => {
    expect(at([span(50, 65)], 60).wet).toEqual(span(50, 65));
    expect(theta(at([span(70, 90)], 60))).toBeCloseTo(theta(at([], 60)), 12);
  });
});
