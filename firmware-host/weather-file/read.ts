import type { WeatherFileAsked, WeatherRow, WeatherTextAsked } from './asked.ts';
import { findColumns } from './columns.ts';
import { notesOn } from './notes.ts';
import { collectProblems, type Problems, type WeatherProblem } from './problem.ts';
import { readRows } from './rows.ts';
import { readTable } from './table.ts';
import { readText } from './text.ts';

export type WeatherReading =
  | {
      readonly ok: true;
      /** Rising in time, no two further apart than three hours. */
      readonly rows: readonly WeatherRow[];
      readonly notes: readonly string[];
    }
  | {
      readonly ok: false;
      /** The first twenty, by line. */
      readonly problems: readonly WeatherProblem[];
      readonly problemCount: number;
    };

/** A record shorter than a day shows neither its noon nor its dawn. */
const ROWS_MIN = 24;

const refused = (problems: Problems): WeatherReading => ({
  ok: false,
  problems: problems.told(),
  problemCount: problems.count(),
});

const refusedFor = (problem: WeatherProblem): WeatherReading => ({
  ok: false,
  problems: [problem],
  problemCount: 1,
});

/** Reads the text of an hourly CSV. Pure: the file itself is `readWeatherFile`'s concern. */
export const readWeatherText = (text: string, asked: WeatherTextAsked): WeatherReading => {
  const table = readTable(text);
  if (!table.ok) return refusedFor(table.problem);
  const problems = collectProblems();
  const columns = findColumns(table.table.header, asked.columns, problems);
  if (columns === null) return refused(problems);
  const read = readRows(table.table, columns, asked, problems);
  if (problems.count() > 0) return refused(problems);
  if (read.rows.length < ROWS_MIN) {
    const found = `${read.rows.length} rows with a temperature`;
    const remedy = 'Export a longer stretch.';
    return refusedFor({
      line: null,
      column: null,
      found,
      allowed: `at least ${ROWS_MIN} hourly rows`,
      remedy,
    });
  }
  return { ok: true, rows: read.rows, notes: notesOn(read, asked.timeZone ?? asked.farmTimeZone) };
};

/**
 * Reads an hourly CSV of weather: comma, semicolon or tab between the cells, a header line, UTF-8, at most 50 MB. Times
 * without an offset are of `timeZone`, or else of the farm's zone. Nothing is mended in silence: what is wrong
 * is refused with line and column, what is assumed stands in the notes.
 */
export const readWeatherFile = async (asked: WeatherFileAsked): Promise<WeatherReading> => {
  const read = await readText(asked.path);
  return read.ok ? readWeatherText(read.text, asked) : refusedFor(read.problem);
};
