import { describe, expect, it } from 'vitest';
import {
  clearSkyShare,
  extraterrestrialDailyMegajoules,
  netLongwaveDailyMegajoules,
  netLongwaveHourlyMegajoules,
  netShortwave,
} from '../../../src/physics/radiation.ts';
import {
  MILLIMETRES_PER_MEGAJOULE,
  referenceUptakeDailyMillimetres,
  referenceUptakeHourlyFromWeather,
  referenceUptakeHourlyMillimetres,
  windAtTwoMetres,
} from '../../../src/physics/reference-uptake.ts';
import { pressureKilopascals, vapourFromHumidity } from '../../../src/physics/vapour.ts';
import { daylightHours, solarFromSunshine, vapourFromExtremes } from '../../support/fao-day.ts';

const offBy = (actual: number, expected: number): number => Math.abs(actual - expected);

describe('wind and energy', () => {
  it('FAO-56 example 14: 3.2 m/s at 10 m is 2.393 m/s at 2 m', () => {
    expect(offBy(windAtTwoMetres(3.2, 10), 2.393)).toBeLessThanOrEqual(0.002);
  });

  it.each([
    [1, 1.178],
    [3, 0.921],
    [5, 0.838],
    [10, 0.748],
  ])('FAO-56 Table 2.9: wind at %d m is multiplied by %d', (height, factor) => {
    expect(offBy(windAtTwoMetres(1, height), factor)).toBeLessThanOrEqual(0.002);
  });

  it('FAO-56 eq. 20 and Table 3: 1 MJ/m² is 0.408 mm, and 100 W/m² for an hour 0.147 mm', () => {
    expect(offBy(MILLIMETRES_PER_MEGAJOULE, 1 / 2.45)).toBeLessThanOrEqual(0.001);
    expect(offBy(100 * 0.0036 * MILLIMETRES_PER_MEGAJOULE, 0.147)).toBeLessThanOrEqual(0.001);
    expect(offBy(0.33 * MILLIMETRES_PER_MEGAJOULE, 0.13)).toBeLessThanOrEqual(0.005);
  });
});

describe('a day', () => {
  const uccle = (windAt10m: number): number => {
    const latitude = 50 + 48 / 60;
    const day = { minCelsius: 12.3, maxCelsius: 21.5 };
    const vapourKilopascals = vapourFromExtremes({ ...day, humidityPercentMax: 84, humidityPercentMin: 63 });
    const extraterrestrial = extraterrestrialDailyMegajoules(latitude, 187);
    const solar = solarFromSunshine(extraterrestrial, 9.25, daylightHours(latitude, 187));
    const clearnessShare = solar / (clearSkyShare(100) * extraterrestrial);
    return referenceUptakeDailyMillimetres({
      ...day,
      vapourKilopascals,
      windMetresPerSecondAt2m: windAtTwoMetres(windAt10m, 10),
      netRadiationMegajoules:
        netShortwave(solar) - netLongwaveDailyMegajoules({ ...day, vapourKilopascals, clearnessShare }),
      soilHeatMegajoules: 0,
      pressureKilopascals: pressureKilopascals(100),
    });
  };

  it('FAO-56 example 18: ETo at Uccle on 6 July is 3.88 mm/day', () => {
    expect(offBy(uccle(10 / 3.6), 3.8803)).toBeLessThanOrEqual(0.005);
  });

  it('FAO-56 example 18: the wind rounded to 2.78 m/s leaves ETo at 3.88 mm/day', () => {
    expect(offBy(windAtTwoMetres(2.78, 10), 2.0793)).toBeLessThanOrEqual(0.0001);
    expect(offBy(windAtTwoMetres(10 / 3.6, 10), 2.0776)).toBeLessThanOrEqual(0.0001);
    expect(offBy(uccle(2.78), 3.88)).toBeLessThanOrEqual(0.005);
  });
});

describe('an hour', () => {
  const vapourKilopascals = vapourFromHumidity(38, 52);

  // FAO-56 example 19 from memory, arithmetic agrees.
  it('FAO-56 example 19: ETo at N’Diaye from 14 to 15 h is 0.627 mm/h with Rn 1.749 and G 0.175 MJ/m²', () => {
    const uptake = referenceUptakeHourlyMillimetres({
      airCelsius: 38,
      vapourKilopascals,
      windMetresPerSecondAt2m: 3.3,
      netRadiationMegajoules: 1.749,
      soilHeatMegajoules: 0.175,
      pressureKilopascals: pressureKilopascals(8),
    });
    expect(offBy(uptake, 0.627)).toBeLessThanOrEqual(0.005);
  });

  const afternoon = {
    airCelsius: 38,
    vapourKilopascals,
    windMetresPerSecond: 3.3,
    sunWattsPerSquareMetre: 2.45 / 0.0036,
    clearSkyWattsPerSquareMetre: 2.658 / 0.0036,
    pressureKilopascals: pressureKilopascals(8),
  };

  it('FAO-56 example 19: the same hour from 38 °C, 52 %, 3.3 m/s and 2.450 of 2.658 MJ/m² is 0.627 mm/h', () => {
    expect(offBy(referenceUptakeHourlyFromWeather(afternoon), 0.627)).toBeLessThanOrEqual(0.005);
  });

  it('is exactly 0 mm/h in a still, saturated night, where eq. 53 goes below 0', () => {
    const night = {
      airCelsius: 12,
      vapourKilopascals: vapourFromHumidity(12, 100),
      windMetresPerSecond: 0,
      sunWattsPerSquareMetre: 0,
      clearSkyWattsPerSquareMetre: 0,
      pressureKilopascals: 101.3,
    };
    expect(referenceUptakeHourlyFromWeather(night)).toBe(0);
  });

  it('in a dry, windy night still draws 0.1 to 0.2 mm/h', () => {
    const night = { ...afternoon, airCelsius: 28, vapourKilopascals: vapourFromHumidity(28, 30) };
    const uptake = referenceUptakeHourlyFromWeather({
      ...night,
      sunWattsPerSquareMetre: 0,
      clearSkyWattsPerSquareMetre: 0,
    });
    expect(uptake).toBeGreaterThan(0.1);
    expect(uptake).toBeLessThan(0.2);
  });

  it('FAO-56 ch. 4: with less than 50 W/m² of clear sky Rs/Rso counts as 0.8, from there on as measured', () => {
    const hour = (sunWattsPerSquareMetre: number, clearSky: number, clearnessShare: number): number => {
      const lost = netLongwaveHourlyMegajoules({ airCelsius: 38, vapourKilopascals, clearnessShare });
      const netRadiationMegajoules = netShortwave(sunWattsPerSquareMetre * 0.0036) - lost;
      return referenceUptakeHourlyMillimetres({
        ...afternoon,
        windMetresPerSecondAt2m: 3.3,
        netRadiationMegajoules,
        soilHeatMegajoules: (clearSky > 0 ? 0.1 : 0.5) * netRadiationMegajoules,
      });
    };
    const own = (sunWattsPerSquareMetre: number, clearSkyWattsPerSquareMetre: number): number =>
      referenceUptakeHourlyFromWeather({ ...afternoon, sunWattsPerSquareMetre, clearSkyWattsPerSquareMetre });
    expect(own(0, 0)).toBeCloseTo(hour(0, 0, 0.8), 12);
    expect(own(20, 49)).toBeCloseTo(hour(20, 49, 0.8), 12);
    expect(own(20, 50)).toBeCloseTo(hour(20, 50, 0.4), 12);
  });

  it('FAO-56 eq. 45 and 46: the soil takes 0.1 of Rn by day and gives back 0.5 by night', () => {
    // Without wind the air term falls away and ETo is proportional to Rn − G.
    const still = { ...afternoon, windMetresPerSecond: 0, sunWattsPerSquareMetre: 100 };
    const byDay = referenceUptakeHourlyFromWeather({ ...still, clearSkyWattsPerSquareMetre: 49.9 });
    const byNight = referenceUptakeHourlyFromWeather({ ...still, clearSkyWattsPerSquareMetre: 0 });
    expect(offBy(byDay / byNight, 0.9 / 0.5)).toBeLessThanOrEqual(1e-12);
  });
});
