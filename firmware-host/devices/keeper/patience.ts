import { afterSeconds, secondsBetween, type MonotonicMillis } from '../../../src/time/instant.ts';

interface Tried {
  /** In a row, each of a line that was there. */
  readonly failures: number;
  readonly notBefore: MonotonicMillis;
  /** Whether the system lists this line while it is there: not every name that a person gives is listed. */
  readonly listed: boolean;
}

/**
 * How soon the line of a board with a keeper is opened again, by its name. Opening it resets most boards, and a reset
 * stops the pump: a host that can open the line and not hold it must not take every flood away from the keeper, nor
 * from that of another shed.
 */
export type Patience = ReadonlyMap<string, Tried>;

export const NO_TRIES: Patience = new Map();

/** After the first failure at once; after many the keeper gets whole floods between two tries. */
const PAUSE_SECONDS = [0, 10, 60, 300, 1800, 3600] as const;
/** A connection that held for so long was none of the failures in a row. */
const HELD_SECONDS = 300;

export const afterFailure = (
  patience: Patience,
  line: string,
  heldSince: MonotonicMillis | null,
  now: MonotonicMillis,
): Patience => {
  const held = heldSince !== null && secondsBetween(heldSince, now) >= HELD_SECONDS;
  const before = patience.get(line);
  const failures = held ? 1 : (before?.failures ?? 0) + 1;
  const pause = PAUSE_SECONDS[Math.min(failures, PAUSE_SECONDS.length) - 1] ?? 0;
  return new Map(patience).set(line, {
    failures,
    notBefore: afterSeconds(now, pause),
    listed: before?.listed ?? false,
  });
};

/** A line that has not been there is one that a person has plugged in anew: its board has been reset already. */
export const afterListing = (patience: Patience, lines: readonly string[]): Patience =>
  new Map(
    [...patience]
      .filter(([line, { listed }]) => !listed || lines.includes(line))
      .map(([line, tried]) => [line, { ...tried, listed: lines.includes(line) }]),
  );

/** A line that ended, or could not be opened, is not there, or will be another one. */
export const afterEnd = (patience: Patience, line: string): Patience =>
  new Map([...patience].filter(([name]) => name !== line));

/** Whether a keeper was once found on this line, since it was plugged in. */
export const isKnownLine = (patience: Patience, line: string): boolean => patience.has(line);

export const mayOpen = (patience: Patience, line: string, now: MonotonicMillis): boolean => {
  const tried = patience.get(line);
  return tried === undefined || now >= tried.notBefore;
};
