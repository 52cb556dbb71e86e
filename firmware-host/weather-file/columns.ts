import { nearestWord } from '../../src/farm/nearest-word.ts';
import type { WeatherColumns } from './asked.ts';
import type { Problems } from './problem.ts';
import type { TableRow } from './table.ts';

/** What the file can say of an hour, besides its time. */
export type Quantity = 'temperature' | 'humidity' | 'sun' | 'wind';

/** Where a quantity stands: its column's name and its place from the left, 0 first. */
export interface Column {
  readonly name: string;
  readonly place: number;
}

export interface FoundColumns {
  readonly time: Column;
  readonly temperature: Column;
  readonly humidity: Column | null;
  readonly sun: Column | null;
  readonly wind: Column | null;
}

/** More names than these say nothing to the reader of a message. */
const NAMES_TOLD_MAX = 30;

const listed = (names: readonly string[]): string => {
  const told = names.slice(0, NAMES_TOLD_MAX).join(', ');
  return names.length > NAMES_TOLD_MAX ? `${told} and ${names.length - NAMES_TOLD_MAX} more` : told;
};

/** A name like the one asked for, or else one that holds it or is held by it: `temp_c` for `temp`. */
const likeName = (asked: string, names: readonly string[]): string | null => {
  const wanted = asked.toLowerCase();
  const holds = (name: string): boolean => {
    const known = name.toLowerCase();
    return known.includes(wanted) || (known.length > 2 && wanted.includes(known));
  };
  return nearestWord(asked, names) ?? names.find(holds) ?? null;
};

/** Finds every named column in the header; tells all that are missing or doubled, and then is null. */
export const findColumns = (
  header: TableRow,
  columns: WeatherColumns,
  problems: Problems,
): FoundColumns | null => {
  const names = header.cells;
  const find = (quantity: keyof WeatherColumns, name: string): Column | null => {
    const place = names.indexOf(name);
    if (place !== -1 && !names.includes(name, place + 1)) return { name, place };
    const nearest = likeName(name, names);
    problems.add({
      line: header.line,
      column: name,
      found: place === -1 ? 'no column of this name' : 'two columns of this name',
      allowed: `one of the columns there are: ${listed(names)}`,
      remedy:
        nearest === null || nearest === name
          ? `Name the right one under weather: columns: ${quantity}.`
          : `Did you mean "${nearest}"? Name it under weather: columns: ${quantity}.`,
    });
    return null;
  };
  const optional = (quantity: keyof WeatherColumns): Column | null => {
    const name = columns[quantity];
    return name === undefined ? null : find(quantity, name);
  };
  const before = problems.count();
  const time = find('time', columns.time);
  const temperature = find('temperature', columns.temperature);
  const found = { humidity: optional('humidity'), sun: optional('sun'), wind: optional('wind') };
  if (time === null || temperature === null || problems.count() > before) return null;
  return { time, temperature, ...found };
};
