import type { WeatherFileAsked, WeatherTextAsked } from './asked.ts';
import { findColumns } from './columns.ts';
import { readEpwText } from './epw.ts';
import { isEpw } from './epw-header.ts';
import { noonNotes } from './noon.ts';
import { notesOn } from './notes.ts';
import { collectProblems } from './problem.ts';
import { refused, refusedFor, ROWS_MIN, tooFewRows, type WeatherReading } from './reading.ts';
import { readRows } from './rows.ts';
import { readTable } from './table.ts';
import { readText } from './text.ts';

export type { WeatherReading } from './reading.ts';

/** Reads the text of an hourly CSV. Pure: the file itself is `readWeatherFile`'s concern. */
export const readWeatherText = (text: string, asked: WeatherTextAsked): WeatherReading => {
  const table = readTable(text);
  if (!table.ok) return refusedFor(table.problem);
  const problems = collectProblems();
  const columns = findColumns(table.table.header, asked.columns, problems);
  if (columns === null) return refused(problems);
  const read = readRows(table.table, columns, asked, problems);
  if (problems.count() > 0) return refused(problems);
  if (read.rows.length < ROWS_MIN) return tooFewRows(read.rows.length);
  const notes = [
    ...notesOn(read, asked.timeZone ?? asked.farmPlace.timeZone),
    ...noonNotes(read.rows, asked.farmPlace),
  ];
  return { ok: true, rows: read.rows, typicalYearOf: null, notes };
};

/** What was said of the file that an EPW file says itself, or null. */
const toldInVain = ({ columns, timeZone, temperatureUnit }: WeatherFileAsked): string | null => {
  if (columns !== undefined) return 'columns';
  if (timeZone !== undefined) return 'timeZone';
  return temperatureUnit === 'fahrenheit' ? 'temperatureUnit' : null;
};

/**
 * Reads a weather file of at most 50 MB in UTF-8, and knows by its first word, not by its name, which of two it is: an EPW
 * file, or an hourly CSV with a header line and comma, semicolon or tab between the cells. In a CSV times without an offset
 * are of `timeZone`, or else of the farm's zone. Nothing is mended in silence: what is wrong is refused with line
 * and column, what is assumed stands in the notes.
 */
export const readWeatherFile = async (asked: WeatherFileAsked): Promise<WeatherReading> => {
  const read = await readText(asked.path);
  if (!read.ok) return refusedFor(read.problem);
  if (isEpw(read.text)) {
    const told = asked.columnsAreFor === 'another-file' ? null : toldInVain(asked);
    if (told === null) return readEpwText(read.text, asked.farmPlace);
    return refusedFor({
      line: 1,
      column: null,
      found: `an EPW file, and ${told} told for it`,
      allowed: 'an EPW file with nothing told: its fields, units and times are always the same',
      remedy: `Leave ${told} away, on the command line and in the farm file under weather.`,
    });
  }
  const { columns } = asked;
  if (columns !== undefined) return readWeatherText(read.text, { ...asked, columns });
  const reading = refusedFor({
    line: 1,
    column: null,
    found: 'no EPW file (its first word would be LOCATION), and for a CSV no columns named',
    allowed: 'an EPW file, or a CSV with --columns time=…,temperature=…',
    remedy: 'Name the columns there or in the farm file under weather.',
  });
  return { ...reading, lacks: 'columns' };
};
