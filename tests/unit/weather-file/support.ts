import type { FarmPlace, WeatherTextAsked } from '../../../firmware-host/weather-file/asked.ts';
import { problemText, type WeatherProblem } from '../../../firmware-host/weather-file/problem.ts';
import { readWeatherText, type WeatherReading } from '../../../firmware-host/weather-file/read.ts';

/** An invented hillside in southern Portugal. */
export const FARM_PLACE: FarmPlace = {
  latitudeDegrees: 37.1,
  longitudeDegrees: -8,
  elevationMetres: 180,
  timeZone: 'Europe/Lisbon',
};

/** One column of time and one of temperature, in Lisbon. */
export const PLAIN: WeatherTextAsked = {
  columns: { time: 'time', temperature: 'temperature' },
  temperatureUnit: 'celsius',
  farmPlace: FARM_PLACE,
};

/** The hour `step` hours after midnight of 14 July 2026, as a file without offsets writes it. */
export const hourText = (step: number): string =>
  new Date(Date.parse('2026-07-14T00:00:00Z') + step * 3_600_000).toISOString().slice(0, 16);

/** `hours` good rows of 20 °C under the plain header; `change` puts other lines in their place by line number. */
export const plainFile = (hours: number, change: Readonly<Record<number, string | null>> = {}): string =>
  ['time,temperature', ...Array.from({ length: hours }, (_, step) => `${hourText(step)},20`)]
    .map((line, index) => (index + 1 in change ? change[index + 1] : line))
    .filter((line) => line !== null)
    .join('\n');

export const readPlain = (text: string, change: Partial<WeatherTextAsked> = {}): WeatherReading =>
  readWeatherText(text, { ...PLAIN, ...change });

/** The problems of a reading that must be refused. */
export const problemsOf = (reading: WeatherReading): readonly WeatherProblem[] => {
  if (reading.ok) throw new Error('expected problems, found rows');
  return reading.problems;
};

export const problemTextsOf = (reading: WeatherReading): readonly string[] =>
  problemsOf(reading).map(problemText);
