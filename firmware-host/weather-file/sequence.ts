import { DateTime } from 'luxon';
import { comesTwice, readMoment, standardTimeZone } from './moment.ts';
import { followOrder, type Stamp } from './order.ts';
import type { Problems } from './problem.ts';

/** Follows the times down the file. */
export interface Sequence {
  /** The instant of a time cell; null, after telling why, when it is none or does not come after those above. */
  readonly read: (line: number, text: string) => number | null;
  /** Marks that the hour at `epochMillis` has weather; tells when too long a hole lies before it. */
  readonly mark: (line: number, epochMillis: number) => void;
  /** Holes short enough to be bridged. */
  readonly holesBridged: () => number;
}

const changedClocksRemedy = (epochMillis: number, timeZone: string): string => {
  const standard = standardTimeZone(epochMillis, timeZone);
  const offsets = 'write the times with their offset, such as 2026-10-25T01:00+01:00';
  if (standard === null) return `Change nothing by hand: ${offsets}.`;
  return `If the record keeps standard time all year, set weather: timeZone: ${standard}; otherwise ${offsets}.`;
};

export const followTimes = (column: string, timeZone: string, problems: Problems): Sequence => {
  const shown = (epochMillis: number): string =>
    DateTime.fromMillis(epochMillis, { zone: timeZone }).toFormat('yyyy-MM-dd HH:mm');
  const order = followOrder(column, shown, problems);

  const tellOrder = ({ line, epochMillis }: Stamp, text: string, above: Stamp): void => {
    const isTwice = comesTwice(text, timeZone);
    problems.add({
      line,
      column,
      found: isTwice
        ? `"${text}", an hour that comes twice on the clocks of ${timeZone}`
        : `"${text}", ${epochMillis === above.epochMillis ? 'the same time as' : 'earlier than'} line ${above.line}`,
      allowed: `a time after ${shown(above.epochMillis)}`,
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
      const above = order.follow({ line, epochMillis });
      if (above === null) return epochMillis;
      tellOrder({ line, epochMillis }, text, above);
      return null;
    },
    mark: (line, epochMillis) => {
      order.mark({ line, epochMillis });
    },
    holesBridged: order.holesBridged,
  };
};
