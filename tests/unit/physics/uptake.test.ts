import { describe, expect, it } from 'vitest';
import {
  canopyResponse,
  leafOpenShare,
  uptakeLitresPerMinute,
  type Canopy,
} from '../../../src/physics/uptake.ts';

const offBy = (actual: number, expected: number): number => Math.abs(actual - expected);

/** 16 plants on one square metre, LAI 3, with illustrative coefficients: this tests code, not crops. */
const squareMetre = {
  plants: 16,
  plantsPerSquareMetre: 16,
  leafSquareMetresPerPlant: 3 / 16,
  radiationShare: 0.5,
  extinction: 0.7,
  deficitWatts: 20,
  openShareInDark: 0.35,
  halfOpenWatts: 50,
};
/** What a canopy drinks at a sun in W/m² and a deficit in kPa, L/min. */
const drunk = (canopy: Canopy, sun: number, deficit: number): number =>
  uptakeLitresPerMinute(canopyResponse(canopy), sun, deficit);
/** L/min on a square metre back to the W/m² that evaporate them. */
const watts = (litresPerMinute: number): number => (litresPerMinute * 2.45e6) / 60;

describe('the form of Baille, Baille & Laury 1994 (from memory)', () => {
  const wattsAt = (sunWattsPerSquareMetre: number, vapourDeficitKilopascals: number): number =>
    watts(drunk(squareMetre, sunWattsPerSquareMetre, vapourDeficitKilopascals));

  it('Baille form, A 0.5, K 0.7, LAI 3: 300 W/m² of sun in saturated air evaporates 131.6 W/m²', () => {
    expect(offBy(wattsAt(300, 0), 131.6)).toBeLessThanOrEqual(0.05);
  });

  it('Baille form, B 20, LAI 3: a deficit of 1.2 kPa adds 72.0 W/m² with open leaves, 203.6 in all', () => {
    const bySun = wattsAt(300, 0);
    const byAir = (wattsAt(300, 1.2) - bySun) / leafOpenShare(squareMetre, 300);
    expect(offBy(byAir, 72)).toBeLessThanOrEqual(0.05);
    expect(offBy(bySun + byAir, 203.6)).toBeLessThanOrEqual(0.05);
  });

  it('FAO-56 eq. 20: 203.6 W/m² for an hour is 0.299 L on a square metre', () => {
    const response = canopyResponse(squareMetre);
    const openLeaves = response.litresPerMinutePerWatt * 300 + response.litresPerMinutePerKilopascal * 1.2;
    expect(offBy(openLeaves * 60, 0.299)).toBeLessThanOrEqual(0.0005);
  });

  it('in the dark the deficit term is 0.35 of its full size, at 50 W/m² 0.675', () => {
    expect(offBy(wattsAt(0, 1.2), 0.35 * 72)).toBeLessThanOrEqual(1e-9);
    expect(leafOpenShare(squareMetre, 50)).toBeCloseTo(0.675, 12);
  });

  it('leaves that are open to 0.2 in the dark and half open at 100 W/m² of sun lose 0.6 of it there', () => {
    const slow = { ...squareMetre, openShareInDark: 0.2, halfOpenWatts: 100 };
    const byAir = (sun: number): number => watts(drunk(slow, sun, 1.2) - drunk(slow, sun, 0));
    expect(byAir(0)).toBeCloseTo(0.2 * 72, 9);
    expect(byAir(100)).toBeCloseTo(0.6 * 72, 9);
  });

  it('twice the plants at the same spacing drink twice as much', () => {
    const once = drunk(squareMetre, 620, 2.1);
    const twice = drunk({ ...squareMetre, plants: 32 }, 620, 2.1);
    expect(twice / once).toBeCloseTo(2, 12);
  });

  it('is 0 L/min for a bench without plants and for leaves of 0 m²', () => {
    expect(drunk({ ...squareMetre, plants: 0 }, 620, 2.1)).toBe(0);
    expect(drunk({ ...squareMetre, leafSquareMetresPerPlant: 0 }, 620, 2.1)).toBe(0);
  });
});
