import type { Divider } from './thermistor.ts';

const BITS = 10;

/**
 * Counts of the converter for a resistance above 0 Ω in a divider, with their fraction: the inverse of `dividerReading`.
 * To ground n = 2^bits·R/(R + Rf), to the reference n = 2^bits·Rf/(R + Rf). ATmega328P data sheet, ADC Conversion Result.
 */
export const dividerCounts = (ohms: number, { fixedOhms, thermistor, bits = BITS }: Divider): number =>
  ((1 << bits) * (thermistor === 'to-ground' ? ohms : fixedOhms)) / (ohms + fixedOhms);
