import { describe, expect, it } from 'vitest';
import { madeSky, type MadeDay } from '../../../sim/weather/made-day.ts';
import type { WeatherPlace } from '../../../sim/weather/place.ts';
import type { Sky } from '../../../sim/weather/sky.ts';
import { BrokenAssertion } from '../../../src/units/assertion.ts';
import { localDayOn } from '../../../src/time/local-day.ts';

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;

const hillside: WeatherPlace = {
  latitudeDegrees: 37.1,
  longitudeDegrees: -8,
  elevationMetres: 180,
  timeZone: 'Europe/Lisbon',
  windMetresPerSecond: 1,
};

const dayOf = (date: string, change: Partial<MadeDay> = {}): Sky =>
  madeSky({
    place: hillside,
    start: localDayOn(date, change.place?.timeZone ?? hillside.timeZone).start,
    days: 1,
    minCelsius: 21,
    maxCelsius: 36,
    humidityPercent: 45,
    ...change,
  });

const everyMinute = (sky: Sky): readonly number[] =>
  Array.from(
    { length: Math.floor((sky.end - sky.start) / MINUTE) },
    (_, minute) => sky.start + minute * MINUTE,
  );

/** FAO-56 eq. 11, written again here. */
const saturation = (celsius: number): number => 0.6108 * Math.exp((17.27 * celsius) / (celsius + 237.3));

const meanHumidityPercent = (sky: Sky): number => {
  const airs = everyMinute(sky).map((moment) => sky.at(moment));
  return (
    airs.reduce((sum, air) => sum + (100 * air.vapourKilopascals) / saturation(air.airCelsius), 0) /
    airs.length
  );
};

/** Declination by the fit of FAO-56 eq. 24. */
const fittedDeclination = (dayOfYear: number): number =>
  0.409 * Math.sin((2 * Math.PI * dayOfYear) / 365 - 1.39);

/** FAO-56 eq. 21, 23 and 25 for the daily value and eq. 37 for the clear sky, written again here; MJ/m². */
const clearSkyMegajoules = (dayOfYear: number, declination: number): number => {
  const latitude = (hillside.latitudeDegrees * Math.PI) / 180;
  const sunset = Math.acos(-Math.tan(latitude) * Math.tan(declination));
  const extraterrestrial =
    ((24 * 60) / Math.PI) *
    0.082 *
    (1 + 0.033 * Math.cos((2 * Math.PI * dayOfYear) / 365)) *
    (sunset * Math.sin(latitude) * Math.sin(declination) +
      Math.cos(latitude) * Math.cos(declination) * Math.sin(sunset));
  return (0.75 + 2e-5 * hillside.elevationMetres) * extraterrestrial;
};

const sunMegajoules = (sky: Sky): number =>
  everyMinute(sky).reduce((sum, moment) => sum + sky.at(moment).sunWattsPerSquareMetre * 60, 0) / 1e6;

describe('the temperature of a made day', () => {
  // Goudriaan & van Laar 1994, ch. 3: warmest 1.5 h after solar noon, coldest at sunrise. On 2026-07-14 at 37.1° N
  // 8.0° W the almanac rules of the sun (Meeus ch. 15, 28) give noon at 13:38 and sunrise at 06:23 summer time.
  const sky = dayOf('2026-07-14');
  const celsiusAt = (clock: string): number => sky.at(Date.parse(`2026-07-14T${clock}:00+01:00`)).airCelsius;

  it('is 36 °C within 0.1 at 15:08, an hour and a half after solar noon', () => {
    expect(celsiusAt('15:08')).toBeCloseTo(36, 1);
    const warmest = Math.max(...everyMinute(sky).map((moment) => sky.at(moment).airCelsius));
    expect(warmest).toBeLessThanOrEqual(36);
    expect(warmest).toBeGreaterThan(35.9);
  });

  it('is 21 °C within 0.1 at sunrise, 06:23, and nowhere lower', () => {
    expect(Math.abs(celsiusAt('06:23') - 21)).toBeLessThan(0.1);
    const coldest = Math.min(...everyMinute(sky).map((moment) => sky.at(moment).airCelsius));
    expect(coldest).toBeGreaterThanOrEqual(21);
    expect(coldest).toBeLessThan(21.1);
  });

  it('follows the published sine at ten in the morning and the published exponential at eleven at night', () => {
    // The two formulas of ch. 3 with D = 14 h 30 min, p = 1.5 h and a night of 9.5 h with the time constant 4 h.
    const sine = (hours: number): number => 21 + 15 * Math.sin((Math.PI * hours) / (14.5 + 3));
    expect(Math.abs(celsiusAt('10:00') - sine(3 + 37 / 60))).toBeLessThan(0.1);
    const sunset = sine(14.5);
    const end = Math.exp(-9.5 / 4);
    const night = (21 - sunset * end + (sunset - 21) * Math.exp(-(23 - 20 - 53 / 60) / 4)) / (1 - end);
    expect(Math.abs(celsiusAt('23:00') - night)).toBeLessThan(0.1);
  });

  it('never steps by more than 0.1 °C in a minute over three days, over the change of the clocks too', () => {
    for (const date of ['2026-07-14', '2026-03-28', '2026-10-24']) {
      const days = dayOf(date, { days: 3 });
      const celsius = everyMinute(days).map((moment) => days.at(moment).airCelsius);
      const steps = celsius.slice(1).map((value, place) => Math.abs(value - (celsius[place] ?? NaN)));
      expect(Math.max(...steps)).toBeLessThan(0.1);
    }
  });

  it.each([
    { date: '2026-06-21', what: 'under the midnight sun' },
    { date: '2026-12-21', what: 'in the polar night' },
    { date: '2026-01-13', what: 'around the first sunrise of the year' },
    { date: '2026-05-16', what: 'around the last sunset of spring' },
  ])('keeps to its 5 and 15 °C at 69.65° N $what, without a step', ({ date }) => {
    const place = { ...hillside, latitudeDegrees: 69.65, longitudeDegrees: 18.96, timeZone: 'Europe/Oslo' };
    const sky = dayOf(date, { place, days: 6, minCelsius: 5, maxCelsius: 15 });
    const celsius = everyMinute(sky).map((moment) => sky.at(moment).airCelsius);
    expect(Math.min(...celsius)).toBeGreaterThan(4.99);
    expect(Math.min(...celsius)).toBeLessThan(5.1);
    expect(Math.max(...celsius)).toBeGreaterThan(14.9);
    expect(Math.max(...celsius)).toBeLessThanOrEqual(15);
    const steps = celsius.slice(1).map((value, index) => Math.abs(value - (celsius[index] ?? NaN)));
    expect(Math.max(...steps)).toBeLessThan(0.2);
  });
});

describe('the humidity of a made day', () => {
  // Relative humidity is vapour over saturation, FAO-56 eq. 10 and 11.
  it.each([20, 45, 60])('is %d percent in the mean within 0.5 points', (humidityPercent) => {
    expect(
      Math.abs(meanHumidityPercent(dayOf('2026-07-14', { humidityPercent })) - humidityPercent),
    ).toBeLessThan(0.5);
  });

  it('keeps the vapour the same all day while no hour is saturated', () => {
    const sky = dayOf('2026-07-14');
    const vapours = everyMinute(sky)
      .slice(0, -5)
      .map((moment) => sky.at(moment).vapourKilopascals);
    expect(Math.max(...vapours) - Math.min(...vapours)).toBeLessThan(1e-12);
  });

  it.each([85, 95, 100])(
    'never passes saturation when %d percent are asked, and still has that mean',
    (humidityPercent) => {
      const sky = dayOf('2026-07-14', { humidityPercent });
      for (const moment of everyMinute(sky)) {
        const { airCelsius, vapourKilopascals } = sky.at(moment);
        expect(vapourKilopascals).toBeLessThanOrEqual(saturation(airCelsius) * (1 + 1e-9));
      }
      expect(Math.abs(meanHumidityPercent(sky) - humidityPercent)).toBeLessThan(0.5);
    },
  );
});

describe('the sun of a made day', () => {
  // FAO-56 eq. 37: Rso = (0.75 + 2e-5 z) Ra, with the daily Ra of eq. 21. In March the fit of eq. 24 puts the sun
  // 0.7° too far south at the very equinox, which alone costs 1.5 %: there the true declination, 0, is taken.
  it.each([
    { date: '2026-07-14', dayOfYear: 195, declination: fittedDeclination(195) },
    { date: '2026-06-21', dayOfYear: 172, declination: fittedDeclination(172) },
    { date: '2026-03-20', dayOfYear: 79, declination: 0 },
    { date: '2026-12-21', dayOfYear: 355, declination: fittedDeclination(355) },
  ])('adds up to the daily clear-sky radiation of FAO-56 eq. 37 within 1 % on $date', (day) => {
    const published = clearSkyMegajoules(day.dayOfYear, day.declination);
    expect(Math.abs(sunMegajoules(dayOf(day.date)) / published - 1)).toBeLessThan(0.01);
  });

  it('is nothing at midnight and 900 to 1010 W/m² at its highest, at solar noon, in July', () => {
    // FAO-56 eq. 37 on 1367 W/m² (eq. 21), the sun 15.5° from the zenith and 3.3 % dimmer for distance (eq. 23).
    const sky = dayOf('2026-07-14');
    expect(sky.at(sky.start).sunWattsPerSquareMetre).toBe(0);
    const suns = everyMinute(sky).map((moment) => sky.at(moment).sunWattsPerSquareMetre);
    const highest = Math.max(...suns);
    expect(highest).toBeGreaterThan(900);
    expect(highest).toBeLessThan(1010);
    expect(
      Math.abs(sky.start + suns.indexOf(highest) * MINUTE - Date.parse('2026-07-14T13:38:00+01:00')),
    ).toBeLessThan(6 * MINUTE);
  });
});

describe('the span of a made sky', () => {
  it('counts calendar days: 23 and 25 hours where the clocks change', () => {
    for (const [date, hours] of [
      ['2026-03-29', 23],
      ['2026-10-25', 25],
      ['2026-07-14', 24],
    ] as const) {
      const sky = dayOf(date);
      expect(sky.end - sky.start).toBe(hours * HOUR);
    }
  });

  it('answers at both ends and asserts a millisecond beyond either', () => {
    const sky = dayOf('2026-07-14');
    expect(sky.at(sky.start).windMetresPerSecond).toBe(1);
    expect(sky.at(sky.end).windMetresPerSecond).toBe(1);
    expect(() => sky.at(sky.start - 1)).toThrow(BrokenAssertion);
    expect(() => sky.at(sky.end + 1)).toThrow(BrokenAssertion);
    expect(() => sky.at(NaN)).toThrow(BrokenAssertion);
  });

  it('refuses a lowest temperature above the highest, and no days', () => {
    expect(() => dayOf('2026-07-14', { minCelsius: 37 })).toThrow(BrokenAssertion);
    expect(() => dayOf('2026-07-14', { days: 0 })).toThrow(BrokenAssertion);
  });
});
