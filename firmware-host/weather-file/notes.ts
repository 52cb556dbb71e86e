import { DateTime } from 'luxon';
import type { WeatherRow } from './asked.ts';
import type { ReadRows } from './rows.ts';
import { HOLE_HOURS_MAX } from './order.ts';

type Said = 'humidityPercent' | 'sunWattsPerSquareMetre' | 'windMetresPerSecond';

/** What is taken for each thing the record leaves out; `sim/weather` does so. */
const STAND_INS: readonly (readonly [Said, string])[] = [
  [
    'humidityPercent',
    "humidity: the dew point is taken at each day's lowest temperature (FAO-56, chapter 3)",
  ],
  ['sunWattsPerSquareMetre', 'sun: a cloudless sky is taken'],
  ['windMetresPerSecond', "wind: the farm's usual wind is taken"],
];

const counted = (count: number, one: string, many: string): string => `${count} ${count === 1 ? one : many}`;

/** What had to be assumed, a sentence each. */
export const assumptionsOn = ({
  rows,
  holesBridged,
  rowsWithoutTemperature,
}: ReadRows): readonly string[] => {
  const notes: string[] = [];
  if (rowsWithoutTemperature > 0) {
    notes.push(`${counted(rowsWithoutTemperature, 'row', 'rows')} without a temperature left out`);
  }
  if (holesBridged > 0) {
    notes.push(
      `${counted(holesBridged, 'hole', 'holes')} of up to ${HOLE_HOURS_MAX} h bridged by straight lines`,
    );
  }
  for (const [said, standIn] of STAND_INS) {
    const missing = rows.filter((row) => row[said] === undefined).length;
    const lacking = missing === rows.length ? 'all rows lack' : counted(missing, 'row lacks', 'rows lack');
    if (missing > 0) notes.push(`${lacking} ${standIn}`);
  }
  return notes;
};

/** What was read, and what had to be assumed, a sentence each. */
export const notesOn = (read: ReadRows, timeZone: string): readonly string[] => {
  const { rows } = read;
  const shown = (row: WeatherRow | undefined): string =>
    row === undefined
      ? '?'
      : DateTime.fromMillis(row.epochMillis, { zone: timeZone }).toFormat('yyyy-MM-dd HH:mm');
  const span = `${rows.length} rows from ${shown(rows[0])} to ${shown(rows.at(-1))} (${timeZone})`;
  return [span, ...assumptionsOn(read)];
};
