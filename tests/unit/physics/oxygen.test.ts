import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { saltGramsPerKilogramFrom, saturatedOxygenMilligramsPerLitre } from '../../../src/physics/oxygen.ts';
import { pressureKilopascals } from '../../../src/physics/vapour.ts';
import { between } from '../../support/between.ts';

const ATMOSPHERE_KILOPASCALS = 101.325;
const MILLIMETRES_OF_MERCURY_PER_ATMOSPHERE = 760;
const offBy = (actual: number, expected: number): number => Math.abs(actual - expected);
const atOneAtmosphere = (celsius: number, salt = 0): number =>
  saturatedOxygenMilligramsPerLitre(celsius, ATMOSPHERE_KILOPASCALS, salt);

describe('oxygen of fresh water under 1 atm', () => {
  it.each([
    [0, 14.621],
    [5, 12.771],
    [10, 11.288],
    [15, 10.084],
    [20, 9.092],
    [25, 8.263],
    [30, 7.559],
    [35, 6.949],
    [40, 6.413],
  ])('Benson & Krause 1984, USGS OWQ TM 2011.03: at %d °C it is %d mg/L', (celsius, expected) => {
    expect(offBy(atOneAtmosphere(celsius), expected)).toBeLessThanOrEqual(0.002);
  });

  it.each([
    [0, 14.621],
    [10, 11.288],
    [20, 9.093],
    [25, 8.265],
    [30, 7.561],
  ])('Garcia & Gordon 1992, computed with GSW 3.6.16: at %d °C it is %d mg/L', (celsius, expected) => {
    expect(offBy(atOneAtmosphere(celsius), expected)).toBeLessThanOrEqual(0.005);
  });

  // An instrument manual's copy gives three of the values with one decimal only: they are good to half of it.
  it.each([
    [5, 12.8, 0.05],
    [10, 11.3, 0.05],
    [15, 10.1, 0.05],
    [20, 9.09, 0.01],
    [25, 8.26, 0.01],
    [30, 7.56, 0.01],
  ])('EN 25814 (ISO 5814), table: at %d °C it is %d mg/L within %d', (celsius, expected, tolerance) => {
    expect(offBy(atOneAtmosphere(celsius), expected)).toBeLessThanOrEqual(tolerance);
  });
});

describe('oxygen of water with salts', () => {
  // The standard takes one slope for all of 0–35 g/kg; the fall itself is steepest in fresh water.
  it.each([
    [10, 0.0632],
    [20, 0.0475],
    [25, 0.0421],
    [30, 0.0371],
  ])('EN 25814: at %d °C each g/kg up to 35 takes %d mg/L', (celsius, expected) => {
    const slope = (atOneAtmosphere(celsius) - atOneAtmosphere(celsius, 35)) / 35;
    expect(offBy(slope, expected)).toBeLessThanOrEqual(0.002);
  });

  it.each([
    [1500, 20, 0.84, 9.047],
    [2000, 20, 1.123, 9.032],
    [2000, 25, 1.123, 8.211],
  ])('USGS OWQ TM 2011.03: %d µS/cm at %d °C counts as %d g/kg and holds %d mg/L', (ec, at, salt, oxygen) => {
    expect(offBy(saltGramsPerKilogramFrom(ec), salt)).toBeLessThanOrEqual(0.001);
    expect(offBy(atOneAtmosphere(at, saltGramsPerKilogramFrom(ec)), oxygen)).toBeLessThanOrEqual(0.003);
  });

  it('USGS OWQ TM 2011.03: 1500 µS/cm leaves 0.9951 of it at 20 °C', () => {
    const share = atOneAtmosphere(20, saltGramsPerKilogramFrom(1500)) / atOneAtmosphere(20);
    expect(offBy(share, 0.9951)).toBeLessThanOrEqual(0.0001);
  });
});

describe('oxygen under less air', () => {
  it.each([
    [700, 20, 8.358],
    [700, 25, 7.59],
    [640, 20, 7.624],
    [640, 25, 6.917],
  ])('USGS OWQ TM 2011.03: under %d mm of mercury at %d °C it is %d mg/L', (millimetres, at, expected) => {
    const kilopascals = (millimetres / MILLIMETRES_OF_MERCURY_PER_ATMOSPHERE) * ATMOSPHERE_KILOPASCALS;
    expect(offBy(saturatedOxygenMilligramsPerLitre(at, kilopascals), expected)).toBeLessThanOrEqual(0.003);
  });

  it('Dalton’s law: falls faster than the pressure, and by less than the pressure beyond the vapour', () => {
    // Vapour keeps its share, so (P − u)/(1 − u) is below P; θ moves it by less than 0.1 % more.
    for (const celsius of [0, 20, 40]) {
      const share = saturatedOxygenMilligramsPerLitre(celsius, 80) / atOneAtmosphere(celsius);
      expect(share).toBeLessThan(80 / ATMOSPHERE_KILOPASCALS);
      expect(share).toBeGreaterThan((80 - 7.4) / (ATMOSPHERE_KILOPASCALS - 7.4));
    }
  });
});

describe('oxygen of any water', () => {
  const celsius = between(0, 50);
  const metres = between(0, 4000);
  const salt = between(0, 40);
  const more = between(0.01, 1);

  it('is less the warmer it is, the higher the shed stands and the more salts it holds; never below 0', () => {
    fc.assert(
      fc.property(celsius, metres, salt, more, (at, height, dissolved, by) => {
        const held = saturatedOxygenMilligramsPerLitre(at, pressureKilopascals(height), dissolved);
        const warmer = saturatedOxygenMilligramsPerLitre(at + by, pressureKilopascals(height), dissolved);
        const higher = saturatedOxygenMilligramsPerLitre(
          at,
          pressureKilopascals(height + 100 * by),
          dissolved,
        );
        const saltier = saturatedOxygenMilligramsPerLitre(at, pressureKilopascals(height), dissolved + by);
        return Math.min(warmer, higher, saltier) > 0 && Math.max(warmer, higher, saltier) < held;
      }),
      { numRuns: 500 },
    );
  });

  it('is 0 and not below where the vapour alone fills the air: 97 °C under 90 kPa and 102 °C under 110', () => {
    expect(saturatedOxygenMilligramsPerLitre(97, 90)).toBe(0);
    expect(saturatedOxygenMilligramsPerLitre(102, 110)).toBe(0);
  });
});
