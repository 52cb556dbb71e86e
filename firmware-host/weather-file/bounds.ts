import type { Quantity } from './columns.ts';

interface Bounds {
  readonly least: number;
  readonly most: number;
  readonly unit: string;
}

/**
 * What is still weather. Temperature: where leaf crops grow, with room to spare. Sun: an unshaded cell at
 * night reads a little below zero, and a broken sky at noon more than a clear one. Wind: a mean over an
 * hour, beyond any storm. Common sense, no source.
 */
export const BOUNDS: Readonly<Record<Quantity, Bounds>> = {
  temperature: { least: -60, most: 60, unit: '°C' },
  humidity: { least: 0, most: 100, unit: '%' },
  sun: { least: -20, most: 1500, unit: 'W/m²' },
  wind: { least: 0, most: 75, unit: 'm/s' },
};

/** Beyond this a number is no measurement but a mark for "nothing measured". */
const PLACEHOLDER_MIN = 900;
/** 60–140 °F are 16–60 °C: summer, written in the other unit. */
const FAHRENHEIT_MOST = 140;

/** What to do about a value out of bounds, given as written in the file. */
export const boundsRemedy = (
  quantity: Quantity,
  written: number,
  temperatureUnit: 'celsius' | 'fahrenheit',
): string => {
  const isSun = quantity === 'sun' && written > 0;
  if (Math.abs(written) >= PLACEHOLDER_MIN && !isSun) {
    return 'If this number stands for "nothing measured", leave the cell empty.';
  }
  switch (quantity) {
    case 'temperature':
      return temperatureUnit === 'celsius' && written > 0 && written <= FAHRENHEIT_MOST
        ? 'If the column is in degrees Fahrenheit, name file and columns in the farm file under weather, with temperatureUnit: fahrenheit.'
        : 'Look at the unit of the column and at this row.';
    case 'humidity':
      return 'The column must be relative humidity in percent.';
    case 'sun':
      return 'The column must be global radiation in W/m², not energy over the hour.';
    case 'wind':
      return 'The column must be wind in metres per second.';
  }
};
