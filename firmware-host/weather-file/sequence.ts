import { DateTime } from 'luxon';
import { comesTwice, readMoment, standardTimeZone } from './moment.ts';
import type { Problems } from './problem.ts';

/** A straight line over a longer hole would invent a noon or a dawn. */
export const HOLE_HOURS_MAX = 3;
/** Rows further apart than this leave out an hour. */
const HOLE_HOURS_MIN = 1.5;
const HOUR_MILLIS = 3_600_000;

/** Follows the times down the file. */
export interface Sequence {
  /** The instant of a time cell; null, after telling why, when it is none or does not come after those above. */
  readonly read: (line: number, text: string) => number | null;
  /** Marks that the hour at `epochMillis` has weather; tells when too long a hole lies before it. */
  readonly mark: (line: number, epochMillis: number) => void;
  /** Holes short enough to be bridged. */
  readonly holesBridged: () => number;
}

const hoursText = (hours: number): string => String(Math.round(hours * 10) / 10);

const changedClocksRemedy = (epochMillis: number, timeZone: string): string => {
  const standard = standardTimeZone(epochMillis, timeZone);
  const offsets = 'write the times with their offset, such as 2026-10-25T01:00+01:00';
  if (standard === null) return `Change nothing by hand: ${offsets}.`;
  return `If the record keeps standard time all year, set weather: timeZone: ${standard}; otherwise ${offsets}.`;
};

export const followTimes = (column: string, timeZone: string, problems: Problems): Sequence => {
  const shown = (epochMillis: number): string =>
    DateTime.fromMillis(epochMillis, { zone: timeZone }).toFormat('yyyy-MM-dd HH:mm');
  let latest: { readonly line: number; readonly epochMillis: number } | null = null;
  let marked: number | null = null;
  let holes = 0;

  const tellOrder = (
    line: number,
    text: string,
    epochMillis: number,
    above: number,
    aboveLine: number,
  ): void => {
    const isTwice = comesTwice(text, timeZone);
    problems.add({
      line,
      column,
      found: isTwice
        ? `"${text}", an hour that comes twice on the clocks of ${timeZone}`
        : `"${text}", ${epochMillis === above ? 'the same time as' : 'earlier than'} line ${aboveLine}`,
      allowed: `a time after ${shown(above)}`,
      remedy: isTwice
        ? changedClocksRemedy(epochMillis, timeZone)
        : 'Sort the rows by time and keep one row for each.',
    });
  };

  return {
    read: (line, text) => {
      const moment = readMoment(text, timeZone);
      if (moment.kind === 'not-a-time') {
        const remedy = 'Write date and time as in the example.';
        problems.add({
          line,
          column,
          found: `"${text}"`,
          allowed: 'a time such as 2026-07-14T13:00',
          remedy,
        });
        return null;
      }
      if (moment.kind === 'skipped') {
        const near = DateTime.fromISO(text.slice(0, 10), { zone: timeZone }).toMillis();
        problems.add({
          line,
          column,
          found: `"${text}", an hour that the clocks of ${timeZone} jump over`,
          allowed: 'a time that the clocks show',
          remedy: changedClocksRemedy(near, timeZone),
        });
        return null;
      }
      const { epochMillis } = moment;
      if (latest !== null && epochMillis <= latest.epochMillis) {
        tellOrder(line, text, epochMillis, latest.epochMillis, latest.line);
        return null;
      }
      latest = { line, epochMillis };
      return epochMillis;
    },
    mark: (line, epochMillis) => {
      const hours = marked === null ? 0 : (epochMillis - marked) / HOUR_MILLIS;
      if (marked !== null && hours > HOLE_HOURS_MAX) {
        problems.add({
          line,
          column,
          found: `a hole of ${hoursText(hours)} h, from ${shown(marked)} to ${shown(epochMillis)}`,
          allowed: `at most ${HOLE_HOURS_MAX} h from row to row`,
          remedy:
            'Fill the hole from a neighbouring station, or keep only the part of the record without it.',
        });
      } else if (hours > HOLE_HOURS_MIN) holes += 1;
      marked = epochMillis;
    },
    holesBridged: () => holes,
  };
};
