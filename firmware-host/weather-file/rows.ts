import type { WeatherTextAsked, WeatherRow } from './asked.ts';
import type { FoundColumns } from './columns.ts';
import type { Problems } from './problem.ts';
import { readValues, type Values } from './row-cells.ts';
import { followTimes } from './sequence.ts';
import { suspectFractions, suspectJump } from './suspicions.ts';
import type { Table } from './table.ts';

export interface ReadRows {
  readonly rows: readonly WeatherRow[];
  readonly holesBridged: number;
  readonly rowsWithoutTemperature: number;
}

/** The row, unless one of its cells was refused; then the file as a whole will be. */
const rowOf = (epochMillis: number, { temperature, humidity, sun, wind }: Values): WeatherRow | null => {
  if (typeof temperature !== 'number') return null;
  return {
    epochMillis,
    airCelsius: temperature,
    ...(typeof humidity === 'number' ? { humidityPercent: humidity } : {}),
    // An unshaded cell reads a little below zero at night.
    ...(typeof sun === 'number' ? { sunWattsPerSquareMetre: Math.max(0, sun) } : {}),
    ...(typeof wind === 'number' ? { windMetresPerSecond: wind } : {}),
  };
};

/** Reads every row of the table, telling all that is wrong. A row without a temperature counts as a hole. */
export const readRows = (
  table: Table,
  columns: FoundColumns,
  asked: WeatherTextAsked,
  problems: Problems,
): ReadRows => {
  const times = followTimes(columns.time.name, asked.timeZone ?? asked.farmPlace.timeZone, problems);
  const habits = { temperatureUnit: asked.temperatureUnit, decimalComma: table.decimalComma };
  const rows: WeatherRow[] = [];
  let rowsWithoutTemperature = 0;
  for (const each of table.rows) {
    if (each.cells.length !== table.header.cells.length) {
      problems.add({
        line: each.line,
        column: null,
        found: each.cells.length === 1 ? '1 cell' : `${each.cells.length} cells`,
        allowed: `${table.header.cells.length} cells, as in the header`,
        remedy: 'Look for a separator too many or too few.',
      });
      continue;
    }
    const epochMillis = times.read(each.line, each.cells[columns.time.place] ?? '');
    const values = readValues(each, columns, habits, problems);
    if (epochMillis === null) continue;
    if (values.temperature === 'empty') {
      rowsWithoutTemperature += 1;
      continue;
    }
    times.mark(each.line, epochMillis);
    const row = rowOf(epochMillis, values);
    const before = rows.at(-1);
    if (row === null) continue;
    if (before !== undefined) suspectJump(each.line, columns.temperature, before, row, problems);
    rows.push(row);
  }
  suspectFractions(table.header.line, columns.humidity, rows, problems);
  return { rows, holesBridged: times.holesBridged(), rowsWithoutTemperature };
};
