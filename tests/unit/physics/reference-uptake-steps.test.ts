import { describe, expect, it } from 'vitest';
import {
  clearSkyShare,
  extraterrestrialDailyMegajoules,
  netLongwaveDailyMegajoules,
  netLongwaveHourlyMegajoules,
  netShortwave,
} from '../../../src/physics/radiation.ts';
import {
  referenceUptakeDailyMillimetres,
  referenceUptakeHourlyMillimetres,
  windAtTwoMetres,
} from '../../../src/physics/reference-uptake.ts';
import {
  meanSaturationVapourKilopascals,
  pressureKilopascals,
  psychrometricKilopascalsPerCelsius,
  saturationVapourKilopascals,
  vapourFromHumidity,
  vapourSlopeKilopascalsPerCelsius,
} from '../../../src/physics/vapour.ts';
import { daylightHours, solarFromSunshine, vapourFromExtremes } from '../../support/fao-day.ts';

const offBy = (actual: number, expected: number): number => Math.abs(actual - expected);
/** The papers print three decimals. */
const LAST_DIGIT = 0.0006;

describe('Uccle on 6 July, FAO-56 example 18, step by step', () => {
  const air = { minCelsius: 12.3, maxCelsius: 21.5 };
  const pressure = pressureKilopascals(100);
  const vapour = vapourFromExtremes({ ...air, humidityPercentMax: 84, humidityPercentMin: 63 });
  const saturation = meanSaturationVapourKilopascals(air.minCelsius, air.maxCelsius);
  const latitude = 50 + 48 / 60;
  const extraterrestrial = extraterrestrialDailyMegajoules(latitude, 187);
  const solar = solarFromSunshine(extraterrestrial, 9.25, daylightHours(latitude, 187));
  const clearnessShare = solar / (clearSkyShare(100) * extraterrestrial);
  const net =
    netShortwave(solar) - netLongwaveDailyMegajoules({ ...air, vapourKilopascals: vapour, clearnessShare });
  const uptake = (vapourKilopascals: number, netRadiationMegajoules: number): number =>
    referenceUptakeDailyMillimetres({
      ...air,
      vapourKilopascals,
      windMetresPerSecondAt2m: windAtTwoMetres(10 / 3.6, 10),
      netRadiationMegajoules,
      soilHeatMegajoules: 0,
      pressureKilopascals: pressure,
    });

  it('FAO-56 example 18: the air has 100.1 kPa, a slope of 0.122 and a γ of 0.0666 kPa/°C', () => {
    expect(offBy(pressure, 100.1)).toBeLessThanOrEqual(0.05);
    expect(offBy(vapourSlopeKilopascalsPerCelsius(16.9), 0.122)).toBeLessThanOrEqual(LAST_DIGIT);
    expect(offBy(psychrometricKilopascalsPerCelsius(pressure), 0.0666)).toBeLessThanOrEqual(0.0001);
  });

  it('FAO-56 example 18: saturation is 2.564 and 1.431, on the mean 1.997, vapour 1.409, lacking 0.589 kPa', () => {
    expect(offBy(saturationVapourKilopascals(21.5), 2.564)).toBeLessThanOrEqual(LAST_DIGIT);
    expect(offBy(saturationVapourKilopascals(12.3), 1.431)).toBeLessThanOrEqual(LAST_DIGIT);
    expect(offBy(saturation, 1.997)).toBeLessThanOrEqual(LAST_DIGIT);
    expect(offBy(vapour, 1.409)).toBeLessThanOrEqual(LAST_DIGIT);
    expect(offBy(saturation - vapour, 0.589)).toBeLessThanOrEqual(LAST_DIGIT);
  });

  it('FAO-56 example 18: Rs/Rso is 0.714, and 13.28 MJ/m² a day are kept', () => {
    expect(offBy(clearnessShare, 0.714)).toBeLessThanOrEqual(LAST_DIGIT);
    expect(offBy(net, 13.28)).toBeLessThanOrEqual(0.01);
  });

  it('FAO-56 example 18: radiation draws 2.81 mm, the air 1.07 mm, together 3.88 mm', () => {
    // In saturated air only radiation is left, and without radiation only the air.
    expect(offBy(uptake(saturation, net), 2.81)).toBeLessThanOrEqual(0.01);
    expect(offBy(uptake(vapour, 0), 1.07)).toBeLessThanOrEqual(0.01);
    expect(offBy(uptake(vapour, net), 3.88)).toBeLessThanOrEqual(0.01);
  });
});

describe('N’Diaye from 14 to 15 h, FAO-56 example 19 (from memory, arithmetic agrees), step by step', () => {
  const pressure = pressureKilopascals(8);
  const saturation = saturationVapourKilopascals(38);
  const vapour = vapourFromHumidity(38, 52);
  const solar = 2.45;
  const clearnessShare = solar / 2.658;
  const net =
    netShortwave(solar) -
    netLongwaveHourlyMegajoules({ airCelsius: 38, vapourKilopascals: vapour, clearnessShare });
  const uptake = (vapourKilopascals: number, kept: number): number =>
    referenceUptakeHourlyMillimetres({
      airCelsius: 38,
      vapourKilopascals,
      windMetresPerSecondAt2m: 3.3,
      netRadiationMegajoules: kept,
      soilHeatMegajoules: 0.1 * kept,
      pressureKilopascals: pressure,
    });

  it('FAO-56 example 19: saturation is 6.625, vapour 3.445 kPa, the slope 0.358, γ 0.0673 kPa/°C', () => {
    expect(offBy(saturation, 6.625)).toBeLessThanOrEqual(LAST_DIGIT);
    expect(offBy(vapour, 3.445)).toBeLessThanOrEqual(LAST_DIGIT);
    expect(offBy(vapourSlopeKilopascalsPerCelsius(38), 0.358)).toBeLessThanOrEqual(LAST_DIGIT);
    expect(offBy(psychrometricKilopascalsPerCelsius(pressure), 0.0673)).toBeLessThanOrEqual(0.0001);
  });

  it('FAO-56 example 19: Rs/Rso is 0.922, 1.887 MJ/m² of short waves and 1.749 in all are kept, 0.175 by the soil', () => {
    expect(offBy(clearnessShare, 0.922)).toBeLessThanOrEqual(LAST_DIGIT);
    expect(offBy(netShortwave(solar), 1.887)).toBeLessThanOrEqual(LAST_DIGIT);
    expect(offBy(net, 1.749)).toBeLessThanOrEqual(0.001);
    expect(offBy(0.1 * net, 0.175)).toBeLessThanOrEqual(LAST_DIGIT);
  });

  it('FAO-56 example 19: radiation draws 0.459 mm, the air 0.168 mm, together 0.627 mm', () => {
    expect(offBy(uptake(saturation, net), 0.459)).toBeLessThanOrEqual(0.001);
    expect(offBy(uptake(vapour, 0), 0.168)).toBeLessThanOrEqual(0.001);
    expect(offBy(uptake(vapour, net), 0.627)).toBeLessThanOrEqual(0.001);
  });
});
