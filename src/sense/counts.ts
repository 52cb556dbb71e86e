import type { Wiring } from '../farm/farm.ts';
import { betaCelsius, dividerReading, steinhartHartCelsius } from '../physics/thermistor.ts';

/** What the counts of the board's 10-bit converter mean, by the wiring of the farm file. */

const FULL_SCALE = 1023;

/** An open or shorted thermistor is told as absolute zero, which no stage takes for air or water. */
export const NO_CELSIUS = -273.15;

export const thermistorCelsius = (counts: number, part: NonNullable<Wiring['airThermistor']>): number => {
  const reading = dividerReading(counts, { fixedOhms: part.fixedOhms, thermistor: part.wired });
  if (reading.kind !== 'resistance') return NO_CELSIUS;
  return part.steinhartHart === undefined
    ? betaCelsius(reading.ohms, part)
    : steinhartHartCelsius(reading.ohms, part.steinhartHart);
};

const linear = (counts: number, atZero: number, atFullScale: number): number =>
  atZero + ((atFullScale - atZero) * counts) / FULL_SCALE;

/** Counts from either end that are still the end: the converter is true to ±2 counts. */
const RAIL_COUNTS = 2;

/** No number at either end of the scale: there a cut or shorted cable reads like an empty or a full tank. */
export const tankLitresOf = (counts: number, part: NonNullable<Wiring['tankLevel']>): number =>
  counts <= RAIL_COUNTS || counts >= FULL_SCALE - RAIL_COUNTS
    ? Number.NaN
    : linear(counts, part.litresAtZero, part.litresAtFullScale);

export const humidityOf = (counts: number, part: NonNullable<Wiring['humidity']>): number =>
  linear(counts, part.percentAtZero, part.percentAtFullScale);
