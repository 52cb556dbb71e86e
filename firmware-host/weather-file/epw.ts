import { DateTime, FixedOffsetZone } from 'luxon';
import { windAtTwoMetres } from '../../src/physics/reference-uptake.ts';
import { saturationVapourKilopascals } from '../../src/physics/vapour.ts';
import type { FarmPlace, WeatherRow } from './asked.ts';
import { isTypicalYear, readEpwRow, stampOf, typicalYearFor, type EpwRow } from './epw-dates.ts';
import { EPW_FIELDS, fieldName, readField, type EpwQuantity } from './epw-fields.ts';
import { readEpwHeader, type EpwSite } from './epw-header.ts';
import { withSunAtMidHour } from './mid-hour.ts';
import { assumptionsOn } from './notes.ts';
import { followOrder } from './order.ts';
import { collectProblems, type Problems } from './problem.ts';
import { refused, refusedFor, ROWS_MIN, tooFewRows, type WeatherReading } from './reading.ts';
import type { ReadRows } from './rows.ts';
import { siteNotes } from './site-notes.ts';
import { suspectJump } from './suspicions.ts';
import { ROWS_MAX } from './table.ts';

type Values = Readonly<Record<EpwQuantity, number | null | 'refused'>>;

const readValues = ({ line, cells }: EpwRow, problems: Problems): Values => {
  const read = (quantity: EpwQuantity): number | null | 'refused' =>
    readField(line, cells, EPW_FIELDS[quantity], problems);
  return {
    temperature: read('temperature'),
    dewPoint: read('dewPoint'),
    humidity: read('humidity'),
    pressure: read('pressure'),
    sun: read('sun'),
    wind: read('wind'),
  };
};

/** Where wind is measured for such files: their data dictionary, read from memory; so does the rule of the WMO. */
const WIND_METRES = 10;

/** As written, or else from the dew point (FAO-56 eq. 14 over eq. 11). */
const humidityOf = ({ humidity, dewPoint }: Values, airCelsius: number): number | null => {
  if (typeof humidity === 'number') return Math.min(100, humidity);
  if (typeof dewPoint !== 'number') return null;
  const share = saturationVapourKilopascals(dewPoint) / saturationVapourKilopascals(airCelsius);
  return Math.min(100, 100 * share);
};

/** The hour as the file has it, its sun still the mean over the hour before; null without a temperature. */
const hourOf = (epochMillis: number, values: Values): WeatherRow | null => {
  const { temperature, sun, wind } = values;
  if (typeof temperature !== 'number') return null;
  const humidityPercent = humidityOf(values, temperature);
  return {
    epochMillis,
    airCelsius: temperature,
    ...(humidityPercent === null ? {} : { humidityPercent }),
    // Energy over an hour in Wh/m² is the mean power in W/m².
    ...(typeof sun === 'number' ? { sunWattsPerSquareMetre: sun } : {}),
    ...(typeof wind === 'number' ? { windMetresPerSecond: windAtTwoMetres(wind, WIND_METRES) } : {}),
  };
};

const readHours = (
  rows: readonly EpwRow[],
  typicalYear: number | null,
  site: EpwSite,
  problems: Problems,
): ReadRows => {
  const zone = FixedOffsetZone.instance(site.utcOffsetHours * 60);
  const shown = (epochMillis: number): string =>
    DateTime.fromMillis(epochMillis, { zone }).toFormat(
      typicalYear === null ? 'yyyy-MM-dd HH:mm' : "MM-dd HH:mm 'of the typical year'",
    );
  const column = 'year to hour (fields 1 to 4)';
  const order = followOrder(column, shown, problems);
  const temperature = { name: fieldName(EPW_FIELDS.temperature), place: EPW_FIELDS.temperature.place };
  const hours: WeatherRow[] = [];
  let rowsWithoutTemperature = 0;
  for (const row of rows) {
    const { line } = row;
    const epochMillis = stampOf(row, typicalYear ?? row.year, site.utcOffsetHours);
    const values = readValues(row, problems);
    const above = order.follow({ line, epochMillis });
    if (above !== null) {
      problems.add({
        line,
        column,
        found: `${shown(epochMillis)}, ${epochMillis === above.epochMillis ? 'the same time as' : 'earlier than'} line ${above.line}`,
        allowed: `a time after ${shown(above.epochMillis)}`,
        remedy: 'Rows must rise from January to December, one for each hour.',
      });
      continue;
    }
    if (values.temperature === null) {
      rowsWithoutTemperature += 1;
      continue;
    }
    order.mark({ line, epochMillis });
    const hour = hourOf(epochMillis, values);
    if (hour === null) continue;
    const before = hours.at(-1);
    if (before !== undefined) suspectJump(line, temperature, before, hour, problems);
    hours.push(hour);
  }
  return { rows: hours, holesBridged: order.holesBridged(), rowsWithoutTemperature };
};

/** A file that knows no daylight would let every plan pass: the plants would hardly drink. */
const suspectDarkness = (hours: readonly WeatherRow[], problems: Problems): void => {
  const suns = hours.flatMap(({ sunWattsPerSquareMetre }) => sunWattsPerSquareMetre ?? []);
  if (suns.length === 0 || suns.some((sun) => sun > 0)) return;
  problems.add({
    line: null,
    column: fieldName(EPW_FIELDS.sun),
    found: 'no sun in any row',
    allowed: 'sun by day, or 9999 where it was not measured',
    remedy: 'Take a file with sun, or write 9999 in this field: then a cloudless sky is taken.',
  });
};

const yearsText = (rows: readonly EpwRow[]): string => {
  const years = rows.map(({ year }) => year);
  const [from, to] = [years.reduce((a, b) => Math.min(a, b)), years.reduce((a, b) => Math.max(a, b))];
  return from === to ? String(from) : `${from} to ${to}`;
};

/** Reads the text of an EPW file (the open EnergyPlus weather format): hourly, in standard time all year. */
export const readEpwText = (text: string, farm: FarmPlace): WeatherReading => {
  const lines = text.replace(/^\uFEFF/, '').split(/\r?\n/);
  const problems = collectProblems();
  const header = readEpwHeader(lines, problems);
  if (header === null) return refused(problems);
  const { site, firstLine } = header;
  const rows: EpwRow[] = [];
  if (lines.length - firstLine > ROWS_MAX) {
    const allowed = `at most ${ROWS_MAX} rows, thirty years of hours`;
    const remedy = 'Keep the years that matter.';
    return refusedFor({ line: firstLine + ROWS_MAX, column: null, found: 'more rows', allowed, remedy });
  }
  for (const [index, each] of lines.slice(firstLine - 1).entries()) {
    if (each.trim() === '') continue;
    const row = readEpwRow(firstLine + index, each, problems);
    if (row !== null) rows.push(row);
  }
  const typicalYear = isTypicalYear(rows) ? typicalYearFor(rows) : null;
  const read = readHours(rows, typicalYear, site, problems);
  suspectDarkness(read.rows, problems);
  if (problems.count() > 0) return refused(problems);
  if (read.rows.length < ROWS_MIN) return tooFewRows(read.rows.length);
  const what = typicalYear === null ? 'the record' : 'a typical year';
  return {
    ok: true,
    rows: withSunAtMidHour(read.rows),
    typicalYearOf: typicalYear === null ? null : site.name,
    notes: [
      `${read.rows.length} hours of ${what} of ${site.name}, from ${yearsText(rows)} (EPW; its own standard time, ${site.utcOffsetHours >= 0 ? '+' : ''}${site.utcOffsetHours} h)`,
      ...assumptionsOn(read),
      ...siteNotes(site, read.rows, farm),
    ],
  };
};
