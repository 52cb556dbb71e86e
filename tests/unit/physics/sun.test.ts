import { Body, Equator, Horizon, Observer, SearchRiseSet } from 'astronomy-engine';
import { describe, expect, it } from 'vitest';
import { sunEvents, sunPosition } from '../../../src/physics/sun.ts';
import { sunElevationRadians } from '../../support/sun-elevation.ts';

const DEGREES = 180 / Math.PI;
const DAY = 86_400_000;
const offBy = (actual: number, expected: number): number => Math.abs(actual - expected);

/** Height without refraction, by astronomy-engine. */
const engineElevationDegrees = (epochMillis: number, latitude: number, longitude: number): number => {
  const observer = new Observer(latitude, longitude, 0);
  const at = new Date(epochMillis);
  const place = Equator(Body.Sun, at, observer, true, true);
  return Horizon(at, observer, place.ra, place.dec).altitude;
};

describe('Meeus, Astronomical Algorithms 1998 (examples from memory, arithmetic agrees)', () => {
  const sun = sunPosition(Date.UTC(1992, 9, 13));

  it('Meeus example 25.a: on 1992-10-13 at 0 h the declination is −7.78507° and the distance 0.99766', () => {
    expect(offBy(sun.declinationRadians * DEGREES, -7.78507)).toBeLessThanOrEqual(1e-5);
    expect(offBy(Math.asin(sun.declinationSine) * DEGREES, -7.78507)).toBeLessThanOrEqual(1e-5);
    expect(offBy(sun.distanceAstronomicalUnits, 0.99766)).toBeLessThanOrEqual(1e-5);
  });

  it('Meeus example 25.a: longitude 199.90895°, obliquity 23.43999°, right ascension 198.38083°', () => {
    const turned = (degrees: number): number => degrees - 360 * Math.floor(degrees / 360);
    expect(offBy(turned(sun.longitudeRadians * DEGREES), 199.90895)).toBeLessThanOrEqual(1e-5);
    expect(offBy(sun.obliquityRadians * DEGREES, 23.43999)).toBeLessThanOrEqual(1e-5);
    expect(offBy(turned(sun.rightAscensionRadians * DEGREES), 198.38083)).toBeLessThanOrEqual(1e-5);
  });

  it('Meeus example 28.b: the equation of time at that instant is +13 min 42.7 s', () => {
    expect(offBy(sun.equationOfTimeMinutes * 60, 13 * 60 + 42.7)).toBeLessThanOrEqual(0.1);
  });
});

describe('sunrise, noon and sunset', () => {
  /** Local clock of the same calendar day as UTC milliseconds. */
  const clock = (date: string, offsetHours: number, time: string): number =>
    Date.parse(`${date}T${time}Z`) - offsetHours * 3_600_000;

  // Computed with astronomy-engine 2.1.19; suncalc 2.0.2 gives the same second.
  it.each([
    ['Quito', -0.22, -78.5, '2024-03-20', -5, '06:17:59', '12:21:14', '18:24:29', 0.235],
    ['Madrid', 40.4168, -3.7038, '2024-06-20', 1, '05:44:40', '13:16:31', '20:48:22', 23.437],
    ['Greenwich', 51.4779, 0, '2025-12-21', 0, '08:03:11', '11:58:11', '15:53:10', -23.44],
  ])(
    'astronomy-engine: %s (%d, %d) on %s at UTC%d: %s, %s, %s within 30 s, declination %d°',
    (_name, latitudeDegrees, longitudeDegrees, date, offset, rise, noon, set, declination) => {
      const noonNearEpochMillis = clock(date, offset, '12:00:00');
      const events = sunEvents({ latitudeDegrees, longitudeDegrees, noonNearEpochMillis });
      expect(events.kind).toBe('rises');
      expect(offBy(events.sunrise, clock(date, offset, rise))).toBeLessThanOrEqual(30_000);
      expect(offBy(events.noon, clock(date, offset, noon))).toBeLessThanOrEqual(30_000);
      expect(offBy(events.sunset, clock(date, offset, set))).toBeLessThanOrEqual(30_000);
      const atNoon = sunPosition(events.noon).declinationRadians * DEGREES;
      expect(offBy(atNoon, declination)).toBeLessThanOrEqual(0.01);
    },
  );

  it('NREL/TP-560-34302 Table A5.1: Golden on 2003-10-17 sees the sun rise at 06:12:43 within 30 s', () => {
    const events = sunEvents({
      latitudeDegrees: 39.742476,
      longitudeDegrees: -105.1786,
      noonNearEpochMillis: clock('2003-10-17', -7, '12:00:00'),
    });
    expect(offBy(events.sunrise, clock('2003-10-17', -7, '06:12:43'))).toBeLessThanOrEqual(30_000);
  });

  const tromso = { latitudeDegrees: 69.6492, longitudeDegrees: 18.9553 };

  it('astronomy-engine: Tromsø has no sun on 2025-12-21; rise and set collapse onto noon at 11:42:20', () => {
    const near = clock('2025-12-21', 1, '12:00:00');
    const events = sunEvents({ ...tromso, noonNearEpochMillis: near });
    expect(events.kind).toBe('never-rises');
    expect(offBy(events.noon, clock('2025-12-21', 1, '11:42:20'))).toBeLessThanOrEqual(30_000);
    expect([events.sunrise, events.sunset]).toEqual([events.noon, events.noon]);
  });

  it('astronomy-engine: Tromsø has sun all of 2025-06-21; noon 11:46:01, the day runs between midnights', () => {
    const near = clock('2025-06-21', 1, '12:00:00');
    const events = sunEvents({ ...tromso, noonNearEpochMillis: near });
    expect(events.kind).toBe('never-sets');
    expect(offBy(events.noon, clock('2025-06-21', 1, '11:46:01'))).toBeLessThanOrEqual(30_000);
    expect(offBy(events.noon - events.sunrise, DAY / 2)).toBeLessThanOrEqual(30_000);
    expect(offBy(events.sunset - events.noon, DAY / 2)).toBeLessThanOrEqual(30_000);
  });

  // Published with refraction: 89.55, 73.03, 15.14, −2.46 and 43.80°; compared here without it.
  it.each([
    [-0.22, -78.5, '2024-03-20T17:21:14Z'],
    [40.4168, -3.7038, '2024-06-20T12:16:31Z'],
    [51.4779, 0, '2025-12-21T11:58:11Z'],
    [69.6492, 18.9553, '2025-12-21T10:42:20Z'],
    [69.6492, 18.9553, '2025-06-21T10:46:01Z'],
    [39.742476, -105.1786, '2003-10-17T19:30:30Z'],
  ])(
    'astronomy-engine: the height of the sun at %d, %d on %s agrees within 0.01°',
    (latitude, longitude, at) => {
      const epochMillis = Date.parse(at);
      const own = sunElevationRadians(epochMillis, latitude, longitude) * DEGREES;
      // Seen from the surface instead of the centre of the Earth the sun stands up to 0.0024° lower.
      expect(offBy(own, engineElevationDegrees(epochMillis, latitude, longitude))).toBeLessThanOrEqual(0.01);
    },
  );

  it('astronomy-engine: every tenth day of 2025 from 60° S to 60° N rises and sets within 30 s', () => {
    let compared = 0;
    let worst = 0;
    for (let latitude = -60; latitude <= 60; latitude += 15) {
      for (let day = 0; day < 365; day += 10) {
        const longitude = ((day * 37) % 360) - 180;
        const noonNearEpochMillis = Date.UTC(2025, 0, 1 + day, 12) - longitude * 240_000;
        const own = sunEvents({
          latitudeDegrees: latitude,
          longitudeDegrees: longitude,
          noonNearEpochMillis,
        });
        const observer = new Observer(latitude, longitude, 0);
        const rise = SearchRiseSet(Body.Sun, observer, 1, new Date(own.noon - DAY / 2), 1);
        const set = SearchRiseSet(Body.Sun, observer, -1, new Date(own.noon), 1);
        if (rise === null || set === null) throw new Error(`no sun at ${latitude} on day ${day}`);
        worst = Math.max(
          worst,
          offBy(own.sunrise, rise.date.getTime()),
          offBy(own.sunset, set.date.getTime()),
        );
        compared += 2;
      }
    }
    expect(compared).toBe(9 * 37 * 2);
    expect(worst).toBeLessThanOrEqual(30_000);
  });

  it('puts the centre of the disc at −0.833° at both ends (Meeus ch. 15)', () => {
    const latitudeDegrees = 37.1;
    const longitudeDegrees = -8;
    for (let day = 0; day < 365; day += 7) {
      const noonNearEpochMillis = Date.UTC(2026, 0, 1 + day, 12);
      const events = sunEvents({ latitudeDegrees, longitudeDegrees, noonNearEpochMillis });
      for (const instant of [events.sunrise, events.sunset]) {
        const height = sunElevationRadians(instant, latitudeDegrees, longitudeDegrees) * DEGREES;
        expect(offBy(height, -0.833)).toBeLessThanOrEqual(1e-5);
      }
    }
  });

  it('answers for the nearest noon: 11 h before and after it are the same day, 13 h are the next ones', () => {
    const at = (noonNearEpochMillis: number): number =>
      sunEvents({ latitudeDegrees: 37.1, longitudeDegrees: -8, noonNearEpochMillis }).noon;
    const noon = at(Date.UTC(2026, 6, 14, 12));
    expect(offBy(at(noon - 11 * 3_600_000), noon)).toBeLessThanOrEqual(1);
    expect(offBy(at(noon + 11 * 3_600_000), noon)).toBeLessThanOrEqual(1);
    expect(offBy(at(noon + 13 * 3_600_000) - noon, DAY)).toBeLessThanOrEqual(30_000);
    expect(offBy(noon - at(noon - 13 * 3_600_000), DAY)).toBeLessThanOrEqual(30_000);
  });

  it('orders midnight, sunrise, noon and sunset on every day from pole to pole', () => {
    const kinds = new Set<string>();
    for (let latitudeDegrees = -90; latitudeDegrees <= 90; latitudeDegrees += 5) {
      for (let day = 0; day < 365; day += 5) {
        const noonNearEpochMillis = Date.UTC(2026, 0, 1 + day, 12);
        const events = sunEvents({ latitudeDegrees, longitudeDegrees: 0, noonNearEpochMillis });
        kinds.add(events.kind);
        const bounds = [
          events.noon - DAY / 2 - 60_000,
          events.sunrise,
          events.noon,
          events.sunset,
          events.noon + DAY / 2 + 60_000,
        ];
        expect(bounds).toEqual([...bounds].sort((a, b) => a - b));
      }
    }
    expect([...kinds].sort()).toEqual(['never-rises', 'never-sets', 'rises']);
  });
});

describe('the sun against NREL’s algorithm and the seasons', () => {
  // NREL/TP-560-34302, Table A5.1. Meeus ch. 25 promises 0.01°, NREL's algorithm 0.0003°.
  const at = Date.UTC(2003, 9, 17, 19, 30, 30);

  it('NREL/TP-560-34302 Table A5.1: at Golden the distance is 0.996542 and the obliquity 23.440465°', () => {
    const sun = sunPosition(at);
    expect(offBy(sun.distanceAstronomicalUnits, 0.996542)).toBeLessThanOrEqual(1e-5);
    expect(offBy(sun.obliquityRadians * DEGREES, 23.440465)).toBeLessThanOrEqual(1e-3);
  });

  it('NREL/TP-560-34302 Table A5.1: the zenith distance is 50.111622° through air of 820 mbar and 11 °C', () => {
    const height = sunElevationRadians(at, 39.742476, -105.1786) * DEGREES;
    // Refraction by eq. 42 of the same report.
    const bend =
      ((820 / 1010) * (283 / (273 + 11)) * 1.02) /
      (60 * Math.tan((height + 10.3 / (height + 5.11)) / DEGREES));
    expect(offBy(90 - height - bend, 50.111622)).toBeLessThanOrEqual(0.01);
  });

  it('astronomy-engine: on that day it sets at 17:18:51; NREL’s 17:20:19 is the evening before', () => {
    const noonNearEpochMillis = Date.UTC(2003, 9, 17, 19);
    const golden = { latitudeDegrees: 39.742476, longitudeDegrees: -105.1786 };
    const { sunset } = sunEvents({ ...golden, noonNearEpochMillis });
    const before = sunEvents({ ...golden, noonNearEpochMillis: noonNearEpochMillis - DAY }).sunset;
    expect(offBy(sunset, Date.UTC(2003, 9, 18, 0, 18, 51))).toBeLessThanOrEqual(30_000);
    expect(offBy(before, Date.UTC(2003, 9, 17, 0, 20, 19))).toBeLessThanOrEqual(30_000);
  });

  // The sun moves 0.01° of longitude in 15 min: an instant to the minute is beyond this method.
  it.each([
    ['2025-03-20T09:01:27Z', 0],
    ['2025-06-21T02:42:18Z', 90],
    ['2025-09-22T18:19:35Z', 180],
    ['2025-12-21T15:03:03Z', 270],
  ])(
    'astronomy-engine: at the season of %s the sun is at %d° of longitude within 0.01°',
    (instant, expected) => {
      const degrees = sunPosition(Date.parse(instant)).longitudeRadians * DEGREES;
      const off = degrees - expected - 360 * Math.round((degrees - expected) / 360);
      expect(Math.abs(off)).toBeLessThanOrEqual(0.01);
    },
  );
});
