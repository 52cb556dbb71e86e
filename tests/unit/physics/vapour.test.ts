import psychrolib from 'psychrolib';
import { describe, expect, it } from 'vitest';
import {
  dewPointCelsius,
  humidityPercentAt,
  meanSaturationVapourKilopascals,
  pressureKilopascals,
  psychrometricKilopascalsPerCelsius,
  saturationVapourKilopascals,
  vapourDeficitKilopascals,
  vapourFromHumidity,
  vapourSlopeKilopascalsPerCelsius,
} from '../../../src/physics/vapour.ts';
import { vapourFromExtremes } from '../../support/fao-day.ts';

const offBy = (actual: number, expected: number): number => Math.abs(actual - expected);

describe('the worked examples and tables of FAO-56', () => {
  // Table 2.3 and eq. 11; 18, 19.5 and 24.5 °C as examples 3–5 have them.
  it.each([
    [1, 0.657],
    [5, 0.872],
    [10, 1.228],
    [15, 1.705],
    [18, 2.064],
    [19.5, 2.267],
    [20, 2.338],
    [24.5, 3.075],
    [25, 3.168],
    [30, 4.243],
    [35, 5.623],
    [40, 7.376],
  ])('FAO-56 Table 2.3: air of %d °C is saturated at %d kPa', (airCelsius, expected) => {
    expect(offBy(saturationVapourKilopascals(airCelsius), expected)).toBeLessThanOrEqual(0.0006);
  });

  // 16.9 and 30.2 °C from examples 18 and 17.
  it.each([
    [1, 0.047],
    [15, 0.11],
    [16.9, 0.122],
    [20, 0.145],
    [25, 0.189],
    [30, 0.243],
    [30.2, 0.246],
    [40, 0.393],
  ])('FAO-56 Table 2.4: the curve rises at %d °C by %d kPa/°C', (airCelsius, expected) => {
    expect(offBy(vapourSlopeKilopascalsPerCelsius(airCelsius), expected)).toBeLessThanOrEqual(0.0006);
  });

  it.each([
    [0, 101.3, 0.067],
    [100, 100.1, 0.0666],
    [1200, 87.9, 0.058],
    [1800, 81.8, 0.054],
    [3000, 70.5, 0.047],
  ])('FAO-56 Tables 2.1 and 2.2: %d m above the sea has %d kPa and %d kPa/°C', (metres, air, gamma) => {
    expect(offBy(pressureKilopascals(metres), air)).toBeLessThanOrEqual(0.05);
    const psychrometric = psychrometricKilopascalsPerCelsius(pressureKilopascals(metres));
    expect(offBy(psychrometric, gamma)).toBeLessThanOrEqual(0.0005);
  });

  it('FAO-56 example 3: a day of 15.0 to 24.5 °C has a mean saturation of 2.39 kPa, not 2.30', () => {
    expect(offBy(meanSaturationVapourKilopascals(15, 24.5), 2.39)).toBeLessThanOrEqual(0.005);
    expect(offBy(saturationVapourKilopascals(19.75), 2.3)).toBeLessThanOrEqual(0.005);
  });

  it('FAO-56 example 5: 18–25 °C and 82–54 % humidity is a vapour pressure of 1.70 kPa', () => {
    const vapour = vapourFromExtremes({
      minCelsius: 18,
      maxCelsius: 25,
      humidityPercentMax: 82,
      humidityPercentMin: 54,
    });
    expect(offBy(vapour, 1.7)).toBeLessThanOrEqual(0.005);
  });

  it('FAO-56 example 5: a mean humidity of 68 % over 18–25 °C is a vapour pressure of 1.78 kPa', () => {
    expect(offBy(0.68 * meanSaturationVapourKilopascals(18, 25), 1.78)).toBeLessThanOrEqual(0.005);
  });
});

describe('moist air as ASHRAE has it (psychrolib 1.1.1)', () => {
  psychrolib.SetUnitSystem(psychrolib.SI);

  // The two families of saturation formulas differ by up to 0.12 % between 5 and 50 °C: one family per module, so
  // agreement is asked to 0.15 %, which is 0.02 °C of dew point and 0.15 % of saturation for the deficit.
  const familyShare = 0.0015;

  // Values computed with psychrolib; 5, 25 and 50 °C from ASHRAE 2017 Fundamentals ch. 1 Table 3.
  it.each([
    [5, 872.6],
    [15, 1705.4],
    [20, 2338.8],
    [25, 3169.7],
    [28, 3782.2],
    [30, 4246.0],
    [38, 6631.5],
    [50, 12351.3],
  ])('ASHRAE 2017: at %d °C saturation is %d Pa within 0.15 %%', (airCelsius, pascals) => {
    expect(offBy((saturationVapourKilopascals(airCelsius) * 1000) / pascals, 1)).toBeLessThanOrEqual(
      familyShare,
    );
    expect(offBy(psychrolib.GetSatVapPres(airCelsius) / pascals, 1)).toBeLessThanOrEqual(3e-4);
  });

  it.each([
    [15, 90, 13.374, 170.5],
    [20, 50, 9.272, 1169.4],
    [20, 70, 14.367, 701.6],
    [30, 70, 23.928, 1273.8],
    [28, 90, 26.204, 378.2],
  ])(
    'psychrolib: air of %d °C and %d %% has its dew point at %d °C and lacks %d Pa',
    (air, humidity, dew, lack) => {
      const vapour = vapourFromHumidity(air, humidity);
      expect(offBy(dewPointCelsius(vapour), dew)).toBeLessThanOrEqual(0.02);
      expect(offBy(vapourDeficitKilopascals(air, vapour) * 1000, lack) / lack).toBeLessThanOrEqual(
        familyShare,
      );
      expect(offBy(psychrolib.GetTDewPointFromRelHum(air, humidity / 100), dew)).toBeLessThanOrEqual(0.001);
    },
  );
});

describe('the ends of the scale', () => {
  it('takes the dew point back to its vapour pressure from −30 to 50 °C within 1e-12', () => {
    for (let celsius = -30; celsius <= 50; celsius += 2.5) {
      const back = dewPointCelsius(saturationVapourKilopascals(celsius));
      expect(offBy(back, celsius)).toBeLessThanOrEqual(1e-12 * (Math.abs(celsius) + 237.3));
    }
  });

  it('has a deficit of 0 kPa and a humidity of 100 % in air that holds more than saturation', () => {
    expect(vapourDeficitKilopascals(20, 2.5)).toBe(0);
    expect(humidityPercentAt(20, 2.5)).toBe(100);
  });

  it('finds 63 % humidity again from its vapour pressure', () => {
    expect(humidityPercentAt(27, vapourFromHumidity(27, 63))).toBeCloseTo(63, 12);
  });

  it('gives air without any vapour the dew point of 0.001 kPa, −64 °C', () => {
    expect(dewPointCelsius(0)).toBe(dewPointCelsius(0.001));
    expect(offBy(dewPointCelsius(0), -64.27)).toBeLessThanOrEqual(0.02);
  });
});
