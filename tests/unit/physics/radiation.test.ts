import { describe, expect, it } from 'vitest';
import {
  clearSkyShare,
  clearSkyWattsPerSquareMetre,
  declinationRadians,
  extraterrestrialDailyMegajoules,
  extraterrestrialHourlyMegajoules,
  hourAngleRadians,
  inverseDistance,
  netLongwaveDailyMegajoules,
  netLongwaveHourlyMegajoules,
  netShortwave,
  sunsetAngleRadians,
} from '../../../src/physics/radiation.ts';
import { sunEvents, sunPosition } from '../../../src/physics/sun.ts';
import { daylightHours, solarFromSunshine } from '../../support/fao-day.ts';

const RADIANS = Math.PI / 180;
const offBy = (actual: number, expected: number): number => Math.abs(actual - expected);

describe('a day, by the worked examples of FAO-56', () => {
  it('FAO-56 examples 8 and 9: 20° S on day 246 has Ra 32.2 MJ/m² and 11.7 h of daylight', () => {
    expect(offBy(inverseDistance(246), 0.985)).toBeLessThanOrEqual(0.0005);
    expect(offBy(declinationRadians(246), 0.12)).toBeLessThanOrEqual(0.0005);
    const sunset = sunsetAngleRadians(-20 * RADIANS, declinationRadians(246));
    expect(offBy(sunset, 1.527)).toBeLessThanOrEqual(0.0005);
    expect(offBy(extraterrestrialDailyMegajoules(-20, 246), 32.2)).toBeLessThanOrEqual(0.05);
    expect(offBy(daylightHours(-20, 246), 11.7)).toBeLessThanOrEqual(0.05);
  });

  it('FAO-56 example 10: 22.9° S on day 135 with 7.1 h of sunshine has Ra 25.1, N 10.9 h, Rs 14.5 MJ/m²', () => {
    const extraterrestrial = extraterrestrialDailyMegajoules(-22.9, 135);
    expect(offBy(extraterrestrial, 25.1)).toBeLessThanOrEqual(0.05);
    expect(offBy(daylightHours(-22.9, 135), 10.9)).toBeLessThanOrEqual(0.05);
    const solar = solarFromSunshine(extraterrestrial, 7.1, daylightHours(-22.9, 135));
    expect(offBy(solar, 14.5)).toBeLessThanOrEqual(0.05);
  });

  it('FAO-56 example 11: 19.1–25.1 °C, 2.1 kPa and Rs/Rso 14.5/18.8 lose 3.5 MJ/m² a day by long waves', () => {
    const lost = netLongwaveDailyMegajoules({
      minCelsius: 19.1,
      maxCelsius: 25.1,
      vapourKilopascals: 2.1,
      clearnessShare: 14.5 / 18.8,
    });
    expect(offBy(lost, 3.535)).toBeLessThanOrEqual(0.05);
  });

  it('FAO-56 example 18: Uccle on day 187 has Ra 41.09, N 16.1 h, Rs 22.07, Rso 30.90, Rnl 3.71 MJ/m²', () => {
    const latitude = 50 + 48 / 60;
    expect(offBy(inverseDistance(187), 0.967)).toBeLessThanOrEqual(0.0005);
    expect(offBy(declinationRadians(187), 0.395)).toBeLessThanOrEqual(0.0005);
    const sunset = sunsetAngleRadians(latitude * RADIANS, declinationRadians(187));
    expect(offBy(sunset, 2.108)).toBeLessThanOrEqual(0.0005);
    const extraterrestrial = extraterrestrialDailyMegajoules(latitude, 187);
    expect(offBy(extraterrestrial, 41.09)).toBeLessThanOrEqual(0.01);
    expect(offBy(daylightHours(latitude, 187), 16.1)).toBeLessThanOrEqual(0.05);
    const solar = solarFromSunshine(extraterrestrial, 9.25, daylightHours(latitude, 187));
    expect(offBy(solar, 22.07)).toBeLessThanOrEqual(0.01);
    const clear = clearSkyShare(100) * extraterrestrial;
    expect(offBy(clear, 30.9)).toBeLessThanOrEqual(0.01);
    expect(offBy(netShortwave(solar), 17)).toBeLessThanOrEqual(0.01);
    const lost = netLongwaveDailyMegajoules({
      minCelsius: 12.3,
      maxCelsius: 21.5,
      vapourKilopascals: 1.409,
      clearnessShare: solar / clear,
    });
    expect(offBy(lost, 3.71)).toBeLessThanOrEqual(0.01);
  });

  // Computed with FAO-56 eq. 21, 25 and 34 clamped.
  it('FAO-56 eq. 25 clamped: 69.65° N has 24 h and Ra 42.60 MJ/m² on day 172, 0 h and Ra 0 on day 355', () => {
    expect(daylightHours(69.65, 172)).toBe(24);
    expect(offBy(extraterrestrialDailyMegajoules(69.65, 172), 42.6)).toBeLessThanOrEqual(0.01);
    expect(daylightHours(69.65, 355)).toBe(0);
    expect(extraterrestrialDailyMegajoules(69.65, 355)).toBe(0);
  });

  it('FAO-56 eq. 24 is a fit: on 17 October 2003 it gives −10.42° where the sun stood at −9.31°', () => {
    // Astronomical value computed with astronomy-engine 2.1.19.
    expect(offBy(declinationRadians(290) / RADIANS, -10.42)).toBeLessThanOrEqual(0.01);
    const astronomical = sunPosition(Date.UTC(2003, 9, 17, 19, 30, 30)).declinationRadians / RADIANS;
    expect(offBy(astronomical, -9.31)).toBeLessThanOrEqual(0.01);
  });
});

describe('the length of the day', () => {
  // Computed against astronomy-engine 2.1.19: no refraction, no disc and a fitted declination.
  it.each([
    ['Quito', -0.22, -78.5, '2024-03-20T17:21:14Z', 80, 6.5],
    ['Madrid', 40.4168, -3.7038, '2024-06-20T12:16:31Z', 172, 10.4],
    ['Greenwich', 51.4779, 0, '2025-12-21T11:58:11Z', 355, 13.9],
    ['Golden', 39.742476, -105.1786, '2003-10-17T19:00:00Z', 290, 16.4],
  ])(
    'FAO-56 eq. 34: at %s (%d, %d) on %s, day %d, it is %d min shorter than from sunrise to sunset',
    (_, latitudeDegrees, longitudeDegrees, noon, dayOfYear, minutes) => {
      const noonNearEpochMillis = Date.parse(noon);
      const { sunrise, sunset } = sunEvents({ latitudeDegrees, longitudeDegrees, noonNearEpochMillis });
      const short = (sunset - sunrise) / 60_000 - 60 * daylightHours(latitudeDegrees, dayOfYear);
      // Half of the last digit, and the second or two by which rise and set may each be off.
      expect(offBy(short, minutes)).toBeLessThanOrEqual(0.1);
    },
  );
});

describe('an hour at N’Diaye, FAO-56 example 19 (from memory, arithmetic agrees)', () => {
  const place = { latitudeDegrees: 16 + 13 / 60, longitudeDegreesEast: -16.25, dayOfYear: 274, spanHours: 1 };
  // The zone of the station is 15° W: its clock is UTC − 1 h.
  const afternoon = { ...place, utcMidHour: 15.5 };
  const night = { ...place, utcMidHour: 3.5 };

  it('FAO-56 example 19: dr 1.0001, declination −0.0753, Sc 0.1889 h, hour angle 0.682 at 14:30, −2.46 at 02:30', () => {
    expect(offBy(inverseDistance(274), 1.0001)).toBeLessThanOrEqual(0.0001);
    expect(offBy(declinationRadians(274), -0.0753)).toBeLessThanOrEqual(0.0001);
    expect(offBy(hourAngleRadians(afternoon), 0.682)).toBeLessThanOrEqual(0.002);
    expect(offBy(hourAngleRadians(night), -2.46)).toBeLessThanOrEqual(0.002);
    // Solar time less the station's clock is its 1.25° west of the zone and Sc, 0.1889 h.
    const seasonalHours = (hourAngleRadians(afternoon) * 12) / Math.PI + 12 - 14.5 + 1.25 / 15;
    expect(offBy(seasonalHours, 0.1889)).toBeLessThanOrEqual(0.0001);
    const sunset = sunsetAngleRadians(place.latitudeDegrees * RADIANS, declinationRadians(274));
    expect(offBy(sunset, 1.549)).toBeLessThanOrEqual(0.0005);
  });

  it('FAO-56 example 19: Ra is 3.543 and Rso 2.658 MJ/m² from 14 to 15 h, and 0 from 2 to 3 h', () => {
    const extraterrestrial = extraterrestrialHourlyMegajoules(afternoon);
    expect(offBy(extraterrestrial, 3.543)).toBeLessThanOrEqual(0.002);
    expect(offBy(clearSkyShare(8) * extraterrestrial, 2.658)).toBeLessThanOrEqual(0.002);
    expect(extraterrestrialHourlyMegajoules(night)).toBe(0);
  });

  it('FAO-56 example 19: 38 °C, 3.445 kPa and Rs/Rso 0.922 lose 0.137 MJ/m² in the hour by long waves', () => {
    const lost = netLongwaveHourlyMegajoules({
      airCelsius: 38,
      vapourKilopascals: 3.445,
      clearnessShare: 0.922,
    });
    expect(offBy(lost, 0.137)).toBeLessThanOrEqual(0.0005);
  });

  it('FAO-56 eq. 21 and 28: the 24 hours of day 274 add up to the daily 34.762 MJ/m² within 1e-9', () => {
    let sum = 0;
    for (let hour = 0; hour < 24; hour += 1) {
      sum += extraterrestrialHourlyMegajoules({ ...place, utcMidHour: hour + 0.5 });
    }
    expect(offBy(sum, extraterrestrialDailyMegajoules(place.latitudeDegrees, 274))).toBeLessThanOrEqual(1e-9);
    expect(offBy(sum, 34.762)).toBeLessThanOrEqual(0.0005);
  });

  it('FAO-56 eq. 21 and 28: quarter hours add up to the day within 1e-9 at any latitude and longitude', () => {
    for (const latitudeDegrees of [-69.65, -35, 0, 37.1, 69.65, 89]) {
      for (const longitudeDegreesEast of [-170, -8, 0, 95.3, 180]) {
        for (const dayOfYear of [1, 80, 172, 300, 355]) {
          let sum = 0;
          for (let quarter = 0; quarter < 96; quarter += 1) {
            const utcMidHour = (quarter + 0.5) / 4;
            const span = { latitudeDegrees, longitudeDegreesEast, dayOfYear, utcMidHour, spanHours: 0.25 };
            sum += extraterrestrialHourlyMegajoules(span);
          }
          const daily = extraterrestrialDailyMegajoules(latitudeDegrees, dayOfYear);
          expect(offBy(sum, daily)).toBeLessThanOrEqual(1e-9);
        }
      }
    }
  });
});

describe('a cloudless moment', () => {
  const madrid = { latitudeDegrees: 40.4168, longitudeDegrees: -3.7038, elevationMetres: 667 };

  it('adds up over 20 June 2024 in Madrid to the daily Rso of FAO-56 eq. 21 and 37 within 0.2 %', () => {
    // On this day the fitted declination and distance of FAO-56 lie within 0.1 % of the astronomical ones.
    let megajoules = 0;
    for (let minute = 0; minute < 1440; minute += 1) {
      const epochMillis = Date.UTC(2024, 5, 20, 0, minute, 30);
      megajoules += (clearSkyWattsPerSquareMetre({ ...madrid, epochMillis }) * 60) / 1e6;
    }
    const daily = clearSkyShare(667) * extraterrestrialDailyMegajoules(madrid.latitudeDegrees, 172);
    expect(offBy(megajoules / daily, 1)).toBeLessThanOrEqual(0.002);
  });

  it('is 0 W/m² at night and never below 0 at the edge of the day', () => {
    expect(clearSkyWattsPerSquareMetre({ ...madrid, epochMillis: Date.UTC(2024, 5, 20, 0) })).toBe(0);
    for (let minute = 0; minute < 1440; minute += 1) {
      const epochMillis = Date.UTC(2024, 5, 20, 0, minute);
      expect(clearSkyWattsPerSquareMetre({ ...madrid, epochMillis })).toBeGreaterThanOrEqual(0);
    }
  });

  it('FAO-56 eq. 23 agrees with the distance by Meeus ch. 25 within 0.4 % on every day of 2025', () => {
    for (let day = 1; day <= 365; day += 1) {
      const distance = sunPosition(Date.UTC(2025, 0, day, 12)).distanceAstronomicalUnits;
      expect(offBy(inverseDistance(day) * distance * distance, 1)).toBeLessThanOrEqual(0.004);
    }
  });

  it('takes Rs/Rso of an overcast hour as 0.33 and of a sensor that reads too high as 1', () => {
    const lost = (clearnessShare: number): number =>
      netLongwaveHourlyMegajoules({ airCelsius: 20, vapourKilopascals: 1.5, clearnessShare });
    expect(lost(0.05)).toBe(lost(0.33));
    expect(lost(1.4)).toBe(lost(1));
    expect(lost(0.33)).toBeGreaterThan(0);
  });
});
