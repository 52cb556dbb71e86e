import { dirname, resolve } from 'node:path';
import type { WeatherSource } from '../simulated-shed.ts';
import { problemText } from '../weather-file/problem.ts';
import { readWeatherFile } from '../weather-file/read.ts';
import type { Console } from './console.ts';
import { EXIT } from './exit-code.ts';
import type { AcceptedFarm } from './farm-argument.ts';
import { Refusal } from './refusal.ts';
import { seedFrom } from './times.ts';

export interface WeatherOptions {
  readonly weather?: string;
  readonly columns?: string;
  readonly hotDay?: boolean;
  readonly drawnDays?: boolean;
  /** Of the dice that draw days, as of all others. */
  readonly seed?: string;
}

const COLUMN_NAMES = ['time', 'temperature', 'humidity', 'sun', 'wind'] as const;
type ColumnName = (typeof COLUMN_NAMES)[number];
const isColumnName = (text: string): text is ColumnName => COLUMN_NAMES.some((name) => name === text);

/** `time=date,temperature=t_air` @throws Refusal */
const columnsFrom = (
  text: string,
): { time: string; temperature: string } & Partial<Record<ColumnName, string>> => {
  const columns: Partial<Record<ColumnName, string>> = {};
  for (const pair of text.split(',')) {
    const [name, heading, ...rest] = pair.split('=').map((word) => word.trim());
    if (
      name === undefined ||
      heading === undefined ||
      heading === '' ||
      rest.length > 0 ||
      !isColumnName(name)
    ) {
      throw new Refusal(
        `--columns: found "${pair}"; allowed are pairs such as time=date,temperature=t_air, with ${COLUMN_NAMES.join(', ')}.`,
        EXIT.usage,
      );
    }
    columns[name] = heading;
  }
  const { time, temperature } = columns;
  if (time === undefined || temperature === undefined) {
    throw new Refusal('--columns: time and temperature must both be named.', EXIT.usage);
  }
  return { ...columns, time, temperature };
};

/** @throws Refusal where the farm file has no climate */
const drawnDays = ({ farm, file }: AcceptedFarm, seed: string | undefined): WeatherSource => {
  if (farm.climate !== undefined) {
    return { kind: 'drawn-days', climate: farm.climate, seed: seedFrom(seed) };
  }
  throw new Refusal(
    `--drawn-days: found no climate: in ${file}; allowed is together with twelve months of it (monthly: minCelsius, maxCelsius, humidityPercent).`,
    EXIT.usage,
  );
};

/** The weather to rehearse on: an option before the farm file, a record before the hot day. @throws Refusal */
export const weatherFor = async (
  accepted: AcceptedFarm,
  options: WeatherOptions,
  console: Console,
): Promise<WeatherSource> => {
  const { farm, file } = accepted;
  const byFarm = farm.weather;
  if (options.drawnDays === true) return drawnDays(accepted, options.seed);
  if (options.columns !== undefined && options.weather === undefined && byFarm === undefined) {
    throw new Refusal(
      '--columns: found no weather file to read them from; allowed is together with --weather <file>.',
      EXIT.usage,
    );
  }
  if (options.hotDay === true || (options.weather === undefined && byFarm === undefined))
    return { kind: 'hot-day' };
  const path = options.weather ?? resolve(dirname(file), byFarm?.file ?? '');
  const columns = options.columns === undefined ? byFarm?.columns : columnsFrom(options.columns);
  // Another file with columns of its own is not bound to what the farm file says of its record. Degrees Fahrenheit
  // read as Celsius are refused as too hot; the other way round a hot day would pass for a cool one.
  const asFarmSays = options.weather === undefined || options.columns === undefined ? byFarm : undefined;
  const read = await readWeatherFile({
    path,
    columns,
    columnsAreFor:
      options.weather !== undefined && options.columns === undefined ? 'another-file' : 'this-file',
    temperatureUnit: asFarmSays?.temperatureUnit ?? 'celsius',
    timeZone: asFarmSays?.timeZone,
    farmPlace: farm.place,
  });
  if (!read.ok) {
    const more = read.problemCount - read.problems.length;
    const lines = read.problems.map((problem) => `${path}: ${problemText(problem)}`);
    const closing = `${read.problemCount} problem${read.problemCount === 1 ? '' : 's'}; the weather file was not accepted.`;
    throw new Refusal(
      [...lines, ...(more > 0 ? [`… and ${more} more.`] : []), closing].join('\n'),
      read.lacks === undefined ? EXIT.badInput : EXIT.usage,
      read.problems,
    );
  }
  for (const note of read.notes) console.talk(`weather: ${note}`);
  return { kind: 'record', rows: read.rows, typicalYearOf: read.typicalYearOf };
};
