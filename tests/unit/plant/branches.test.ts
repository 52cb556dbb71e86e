import { describe, expect, it } from 'vitest';
import { flowsThrough } from '../../../sim/plant/branches.ts';
import { LETTUCE, plantBuild } from '../../support/plant.ts';

const build = plantBuild([LETTUCE, LETTUCE, LETTUCE, LETTUCE]);
const sum = (flows: readonly number[]): number => flows.reduce((total, flow) => total + flow, 0);

describe('the flow into four equal benches', () => {
  it('is the 10 L/min of each where every branch is open', () => {
    for (const flow of flowsThrough(build, [1, 1, 1, 1])) expect(flow).toBeCloseTo(10, 9);
  });

  it('gives the others more where one inlet is blocked, and less in all', () => {
    const flows = flowsThrough(build, [0, 1, 1, 1]);
    expect(flows[0]).toBe(0);
    for (const flow of flows.slice(1)) expect(flow).toBeGreaterThan(10);
    expect(sum(flows)).toBeLessThan(40);
  });

  it('lies on both curves with a branch half closed: H0 − a·Q² = z + R/s²·q² to 1e-12 of the head', () => {
    const shares = [0.5, 1, 0.9, 1];
    const flows = flowsThrough(build, shares);
    const { headMetresMax, curveCoefficient } = build.pump;
    const head = headMetresMax - curveCoefficient * sum(flows) ** 2;
    flows.forEach((flow, place) => {
      const { liftMetres, branchResistance } = build.benches[place]!;
      const needed = liftMetres + (branchResistance * flow * flow) / shares[place]! ** 2;
      expect(Math.abs(needed / head - 1)).toBeLessThan(1e-12);
    });
  });

  it('is none anywhere with all blocked', () => {
    expect(flowsThrough(build, [0, 0, 0, 0])).toEqual([0, 0, 0, 0]);
  });
});
