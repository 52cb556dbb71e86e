import { BOUNDS, boundsRemedy } from './bounds.ts';
import { readCell } from './cell.ts';
import type { Column, FoundColumns, Quantity } from './columns.ts';
import type { Problems } from './problem.ts';
import type { TableRow } from './table.ts';

/** How cells are to be understood throughout a file. */
export interface CellHabits {
  readonly temperatureUnit: 'celsius' | 'fahrenheit';
  readonly decimalComma: boolean;
}

/** A value in the units of the core, or that the cell is empty, or that it was refused and told. */
export type Value = number | 'empty' | 'refused';

const inCelsius = (fahrenheit: number): number => (fahrenheit - 32) / 1.8;

/** Reads the cell of one quantity in one row. */
const readValue = (
  row: TableRow,
  quantity: Quantity,
  column: Column,
  { temperatureUnit, decimalComma }: CellHabits,
  problems: Problems,
): Value => {
  const text = row.cells[column.place] ?? '';
  const cell = readCell(text, decimalComma);
  if (cell.kind === 'empty') return 'empty';
  const at = { line: row.line, column: column.name };
  if (cell.kind === 'not-a-number') {
    problems.add({ ...at, found: `"${text}"`, allowed: 'a number', remedy: cell.remedy });
    return 'refused';
  }
  const isFahrenheit = quantity === 'temperature' && temperatureUnit === 'fahrenheit';
  const value = isFahrenheit ? inCelsius(cell.value) : cell.value;
  const { least, most, unit } = BOUNDS[quantity];
  if (value >= least && value <= most) return value;
  problems.add({
    ...at,
    found: isFahrenheit ? `${text} °F, which is ${value.toFixed(1)} °C` : `${text} ${unit}`,
    allowed: `${least} to ${most} ${unit}`,
    remedy: boundsRemedy(quantity, cell.value, temperatureUnit),
  });
  return 'refused';
};

/** The values of one row by quantity; those without a column are empty. */
export type Values = Readonly<Record<Quantity, Value>>;

export const readValues = (
  row: TableRow,
  columns: FoundColumns,
  habits: CellHabits,
  problems: Problems,
): Values => {
  const read = (quantity: Quantity): Value => {
    const column = columns[quantity];
    return column === null ? 'empty' : readValue(row, quantity, column, habits, problems);
  };
  return {
    temperature: read('temperature'),
    humidity: read('humidity'),
    sun: read('sun'),
    wind: read('wind'),
  };
};
