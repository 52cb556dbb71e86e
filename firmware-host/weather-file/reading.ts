import type { WeatherRow } from './asked.ts';
import type { Problems, WeatherProblem } from './problem.ts';

export type WeatherReading =
  | {
      readonly ok: true;
      /** Rising in time, no two further apart than three hours. */
      readonly rows: readonly WeatherRow[];
      /** Of which site the rows are a typical year, put together from months of several; null for a plain record. */
      readonly typicalYearOf: string | null;
      readonly notes: readonly string[];
    }
  | {
      readonly ok: false;
      /** The first twenty, by line. */
      readonly problems: readonly WeatherProblem[];
      readonly problemCount: number;
      /** What the reader was not told and needs: no fault of the file. */
      readonly lacks?: 'columns';
    };

type Refused = Extract<WeatherReading, { readonly ok: false }>;

/** A record shorter than a day shows neither its noon nor its dawn. */
export const ROWS_MIN = 24;

export const refused = (problems: Problems): Refused => ({
  ok: false,
  problems: problems.told(),
  problemCount: problems.count(),
});

export const refusedFor = (problem: WeatherProblem): Refused => ({
  ok: false,
  problems: [problem],
  problemCount: 1,
});

export const tooFewRows = (count: number): Refused =>
  refusedFor({
    line: null,
    column: null,
    found: `${count} rows with a temperature`,
    allowed: `at least ${ROWS_MIN} hourly rows`,
    remedy: 'Export a longer stretch.',
  });
