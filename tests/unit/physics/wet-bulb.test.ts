import fc from 'fast-check';
import psychrolib from 'psychrolib';
import { describe, expect, it } from 'vitest';
import {
  dewPointCelsius,
  humidityPercentAt,
  saturationVapourKilopascals,
  vapourFromHumidity,
} from '../../../src/physics/vapour.ts';
import { humidityRatio, humidityRatioFromWetBulb, wetBulbCelsius } from '../../../src/physics/wet-bulb.ts';
import { between } from '../../support/between.ts';

psychrolib.SetUnitSystem(psychrolib.SI);
const offBy = (actual: number, expected: number): number => Math.abs(actual - expected);

/** FAO-56 and ASHRAE differ by up to 0.12 % in saturation; so do all vapour contents made of it. */
const FAMILY_SHARE = 0.0015;
/** 0.15 % of saturation is 0.02 °C where the curve is flattest against itself, at 50 °C (5 % a degree). */
const FAMILY_CELSIUS = 0.02;

describe('moist air as ASHRAE has it', () => {
  // Computed with psychrolib 1.1.1, 101 325 Pa.
  it.each([
    [15, 90, 0.009566, 14.01],
    [20, 50, 0.007262, 13.783],
    [20, 70, 0.010214, 16.441],
    [30, 70, 0.018795, 25.503],
    [28, 90, 0.02162, 26.64],
  ])(
    'psychrolib 1.1.1: air of %d °C and %d %% holds %d kg/kg, its wet bulb is %d °C',
    (air, rh, ratio, wet) => {
      const vapour = vapourFromHumidity(air, rh);
      expect(offBy(humidityRatio(vapour, 101.325) / ratio, 1)).toBeLessThanOrEqual(FAMILY_SHARE);
      expect(offBy(wetBulbCelsius(air, vapour, 101.325), wet)).toBeLessThanOrEqual(FAMILY_CELSIUS);
    },
  );

  it('ASHRAE 2017 ch. 1 example 1: 40 °C dry and 20 °C wet is 0.0065 kg/kg, dew at 7 °C, 14 %', () => {
    const ratio = humidityRatioFromWetBulb({ wetCelsius: 20, dryCelsius: 40, airKilopascals: 101.325 });
    // The book reads its chart to 0.0001; saturation at 20 °C is 0.02 % lower here, 3e-6 of the ratio.
    expect(offBy(ratio, 0.0065)).toBeLessThanOrEqual(0.0001 + 3e-6);
    const vapour = (101.325 * ratio) / (0.621945 + ratio);
    expect(offBy(dewPointCelsius(vapour), 7)).toBeLessThanOrEqual(0.5);
    expect(offBy(humidityPercentAt(40, vapour) / 100, 0.14)).toBeLessThanOrEqual(0.01);
  });

  it('psychrolib’s own tests: 30 °C dry, 25 °C wet at 95.461 kPa is 0.0192281 kg/kg', () => {
    const ratio = humidityRatioFromWetBulb({ wetCelsius: 25, dryCelsius: 30, airKilopascals: 95.461 });
    expect(offBy(ratio / 0.0192281, 1)).toBeLessThanOrEqual(FAMILY_SHARE);
  });

  it('psychrolib’s own tests: 7 °C and 61 % at 100 kPa has its wet bulb at 3.9267 °C', () => {
    expect(offBy(wetBulbCelsius(7, vapourFromHumidity(7, 61), 100), 3.9267)).toBeLessThanOrEqual(
      FAMILY_CELSIUS,
    );
  });
});

describe('the wet bulb of any air', () => {
  const anyAir = fc.record({
    celsius: between(-5, 50),
    humidityPercent: between(2, 100),
    airKilopascals: between(61, 105),
  });

  it('lies between the dew point and the air from −5 to 50 °C, and gives the air’s vapour back', () => {
    fc.assert(
      fc.property(anyAir, ({ celsius, humidityPercent, airKilopascals }) => {
        const vapour = vapourFromHumidity(celsius, humidityPercent);
        const wet = wetBulbCelsius(celsius, vapour, airKilopascals);
        const back = humidityRatioFromWetBulb({ wetCelsius: wet, dryCelsius: celsius, airKilopascals });
        expect(wet).toBeLessThanOrEqual(celsius);
        expect(wet).toBeGreaterThanOrEqual(dewPointCelsius(vapour) - 1e-9);
        expect(offBy(back / humidityRatio(vapour, airKilopascals), 1)).toBeLessThanOrEqual(1e-9);
      }),
      { numRuns: 500 },
    );
  });

  it('is that of psychrolib 1.1.1 within 0.02 °C where nothing freezes, 61–105 kPa', () => {
    let compared = 0;
    fc.assert(
      fc.property(anyAir, ({ celsius, humidityPercent, airKilopascals }) => {
        const theirs = psychrolib.GetTWetBulbFromRelHum(
          celsius,
          humidityPercent / 100,
          airKilopascals * 1000,
        );
        // Below 0.01 °C psychrolib speaks of ice, this project of water that has not frozen.
        if (theirs < 0.01 || celsius < 0.01) return true;
        compared += 1;
        const own = wetBulbCelsius(celsius, vapourFromHumidity(celsius, humidityPercent), airKilopascals);
        return offBy(own, theirs) <= FAMILY_CELSIUS;
      }),
      { numRuns: 500 },
    );
    expect(compared).toBeGreaterThan(300);
  });

  it('is the air’s own temperature in air that holds all it can, also over', () => {
    for (const celsius of [0, 12.5, 35]) {
      const full = saturationVapourKilopascals(celsius);
      expect(offBy(wetBulbCelsius(celsius, full, 101.325), celsius)).toBeLessThanOrEqual(1e-9);
      expect(offBy(wetBulbCelsius(celsius, 1.1 * full, 101.325), celsius)).toBeLessThanOrEqual(1e-9);
    }
  });
});
