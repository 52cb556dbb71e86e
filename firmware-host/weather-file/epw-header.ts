import { readCell } from './cell.ts';
import type { Problems } from './problem.ts';

/** The site of an EPW file, from its first line. */
export interface EpwSite {
  readonly name: string;
  readonly latitudeDegrees: number;
  readonly longitudeDegrees: number;
  /** Of its times, ahead of UTC, all year: standard time. */
  readonly utcOffsetHours: number;
  readonly elevationMetres: number;
}

export interface EpwHeader {
  readonly site: EpwSite;
  /** The first line of data, 1 being the first of the file. */
  readonly firstLine: number;
}

/** EnergyPlus documentation, Auxiliary Programs, EPW data dictionary, LOCATION; places from the left, 0 first. */
const LOCATION = {
  latitudeDegrees: { place: 6, name: 'latitude', least: -90, most: 90 },
  longitudeDegrees: { place: 7, name: 'longitude', least: -180, most: 180 },
  // The dictionary ends at +12; Tonga and Kiribati keep +13 and +14.
  utcOffsetHours: { place: 8, name: 'time zone', least: -12, most: 14 },
  elevationMetres: { place: 9, name: 'elevation', least: -1000, most: 9999.9 },
} as const;

/** The header has eight lines; more are looked through in case comments run on. */
const HEADER_LINES_MAX = 40;
const NAME_LENGTH_MAX = 60;
const RECORDS_PER_HOUR_PLACE = 2;

const ADVICE = 'Leave the header as the file was delivered, or deliver it anew.';

/** Whether a text is an EPW file: by its first word, whatever its name. */
export const isEpw = (text: string): boolean => /^\uFEFF?\s*LOCATION\s*,/i.test(text);

/** What a terminal may be shown of a name that stands in a file. */
const nameFrom = (text: string | undefined): string => {
  const plain = (text ?? '').replace(/[^\p{L}\p{N} .,'()/-]/gu, '').trim();
  return plain === '' ? 'a site without a name' : plain.slice(0, NAME_LENGTH_MAX);
};

const readSite = (line: string, problems: Problems): EpwSite | null => {
  const cells = line.split(',').map((cell) => cell.trim());
  const before = problems.count();
  const read = ({ place, name, least, most }: (typeof LOCATION)[keyof typeof LOCATION]): number => {
    const cell = readCell(cells[place] ?? '', false);
    if (cell.kind === 'number' && cell.value >= least && cell.value <= most) return cell.value;
    problems.add({
      line: 1,
      column: `${name} (LOCATION, field ${place + 1})`,
      found: cell.kind === 'empty' ? 'nothing' : `"${cells[place] ?? ''}"`,
      allowed: `a number from ${least} to ${most}`,
      remedy: ADVICE,
    });
    return NaN;
  };
  const site = {
    name: nameFrom(cells[1]),
    latitudeDegrees: read(LOCATION.latitudeDegrees),
    longitudeDegrees: read(LOCATION.longitudeDegrees),
    utcOffsetHours: read(LOCATION.utcOffsetHours),
    elevationMetres: read(LOCATION.elevationMetres),
  };
  return problems.count() === before ? site : null;
};

/** Reads the lines before the data; null after telling what is wrong with them. */
export const readEpwHeader = (lines: readonly string[], problems: Problems): EpwHeader | null => {
  const site = readSite(lines[0] ?? '', problems);
  const periods = lines.slice(0, HEADER_LINES_MAX).findIndex((line) => /^\s*DATA PERIODS\s*,/i.test(line));
  if (periods === -1) {
    problems.add({
      line: null,
      column: null,
      found: `no line DATA PERIODS among the first ${HEADER_LINES_MAX}`,
      allowed: 'the eight header lines of an EPW file, LOCATION to DATA PERIODS',
      remedy: ADVICE,
    });
    return null;
  }
  const perHour = (lines[periods] ?? '').split(',')[RECORDS_PER_HOUR_PLACE]?.trim() ?? '';
  if (Number(perHour) !== 1) {
    problems.add({
      line: periods + 1,
      column: `records per hour (DATA PERIODS, field ${RECORDS_PER_HOUR_PLACE + 1})`,
      found: perHour === '' ? 'nothing' : `"${perHour}"`,
      allowed: '1',
      remedy: 'Take an hourly file of the same site.',
    });
  }
  return site === null || problems.count() > 0 ? null : { site, firstLine: periods + 2 };
};
