import fc from 'fast-check';
import psychrolib from 'psychrolib';
import { describe, expect, it } from 'vitest';
import {
  dewPointCelsius,
  pressureKilopascals,
  saturationVapourKilopascals,
  vapourDeficitKilopascals,
  vapourFromHumidity,
} from '../../../src/physics/vapour.ts';
import { between } from '../../support/between.ts';

psychrolib.SetUnitSystem(psychrolib.SI);
const offBy = (actual: number, expected: number): number => Math.abs(actual - expected);

/**
 * The formula of Tetens in FAO-56 lies 0.02 to 0.12 % below that of Hyland & Wexler in ASHRAE from 0 to 50 °C; below
 * 0 °C, brought from ice to water, by up to 0.22 %.
 */
const FAMILY_SHARE = { aboveZero: 0.0015, belowZero: 0.0025 } as const;
/** Below this psychrolib gives the vapour over ice. */
const TRIPLE_POINT_CELSIUS = 0.01;

/** Vapour over water that has not frozen against that over ice: Clausius–Clapeyron with the heat of melting. */
const waterOverIce = (celsius: number): number => {
  const meltingJoulesPerKilogram = 333.6e3;
  const vapourJoulesPerKilogramKelvin = 461.5;
  const inverse = 1 / (celsius + 273.15) - 1 / 273.15;
  return Math.exp((meltingJoulesPerKilogram / vapourJoulesPerKilogramKelvin) * inverse);
};

/** Its saturation over water, kPa. */
const theirs = (celsius: number): number =>
  (psychrolib.GetSatVapPres(celsius) / 1000) * (celsius < TRIPLE_POINT_CELSIUS ? waterOverIce(celsius) : 1);
const shareFor = (celsius: number): number =>
  celsius < TRIPLE_POINT_CELSIUS ? FAMILY_SHARE.belowZero : FAMILY_SHARE.aboveZero;

const anyCelsius = between(-5, 50);
const anyPercent = between(1, 100);

describe('FAO-56 against psychrolib 1.1.1 (ASHRAE 2017, Hyland & Wexler) from −5 to 50 °C', () => {
  it('saturation is theirs within 0.15 %, over water that has not frozen within 0.25 %, and never above', () => {
    fc.assert(
      fc.property(anyCelsius, (celsius) => {
        const share = saturationVapourKilopascals(celsius) / theirs(celsius);
        return offBy(share, 1) <= shareFor(celsius) && share < 1;
      }),
      { numRuns: 1000, examples: [[-5], [0], [0.01], [50]] },
    );
  });

  it('vapour and deficit from humidity are theirs within the same shares', () => {
    fc.assert(
      fc.property(anyCelsius, anyPercent, (celsius, percent) => {
        const vapour = vapourFromHumidity(celsius, percent);
        const saturated = theirs(celsius);
        const own = vapourDeficitKilopascals(celsius, vapour);
        expect(offBy(vapour / ((saturated * percent) / 100), 1)).toBeLessThanOrEqual(shareFor(celsius));
        expect(offBy(own, saturated * (1 - percent / 100))).toBeLessThanOrEqual(
          shareFor(celsius) * saturated,
        );
      }),
      { numRuns: 500 },
    );
  });

  it('vapour from humidity is that of psychrolib itself within 0.15 % where nothing freezes', () => {
    fc.assert(
      fc.property(between(0.01, 50), anyPercent, (celsius, percent) => {
        const pascals = psychrolib.GetVapPresFromRelHum(celsius, percent / 100);
        return offBy((vapourFromHumidity(celsius, percent) * 1000) / pascals, 1) <= FAMILY_SHARE.aboveZero;
      }),
      { numRuns: 500 },
    );
  });

  it('the dew point is theirs within 0.04 °C where neither dew nor air freezes', () => {
    // Either saturation is off by up to 0.12 %, but both by the same sign: 0.15 % is 0.02 °C at 0 °C, 0.03 °C at 50.
    let compared = 0;
    fc.assert(
      fc.property(anyCelsius, anyPercent, (celsius, percent) => {
        if (celsius < TRIPLE_POINT_CELSIUS) return true;
        const dew = psychrolib.GetTDewPointFromRelHum(celsius, percent / 100);
        if (dew < TRIPLE_POINT_CELSIUS) return true;
        compared += 1;
        return offBy(dewPointCelsius(vapourFromHumidity(celsius, percent)), dew) <= 0.04;
      }),
      { numRuns: 500 },
    );
    expect(compared).toBeGreaterThan(200);
  });

  it.each([
    [20, 2338.3, 2338.8],
    [30, 4243.1, 4246.0],
    [38, 6624.8, 6631.5],
  ])('FAO-56 eq. 11 and ASHRAE 2017: at %d °C one gives %d, the other %d Pa', (celsius, fao, ashrae) => {
    expect(offBy(saturationVapourKilopascals(celsius) * 1000, fao)).toBeLessThanOrEqual(0.05);
    expect(offBy(psychrolib.GetSatVapPres(celsius), ashrae)).toBeLessThanOrEqual(0.05);
  });
});

describe('the pressure of the air', () => {
  // The same law of a column of air, but from 20 °C at sea level instead of 15 °C and from 101.3 instead of 101.325 kPa.
  const warmerColumn = (metres: number): number =>
    (101.3 / 101.325) * Math.exp(0.0341632 * metres * (1 / 288.15 - 1 / 293));

  it.each([
    [0, 101_325],
    [500, 95_461],
    [1000, 89_875],
    [4000, 61_640],
  ])(
    'ASHRAE 2017 ch. 1 Table 1: at %d m it is %d Pa, in the warmer column of FAO-56 a little more',
    (metres, pascals) => {
      expect(offBy(psychrolib.GetStandardAtmPressure(metres), pascals)).toBeLessThanOrEqual(1);
      const share = (pressureKilopascals(metres) * 1000) / pascals;
      expect(offBy(share, warmerColumn(metres))).toBeLessThanOrEqual(0.0005);
    },
  );

  it('psychrolib 1.1.1: is that of the standard atmosphere within 0.4 % up to 2000 m', () => {
    fc.assert(
      fc.property(between(0, 2000), (metres) => {
        const share = (pressureKilopascals(metres) * 1000) / psychrolib.GetStandardAtmPressure(metres);
        return offBy(share, 1) <= 0.004;
      }),
    );
  });
});
