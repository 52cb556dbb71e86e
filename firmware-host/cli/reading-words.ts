import type { NamedReading } from '../../src/sense/readings.ts';
import { wrapped } from './wrap.ts';

/** One reading as a line: name, value with its quality where that is not good, age. */
export const readingLine = (
  name: string,
  reading: {
    readonly quality: string;
    readonly value: string | null;
    readonly ageSeconds: number | null;
    readonly why: string | null;
  },
  columns: number,
): string => {
  const { quality, value, ageSeconds, why } = reading;
  const age = ageSeconds === null ? '' : `${Math.round(ageSeconds)} s old`;
  const said = quality === 'good' ? [value, age] : [value, `${quality.toUpperCase()}: ${why ?? ''}`];
  const words = said.filter((word) => word !== null && word !== '').join(', ');
  return wrapped(`  ${name.padEnd(NAME_COLUMNS)}  ${words}`, columns, NAME_COLUMNS + 4);
};

const NAME_COLUMNS = 14;

/** A reading as plain data. */
export const readingData = ({
  name,
  reading,
}: NamedReading): {
  readonly name: string;
  readonly quality: NamedReading['reading']['quality'];
  readonly value: string | null;
  readonly ageSeconds: number | null;
  readonly why: string | null;
} => ({
  name,
  quality: reading.quality,
  value: reading.quality === 'absent' ? null : reading.value,
  ageSeconds: reading.quality === 'absent' ? null : Math.round(reading.ageSeconds),
  why: reading.quality === 'good' ? null : reading.why,
});
