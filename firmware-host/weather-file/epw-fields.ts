import { BOUNDS } from './bounds.ts';
import { readCell } from './cell.ts';
import type { Problems } from './problem.ts';

/**
 * What is read of a row of an EPW file: EnergyPlus documentation, Auxiliary Programs, "EnergyPlus Weather File (EPW) Data
 * Dictionary", whose numbers for missing values these are. Where it allows more than is weather for leaf
 * crops the bounds are those of every weather file.
 */
export interface EpwField {
  /** From the left, 0 first. */
  readonly place: number;
  readonly name: string;
  readonly unit: string;
  readonly least: number;
  readonly most: number;
  /** This and above stand for "not measured". */
  readonly missing: number;
  readonly remedy: string;
}

/** Of a row of data. */
export const FIELDS = 35;

const SHIFTED = 'Look for a comma too many or too few in this row, or leave the file as it was delivered.';
const asMissing = (mark: string): string => `If nothing was measured, write ${mark}.`;

export type EpwQuantity = 'temperature' | 'dewPoint' | 'humidity' | 'pressure' | 'sun' | 'wind';

export const EPW_FIELDS: Readonly<Record<EpwQuantity, EpwField>> = {
  temperature: {
    ...BOUNDS.temperature,
    place: 6,
    name: 'dry bulb temperature',
    missing: 99.9,
    remedy: asMissing('99.9'),
  },
  dewPoint: {
    ...BOUNDS.temperature,
    place: 7,
    name: 'dew point temperature',
    least: -70,
    missing: 99.9,
    remedy: asMissing('99.9'),
  },
  // Above 100 % is a wet instrument; the format allows it.
  humidity: {
    ...BOUNDS.humidity,
    place: 8,
    name: 'relative humidity',
    most: 110,
    missing: 999,
    remedy: asMissing('999'),
  },
  // Nothing here needs the pressure, but no other field has such numbers: it shows at once when fields are shifted.
  pressure: {
    place: 9,
    name: 'station pressure',
    unit: 'Pa',
    least: 31_000,
    most: 120_000,
    missing: 999_999,
    remedy: SHIFTED,
  },
  sun: {
    ...BOUNDS.sun,
    place: 13,
    name: 'global horizontal radiation',
    unit: 'Wh/m²',
    least: 0,
    missing: 9999,
    remedy: asMissing('9999'),
  },
  wind: { ...BOUNDS.wind, place: 21, name: 'wind speed', missing: 999, remedy: asMissing('999') },
};

/** `dry bulb temperature (field 7)` */
export const fieldName = ({ name, place }: { readonly name: string; readonly place: number }): string =>
  `${name} (field ${place + 1})`;

/** The number in a field, null where nothing was measured, or that it was refused and told. */
export const readField = (
  line: number,
  cells: readonly string[],
  field: EpwField,
  problems: Problems,
): number | null | 'refused' => {
  const text = (cells[field.place] ?? '').trim();
  const cell = readCell(text, false);
  if (cell.kind === 'empty') return null;
  const at = { line, column: fieldName(field) };
  const allowed = `${field.least} to ${field.most} ${field.unit}, or ${field.missing} for nothing measured`;
  if (cell.kind === 'not-a-number') {
    problems.add({ ...at, found: `"${text}"`, allowed, remedy: SHIFTED });
    return 'refused';
  }
  if (cell.value >= field.missing) return null;
  if (cell.value >= field.least && cell.value <= field.most) return cell.value;
  problems.add({ ...at, found: `${text} ${field.unit}`, allowed, remedy: field.remedy });
  return 'refused';
};
