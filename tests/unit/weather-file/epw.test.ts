import { describe, expect, it } from 'vitest';
import { readEpwText } from '../../../firmware-host/weather-file/epw.ts';
import type { WeatherReading } from '../../../firmware-host/weather-file/read.ts';
import { recordDay } from '../../../sim/weather/record-day.ts';
import { localDayOn } from '../../../src/time/local-day.ts';
import {
  epwHeader,
  epwRow,
  epwText,
  INVENTED_SITE,
  madeHours,
  madeSun,
  type MadeHour,
  type MadeSite,
} from '../../support/made-epw.ts';
import { FARM_PLACE } from './support.ts';

/**
 * The format: EnergyPlus documentation, Auxiliary Programs, "EnergyPlus Weather File (EPW) Data Dictionary" and the data
 * field descriptions that follow it. Every file here is made by the test and invented.
 */
const read = (
  hours: readonly MadeHour[],
  site: MadeSite = INVENTED_SITE,
  changed: Readonly<Record<number, string | number>> = {},
): WeatherReading =>
  readEpwText(
    epwText(
      hours.map((hour) => epwRow(hour, changed)),
      epwHeader(site),
    ),
    FARM_PLACE,
  );

const rowsOf = (reading: WeatherReading): Extract<WeatherReading, { ok: true }>['rows'] => {
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
  return reading.rows;
};
const notesOf = (reading: WeatherReading): string => (reading.ok ? reading.notes.join('\n') : '');
const rowAt = (reading: WeatherReading, iso: string): ReturnType<typeof rowsOf>[number] =>
  rowsOf(reading).find(({ epochMillis }) => epochMillis === Date.parse(iso))!;

describe('the hours of an EPW file', () => {
  const july = madeHours('2023-07-14', 3);

  it('end at their stamp: hour 1 is 00:01 to 01:00, hour 24 the midnight that ends the day', () => {
    const rows = rowsOf(read(july));
    expect(rows[0]!.epochMillis).toBe(Date.parse('2023-07-14T01:00Z'));
    expect(rows.at(-1)!.epochMillis).toBe(Date.parse('2023-07-17T00:00Z'));
  });

  it('are of the time zone of LOCATION, in standard time: 13 at +5.5 h is 07:30 UTC', () => {
    const reading = read(july, { ...INVENTED_SITE, zone: 5.5 });
    // Field 7 of hour 13: 25 − 5 cos(8π/12).
    expect(rowAt(reading, '2023-07-14T07:30Z').airCelsius).toBeCloseTo(27.5, 9);
  });

  it('have temperature, humidity and wind at the time indicated, the wind of 10 m brought down to 2 m', () => {
    // FAO-56 annex 2, table 2.9: a factor of 0.748 for 10 m.
    expect(rowAt(read(july), '2023-07-14T17:00Z')).toMatchObject({
      airCelsius: 30,
      humidityPercent: 50,
      windMetresPerSecond: expect.closeTo(2.5 * 0.748, 2) as number,
    });
  });

  it('have the sun of the hour before in the middle of that hour, and none of it half an hour late', () => {
    const reading = read(july);
    expect(rowAt(reading, '2023-07-14T12:30Z').sunWattsPerSquareMetre).toBe(madeSun(13));
    // Symmetric about 13:00: as high half an hour before it as after.
    expect(rowAt(reading, '2023-07-14T13:30Z').sunWattsPerSquareMetre).toBe(madeSun(13));
  });

  it('hold the energy of the day within 0.5 %: the sum of its hourly radiation', () => {
    const day = localDayOn('2026-07-15', 'UTC');
    const place = { ...FARM_PLACE, timeZone: 'UTC', windMetresPerSecond: 1 };
    const found = recordDay({
      rows: rowsOf(read(madeHours('2026-07-12', 7))),
      place,
      start: day.start,
      days: 1,
    });
    if (!found.ok) throw new Error(found.reason);
    let wattHours = 0;
    for (let moment: number = day.start; moment < day.end; moment += 60_000)
      wattHours += found.sky.at(moment + 30_000).sunWattsPerSquareMetre / 60;
    const inFile = Array.from({ length: 24 }, (_, hour) => madeSun(hour + 1)).reduce((a, b) => a + b);
    expect(inFile).toBeGreaterThan(7000);
    expect(Math.abs(wattHours / inFile - 1)).toBeLessThan(0.005);
  });

  it('may say minute 0 or 60 for the whole hour', () => {
    expect(rowsOf(read(july, INVENTED_SITE, { 5: 0 }))).toEqual(rowsOf(read(july)));
  });
});

describe('what was not measured', () => {
  const july = madeHours('2023-07-14', 3);

  it('stands as 999 for humidity, which is then taken from the dew point: 12 °C at 30 °C is 33 %', () => {
    // FAO-56 annex 2, table 2.3: 1.403 kPa at 12 °C over 4.243 kPa at 30 °C.
    const row = rowAt(read(july, INVENTED_SITE, { 9: 999 }), '2023-07-14T17:00Z');
    expect(row.humidityPercent).toBeCloseTo((100 * 1.403) / 4.243, 1);
  });

  it('and no dew point either is left out, and said', () => {
    const reading = read(july, INVENTED_SITE, { 8: 99.9, 9: 999 });
    expect(rowAt(reading, '2023-07-14T17:00Z').humidityPercent).toBeUndefined();
    expect(notesOf(reading)).toContain('all rows lack humidity');
  });

  it('stands as 9999 for the sun and 999 for the wind: a clear sky and the usual wind are taken, and it is said', () => {
    const reading = read(july, INVENTED_SITE, { 14: 9999, 22: 999 });
    expect(rowsOf(reading).every((row) => row.sunWattsPerSquareMetre === undefined)).toBe(true);
    expect(notesOf(reading)).toContain('all rows lack sun: a cloudless sky is taken');
    expect(notesOf(reading)).toContain('all rows lack wind');
  });

  it('stands as 99.9 for the temperature: up to three hours are bridged, and counted', () => {
    const rows = july.map((hour, place) => epwRow(hour, place === 30 || place === 31 ? { 7: 99.9 } : {}));
    const reading = readEpwText(epwText(rows), FARM_PLACE);
    expect(notesOf(reading)).toContain('2 rows without a temperature left out');
    expect(notesOf(reading)).toContain('1 hole of up to 3 h bridged');
  });

  it('and a wet hygrometer of 110 % counts as 100 %', () => {
    const row = rowAt(read(july, INVENTED_SITE, { 9: 110 }), '2023-07-14T17:00Z');
    expect(row.humidityPercent).toBe(100);
  });
});

describe('a typical year', () => {
  /** Every month of another year, as typical years are put together. */
  const mixed = (date: Date): number => 1990 + ((date.getUTCMonth() * 7) % 12);
  const reading = read(madeHours('2001-01-01', 365, mixed));

  it('is one year whatever years its months are of, and named by its site', () => {
    expect(reading.ok && reading.typicalYearOf).toBe('Invented Hillside');
    expect(notesOf(reading)).toContain(
      '8760 hours of a typical year of Invented Hillside, from 1990 to 2001',
    );
  });

  it.each(['2026-01-01', '2026-07-31', '2028-02-29', '2026-12-31'])('serves %s', (date) => {
    const place = { ...FARM_PLACE, windMetresPerSecond: 1 };
    const { start } = localDayOn(date, place.timeZone);
    expect(recordDay({ rows: rowsOf(reading), place, start, days: 2 }).ok).toBe(true);
  });

  it('is none where the year changes on 1 January only', () => {
    const plain = read(madeHours('2023-12-25', 14));
    expect(plain.ok && plain.typicalYearOf).toBeNull();
    expect(notesOf(plain)).toContain('336 hours of the record of Invented Hillside, from 2023 to 2024');
  });
});

describe('a site that is not the farm', () => {
  const july = madeHours('2023-07-01', 31);

  it('is no matter within 100 km, 150 m and the same noon', () => {
    const reading = read(july, { ...INVENTED_SITE, latitude: 37.8, elevation: 300 });
    expect(reading.ok && reading.notes).toHaveLength(1);
  });

  it('111 km to the north is noted: a degree of latitude', () => {
    // A degree of a great circle is 60 nautical miles of 1.852 km.
    expect(notesOf(read(july, { ...INVENTED_SITE, latitude: 38.1 }))).toContain('lies 111 km from the farm');
  });

  it('1000 m higher is noted with what it is cooler for: 6.5 °C', () => {
    expect(notesOf(read(july, { ...INVENTED_SITE, elevation: 1180 }))).toContain(
      'lies 1000 m higher than the farm, where it is about 6.5 °C warmer (6.5 °C per km): rehearse with --hotter 6.5',
    );
  });

  it('with a time zone an hour off is noted as another noon', () => {
    // The made sun is highest at 13:00 of its own clock; over the farm, 8° west, at 12:32 UTC and 6 min for July.
    const notes = notesOf(read(july, { ...INVENTED_SITE, zone: -1 }));
    expect(notes).toMatch(/its sun is highest about 8\d min later than over the farm/);
    expect(notesOf(read(july))).not.toContain('highest');
  });
});
