import { describe, expect, it } from 'vitest';
import {
  flowAreaSquareMetres,
  hydraulicRadiusMetres,
  wettedAngleRadians,
  wettedPerimeterMetres,
} from '../../../src/physics/circle.ts';

const offBy = (actual: number, expected: number): number => Math.abs(actual - expected);

// Chow from memory; ratios computed from his Table 2-1.
describe('Chow 1959, geometric elements of a circle', () => {
  it.each([
    [0.1, 0.0409, 0.0635],
    [0.25, 0.1535, 0.1466],
    [0.5, 0.3927, 0.25],
    [0.75, 0.6319, 0.3017],
    [0.9, 0.7445, 0.298],
    [1.0, 0.7854, 0.25],
  ])(
    'Chow 1959 App. A: at depth %d of the diameter the area is %d D² and the radius %d D',
    (share, area, radius) => {
      expect(offBy(flowAreaSquareMetres(1, share), area)).toBeLessThanOrEqual(1e-3);
      expect(offBy(hydraulicRadiusMetres(1, share), radius)).toBeLessThanOrEqual(1e-3);
    },
  );

  it('a pipe of 0.1 m half full: angle π, wall 0.157 m', () => {
    expect(wettedAngleRadians(0.5)).toBeCloseTo(Math.PI, 12);
    expect(wettedPerimeterMetres(0.1, 0.5)).toBeCloseTo((0.1 * Math.PI) / 2, 12);
  });

  // Circle segments, computed.
  it.each([
    [0.075, 0.005, 0.127],
    [0.075, 0.01, 0.35],
    [0.075, 0.02, 0.946],
    [0.1, 0.01, 0.409],
    [0.1, 0.02, 1.118],
  ])('circle segment: a pipe of %d m with %d m of water holds %d L in a metre', (diameter, depth, litres) => {
    expect(offBy(flowAreaSquareMetres(diameter, depth / diameter) * 1000, litres)).toBeLessThanOrEqual(
      0.0006,
    );
  });

  it('the surface is the rate at which the area grows with depth, within 1e-6', () => {
    for (const share of [0.05, 0.3, 0.5, 0.8, 0.97]) {
      const step = 1e-5;
      const slope =
        (flowAreaSquareMetres(1, share + step) - flowAreaSquareMetres(1, share - step)) / (2 * step);
      // Chow 1959, Table 2-1: the width of the surface is D sin(θ/2), the chord of the circle.
      expect(offBy(slope, 2 * Math.sqrt(share * (1 - share)))).toBeLessThanOrEqual(1e-6);
    }
  });

  it('an empty pipe has area, wall and radius 0; more than full counts as full', () => {
    expect(flowAreaSquareMetres(0.1, 0)).toBe(0);
    expect(wettedPerimeterMetres(0.1, 0)).toBe(0);
    expect(hydraulicRadiusMetres(0.1, 0)).toBe(0);
    expect(flowAreaSquareMetres(0.1, 1.2)).toBe(flowAreaSquareMetres(0.1, 1));
  });
});
