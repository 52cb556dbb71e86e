import { FIELDS } from './epw-fields.ts';
import type { Problems } from './problem.ts';

/** A row of data, cut at its commas, and the hour at whose end it stands. */
export interface EpwRow {
  readonly line: number;
  readonly cells: readonly string[];
  readonly year: number;
  readonly month: number;
  readonly day: number;
  /** 1 to 24: 24 is the midnight that ends the day. */
  readonly hour: number;
}

const HOUR_MILLIS = 3_600_000;
/** A leap year: 29 February may stand in any file, and stands or not by the year it is said to be of. */
const ANY_YEAR = 2000;

const PARTS = [
  { name: 'year', least: 1800, most: 2200 },
  { name: 'month', least: 1, most: 12 },
  { name: 'day', least: 1, most: 31 },
  { name: 'hour', least: 1, most: 24 },
] as const;
const MINUTE_PLACE = 4;

const wholeNumber = (text: string): number => (/^\d{1,4}$/.test(text) ? Number(text) : NaN);

const daysInMonth = (month: number): number => new Date(Date.UTC(ANY_YEAR, month, 0)).getUTCDate();

/** One row of data; null after telling what is wrong with its shape or its date. */
export const readEpwRow = (line: number, text: string, problems: Problems): EpwRow | null => {
  const cells = text.split(',').map((cell) => cell.trim());
  if (cells.length !== FIELDS) {
    problems.add({
      line,
      column: null,
      found: cells.length === 1 ? '1 field' : `${cells.length} fields`,
      allowed: `${FIELDS} fields`,
      remedy: 'Look for a comma too many or too few, or for a row cut short.',
    });
    return null;
  }
  const before = problems.count();
  const remedy = 'Leave the dates as the file was delivered: hours run from 1 to 24.';
  const tell = (place: number, name: string, allowed: string): void => {
    const found = `"${cells[place] ?? ''}"`;
    problems.add({ line, column: `${name} (field ${place + 1})`, found, allowed, remedy });
  };
  const [year = NaN, month = NaN, day = NaN, hour = NaN] = PARTS.map(({ name, least, most }, place) => {
    const value = wholeNumber(cells[place] ?? '');
    if (!(value >= least && value <= most)) tell(place, name, `a whole number from ${least} to ${most}`);
    return value;
  });
  // 0 and 60 are both written for "the whole hour that ends here".
  const minute = wholeNumber(cells[MINUTE_PLACE] ?? '');
  if (minute !== 0 && minute !== 60) tell(MINUTE_PLACE, 'minute', '0 or 60, for the whole hour');
  if (problems.count() > before) return null;
  if (day > daysInMonth(month)) {
    tell(2, 'day', `a day of month ${month}, 1 to ${daysInMonth(month)}`);
    return null;
  }
  return { line, cells, year, month, day, hour };
};

/** Typical years are put together from months of several: the year changes elsewhere than on 1 January. */
export const isTypicalYear = (rows: readonly EpwRow[]): boolean =>
  rows.some((row, place) => {
    const before = rows[place - 1];
    if (before === undefined || before.year === row.year) return false;
    return !(row.year === before.year + 1 && before.month === 12 && row.month === 1);
  });

/** The year that stands for all of a typical one. */
export const typicalYearFor = (rows: readonly EpwRow[]): number =>
  rows.some(({ month, day }) => month === 2 && day === 29) ? ANY_YEAR : ANY_YEAR + 1;

/** The moment at which the row's hour ends. */
export const stampOf = ({ month, day, hour }: EpwRow, year: number, utcOffsetHours: number): number =>
  Date.UTC(year, month - 1, day) + (hour - utcOffsetHours) * HOUR_MILLIS;
