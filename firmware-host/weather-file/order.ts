import type { Problems } from './problem.ts';

/** A straight line over a longer hole would invent a noon or a dawn. */
export const HOLE_HOURS_MAX = 3;
/** Rows further apart than this leave out an hour. */
const HOLE_HOURS_MIN = 1.5;
const HOUR_MILLIS = 3_600_000;

/** A row and its time. */
export interface Stamp {
  readonly line: number;
  readonly epochMillis: number;
}

/** Follows instants down a file. */
export interface Order {
  /** The stamp above that this one does not come after; null when it does, and is followed from now on. */
  readonly follow: (stamp: Stamp) => Stamp | null;
  /** Marks that the hour of the stamp has weather; tells when too long a hole lies before it. */
  readonly mark: (stamp: Stamp) => void;
  /** Holes short enough to be bridged. */
  readonly holesBridged: () => number;
}

const hoursText = (hours: number): string => String(Math.round(hours * 10) / 10);

/** @param shown a time as the reader of the file knows it */
export const followOrder = (
  column: string,
  shown: (epochMillis: number) => string,
  problems: Problems,
): Order => {
  let latest: Stamp | null = null;
  let marked: number | null = null;
  let holes = 0;
  return {
    follow: (stamp) => {
      if (latest !== null && stamp.epochMillis <= latest.epochMillis) return latest;
      latest = stamp;
      return null;
    },
    mark: ({ line, epochMillis }) => {
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
