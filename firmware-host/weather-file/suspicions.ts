import type { WeatherRow } from './asked.ts';
import type { Column } from './columns.ts';
import type { Problems } from './problem.ts';

/** Air seldom changes by more in an hour; a column that changes its unit midway does. Common sense, no source. */
export const JUMP_CELSIUS_MAX = 15;
const HOUR_MILLIS = 3_600_000;

/** Tells of a temperature that leaps from one row to the next. */
export const suspectJump = (
  line: number,
  column: Column,
  before: WeatherRow,
  row: WeatherRow,
  problems: Problems,
): void => {
  const hours = Math.max(1, (row.epochMillis - before.epochMillis) / HOUR_MILLIS);
  const jump = row.airCelsius - before.airCelsius;
  if (Math.abs(jump) <= JUMP_CELSIUS_MAX * hours) return;
  problems.add({
    line,
    column: column.name,
    found: `a jump of ${jump.toFixed(1)} °C from the row before`,
    allowed: `at most ${JUMP_CELSIUS_MAX} °C an hour, up or down`,
    remedy: 'Look whether the unit changes here between °C and °F, or whether the row is wrong.',
  });
};

/** Tells of a humidity column whose values are shares of one and not percent. */
export const suspectFractions = (
  headerLine: number,
  column: Column | null,
  rows: readonly WeatherRow[],
  problems: Problems,
): void => {
  if (column === null) return;
  let most = -Infinity;
  for (const { humidityPercent } of rows) most = Math.max(most, humidityPercent ?? -Infinity);
  if (most === -Infinity || most > 1) return;
  problems.add({
    line: headerLine,
    column: column.name,
    found: `no value above ${most}; these look like fractions`,
    allowed: 'percent, 0 to 100',
    remedy: 'Multiply the column by 100.',
  });
};
