import { CsvError, parse } from 'csv-parse/sync';
import type { WeatherProblem } from './problem.ts';

/** A row of a CSV file and the line on which it ends. */
export interface TableRow {
  readonly line: number;
  readonly cells: readonly string[];
}

export interface Table {
  readonly header: TableRow;
  readonly rows: readonly TableRow[];
  /** True where a semicolon parts the cells, as is the habit where a comma is the decimal sign. */
  readonly decimalComma: boolean;
}

export type TableReading =
  { readonly ok: true; readonly table: Table } | { readonly ok: false; readonly problem: WeatherProblem };

/** Thirty years of hours are 262,980 rows. */
export const ROWS_MAX = 300_000;

type Separator = ',' | ';' | '\t';

/** The separator found most often in the first line. */
const separatorOf = (text: string): Separator => {
  const [firstLine = ''] = text.split('\n', 1);
  const count = (separator: Separator): number => firstLine.split(separator).length;
  const separators: readonly Separator[] = [',', ';', '\t'];
  return separators.reduce((best, other) => (count(other) > count(best) ? other : best));
};

/** Splits CSV text into cells. Blank lines are passed over, the byte order mark too. */
export const readTable = (text: string): TableReading => {
  const delimiter = separatorOf(text);
  const rows: TableRow[] = [];
  try {
    parse(text, {
      bom: true,
      delimiter,
      trim: true,
      skip_empty_lines: true,
      record_delimiter: ['\r\n', '\n'],
      relax_column_count: true,
      to: ROWS_MAX + 2,
      on_record: (cells: readonly string[], { lines }) => {
        rows.push({ line: lines, cells });
        return null;
      },
    });
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    const line = typeof error['lines'] === 'number' ? error['lines'] : null;
    const remedy = 'A quotation mark opens and closes a whole cell; look for one that stands alone.';
    return {
      ok: false,
      problem: { line, column: null, found: error.message, allowed: 'well-formed CSV', remedy },
    };
  }
  const [header, ...body] = rows;
  if (header === undefined || body.length === 0) {
    const found = header === undefined ? 'nothing but blank lines' : 'a header without rows';
    const remedy = 'Export the record again.';
    return {
      ok: false,
      problem: { line: null, column: null, found, allowed: 'a header line and hourly rows', remedy },
    };
  }
  if (body.length > ROWS_MAX) {
    const allowed = `at most ${ROWS_MAX} rows, thirty years of hours`;
    const remedy = 'Keep the years that matter, one row an hour.';
    const line = body.at(-1)?.line ?? null;
    return { ok: false, problem: { line, column: null, found: 'more rows', allowed, remedy } };
  }
  return { ok: true, table: { header, rows: body, decimalComma: delimiter === ';' } };
};
