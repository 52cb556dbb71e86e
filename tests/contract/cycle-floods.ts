import type { Farm } from '../../src/farm/farm.ts';
import type { Entry } from '../../src/journal/entry.ts';
import type { Verdict } from '../../src/verify/verdict.ts';

/** A due flood as the journal keeps it, times in milliseconds; `startedAt` is null when it was held back. */
export interface KeptFlood {
  readonly id: number;
  readonly startedAt: number | null;
  readonly verdicts: readonly { readonly verdict: Verdict; readonly at: number }[];
}

export const floodsOf = (journal: readonly Entry[]): readonly KeptFlood[] => {
  const ids = new Set(
    journal.flatMap((entry) =>
      entry.kind === 'flood-started' || entry.kind === 'verdict' ? [entry.flood] : [],
    ),
  );
  const starts = new Map<number, number>();
  const verdicts = new Map<number, KeptFlood['verdicts'][number][]>();
  for (const entry of journal) {
    if (entry.kind === 'flood-started') starts.set(entry.flood, entry.at);
    if (entry.kind !== 'verdict') continue;
    verdicts.set(entry.flood, [
      ...(verdicts.get(entry.flood) ?? []),
      { verdict: entry.verdict, at: entry.at },
    ]);
  }
  return [...ids].map((id) => ({ id, startedAt: starts.get(id) ?? null, verdicts: verdicts.get(id) ?? [] }));
};

export interface Stretch {
  readonly from: number;
  readonly until: number;
}

/** While the host held the board for there. */
export const upStretches = (journal: readonly Entry[], end: number): readonly Stretch[] => {
  const stretches: Stretch[] = [];
  let from: number | null = null;
  for (const { kind, at } of journal) {
    if (kind === 'link-found') from = at;
    if (kind !== 'link-lost' || from === null) continue;
    stretches.push({ from, until: at });
    from = null;
  }
  return from === null ? stretches : [...stretches, { from, until: end }];
};

/** While the host meant the pump to run: until it asked it off, or lost whom it had asked. */
export const meantToRun = (journal: readonly Entry[]): readonly Stretch[] => {
  const stretches: Stretch[] = [];
  let from: number | null = null;
  for (const entry of journal) {
    if (entry.kind === 'pump-asked' && entry.pump === 'on') from ??= entry.at;
    const ends = entry.kind === 'link-lost' || (entry.kind === 'pump-asked' && entry.pump === 'off');
    if (!ends || from === null) continue;
    stretches.push({ from, until: entry.at });
    from = null;
  }
  return stretches;
};

/** A flood that the board withheld, and from when on nothing stood against the one that was owed for it. */
export interface Owed {
  readonly id: number;
  /** With the link up since before; null when it never stayed up so long before the next flood came. */
  readonly mayStartAt: number | null;
  readonly startedAt: number | null;
}

/**
 * What must have passed before an owed flood: the shortest off of the motor since the link came up, the
 * shortest rest since the end of the last flood that began, and the starts of the hour.
 */
export const owedFloods = (farm: Farm, journal: readonly Entry[], end: number): readonly Owed[] => {
  const floods = floodsOf(journal);
  const starts = floods.flatMap(({ startedAt }) => (startedAt === null ? [] : [startedAt]));
  const restMillis = farm.bounds.restMinutesByDay.shortest * 60_000;
  const budgetOver = (at: number): number => {
    const hour = starts.filter((start) => start < at && start > at - 3_600_000);
    return hour.length < farm.bounds.startsPerHour ? at : hour.at(-farm.bounds.startsPerHour)! + 3_600_000;
  };
  return floods.flatMap(({ id, startedAt, verdicts }): readonly Owed[] => {
    const [last] = verdicts;
    if (last?.verdict.kind !== 'withheld' || !last.verdict.says.includes('the board does not answer'))
      return [];
    const next = starts.find((start) => start > last.at) ?? null;
    const endBefore = Math.max(
      -Infinity,
      ...(startedAt === null ? [] : [last.at]),
      ...floods
        .filter((flood) => flood.startedAt !== null && flood.startedAt < last.at)
        .flatMap((flood) => flood.verdicts.map(({ at }) => at))
        .filter((at) => at <= last.at),
    );
    const mayStart = upStretches(journal, end)
      .filter(({ until }) => until > last.at)
      .map(({ from, until }) => ({
        at: budgetOver(Math.max(from + farm.pump.shortestOffSeconds * 1000, endBefore + restMillis, last.at)),
        until,
      }))
      .find(({ at, until }) => at + LATE_MILLIS < until);
    return [{ id, mayStartAt: mayStart?.at ?? null, startedAt: next }];
  });
};

/** A tick of the host or two, and the reading in between. */
export const LATE_MILLIS = 5000;
