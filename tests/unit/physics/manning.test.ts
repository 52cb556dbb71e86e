import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { flowAreaSquareMetres, hydraulicRadiusMetres } from '../../../src/physics/circle.ts';
import {
  DEPTH_SHARE_OF_MOST_FLOW,
  manningDepthMetres,
  manningLitresPerMinute,
  manningMetresPerSecond,
} from '../../../src/physics/manning.ts';
import { between } from '../../support/between.ts';

const offBy = (actual: number, expected: number): number => Math.abs(actual - expected);
const LITRES_PER_MINUTE = 60_000;
const FOOT = 0.3048;

const pipe = { diameterMetres: 0.1, slope: 0.01, roughness: 0.01 };
const flowShare = (share: number): number =>
  manningLitresPerMinute({ ...pipe, depthMetres: share * 0.1 }) /
  manningLitresPerMinute({ ...pipe, depthMetres: 0.1 });

describe('Manning’s formula in a round pipe', () => {
  // Chow from memory; ratios computed.
  it.each([
    [0.1, 0.0209, 0.401],
    [0.25, 0.137, 0.701],
    [0.5, 0.5, 1.0],
    [0.75, 0.912, 1.134],
    [0.9, 1.066, 1.124],
    [1.0, 1, 1],
  ])(
    'Chow 1959 App. A: at depth %d it carries %d of the full flow at %d of its speed',
    (share, flow, speed) => {
      expect(offBy(flowShare(share), flow)).toBeLessThanOrEqual(1e-3);
      const areaShare = flowAreaSquareMetres(1, share) / flowAreaSquareMetres(1, 1);
      expect(offBy(flowShare(share) / areaShare, speed)).toBeLessThanOrEqual(1e-3);
    },
  );

  it('Chow 1959: the most flow is 1.0757 of the full one, at depth 0.938', () => {
    expect(offBy(DEPTH_SHARE_OF_MOST_FLOW, 0.938)).toBeLessThanOrEqual(1e-3);
    expect(offBy(flowShare(DEPTH_SHARE_OF_MOST_FLOW), 1.0757)).toBeLessThanOrEqual(1e-3);
    expect(flowShare(DEPTH_SHARE_OF_MOST_FLOW)).toBeGreaterThan(flowShare(DEPTH_SHARE_OF_MOST_FLOW - 1e-3));
    expect(flowShare(DEPTH_SHARE_OF_MOST_FLOW)).toBeGreaterThan(flowShare(DEPTH_SHARE_OF_MOST_FLOW + 1e-3));
  });

  it('Mott, Applied Fluid Mechanics, ex. 14.2: 0.2 m half full, 1/1000, n 0.013 carries 5.19e-3 m³/s', () => {
    const flow = manningLitresPerMinute({
      diameterMetres: 0.2,
      depthMetres: 0.1,
      slope: 0.001,
      roughness: 0.013,
    });
    expect(offBy(flow / LITRES_PER_MINUTE / 5.19e-3, 1)).toBeLessThanOrEqual(0.005);
  });

  it('Mott, Applied Fluid Mechanics, probl. 14.12: 6 ft half full, 1/500, n 0.024 carries 51.3 ft³/s', () => {
    const flow = manningLitresPerMinute({
      diameterMetres: 6 * FOOT,
      depthMetres: 3 * FOOT,
      slope: 1 / 500,
      roughness: 0.024,
    });
    expect(offBy(flow / LITRES_PER_MINUTE / FOOT ** 3 / 51.3, 1)).toBeLessThanOrEqual(0.005);
  });

  it('Çengel & Cimbala 2006: R 0.2859 m, S 0.005236, n 0.03 flows at 1.0468 m/s, 0.5989 m³/s', () => {
    const speed = manningMetresPerSecond(0.2859, 0.005236, 0.03);
    expect(offBy(speed, 1.0468)).toBeLessThanOrEqual(1e-4);
    expect(offBy(speed * 0.5721, 0.5989)).toBeLessThanOrEqual(1e-4);
  });

  // Computed with Manning’s formula; the limit of an empty channel.
  it.each([
    [75, 1, 4.77, 0.118],
    [75, 2, 4.05, 0.093],
    [75, 3, 3.69, 0.081],
    [100, 1, 4.44, 0.123],
    [100, 2, 3.78, 0.097],
    [100, 3, 3.43, 0.084],
  ])(
    'Manning, 1.5 L/min, n 0.010: a %d mm pipe at %d %% runs %d mm deep and holds %d L/m',
    (mm, percent, deep, held) => {
      const diameterMetres = mm / 1000;
      const depth = manningDepthMetres({
        diameterMetres,
        slope: percent / 100,
        roughness: 0.01,
        litresPerMinute: 1.5,
      });
      if (depth === null) throw new Error('the pipe should carry 1.5 L/min');
      expect(offBy((depth * 1000) / deep, 1)).toBeLessThanOrEqual(0.005);
      // The volumes are given to three decimals, which is up to 0.6 % of them.
      const litres = flowAreaSquareMetres(diameterMetres, depth / diameterMetres) * 1000;
      expect(offBy(litres, held)).toBeLessThanOrEqual(0.0006);
    },
  );

  it.each([
    [1, 0.212],
    [2, 0.27],
    [3, 0.311],
  ])('Manning, 1.5 L/min, n 0.010: in a 75 mm pipe at %d %% it flows at %d m/s', (percent, speed) => {
    const depth = manningDepthMetres({
      diameterMetres: 0.075,
      slope: percent / 100,
      roughness: 0.01,
      litresPerMinute: 1.5,
    });
    if (depth === null) throw new Error('the pipe should carry 1.5 L/min');
    const area = flowAreaSquareMetres(0.075, depth / 0.075);
    expect(offBy(1.5 / LITRES_PER_MINUTE / area / speed, 1)).toBeLessThanOrEqual(0.005);
  });
});

describe('the reach of the formula', () => {
  it('definition of Re, ν 1.004e-6 m²/s: films of 1.5 L/min have 2300 to 3050, below fully turbulent flow', () => {
    for (const diameterMetres of [0.075, 0.1]) {
      for (const slope of [0.01, 0.02, 0.03]) {
        const depth = manningDepthMetres({ diameterMetres, slope, roughness: 0.01, litresPerMinute: 1.5 });
        if (depth === null) throw new Error('the pipe should carry 1.5 L/min');
        const radius = hydraulicRadiusMetres(diameterMetres, depth / diameterMetres);
        const reynolds = (4 * radius * manningMetresPerSecond(radius, slope, 0.01)) / 1.004e-6;
        expect(reynolds).toBeGreaterThan(2300);
        expect(reynolds).toBeLessThan(3050);
      }
    }
  });
});

describe('the depth of a flow', () => {
  it('finds any depth up to 0.93 diameters again from its flow within 1e-9', () => {
    fc.assert(
      fc.property(
        between(0.02, 0.3),
        between(0.001, 0.93),
        between(0.001, 0.1),
        between(0.008, 0.2),
        (diameterMetres, share, slope, roughness) => {
          const depthMetres = share * diameterMetres;
          const litresPerMinute = manningLitresPerMinute({ diameterMetres, slope, roughness, depthMetres });
          const found = manningDepthMetres({ diameterMetres, slope, roughness, litresPerMinute });
          return found !== null && offBy(found / depthMetres, 1) <= 1e-9;
        },
      ),
    );
  });

  it('is null for a flow 0.1 % above the most that the pipe carries, and a depth for 0.1 % below', () => {
    const most = manningLitresPerMinute({ ...pipe, depthMetres: DEPTH_SHARE_OF_MOST_FLOW * 0.1 });
    expect(manningDepthMetres({ ...pipe, litresPerMinute: most * 1.001 })).toBeNull();
    const below = manningDepthMetres({ ...pipe, litresPerMinute: most * 0.999 });
    expect(below).toBeGreaterThan(0.09);
    expect(below).toBeLessThan(0.09382);
  });

  it('is 0 m for a flow of 0 L/min', () => {
    expect(manningDepthMetres({ ...pipe, litresPerMinute: 0 })).toBe(0);
  });
});
