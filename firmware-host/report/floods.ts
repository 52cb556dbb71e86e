import type { Verdict } from '../../src/verify/verdict.ts';
import { centralOf, type Rehearsal } from '../cli/rehearsal.ts';

/** How a flood ended, or that the span ended before its verdict. */
export type FloodEnd = Verdict['kind'] | 'not-judged';

export interface ToldFlood {
  /** Its start; of one that was withheld, when that was said. */
  readonly atMillis: number;
  /** Null of one that never began. */
  readonly minutes: number | null;
  readonly part: string;
  readonly end: FloodEnd;
  /** Why it began then. */
  readonly reason: string;
  /** What its verdict says. */
  readonly says: string;
}

/** Every flood of the central run that began in the span or was due in it, in order. */
export const floodsOf = (rehearsal: Rehearsal): readonly ToldFlood[] => {
  const { entries } = centralOf(rehearsal);
  const verdicts = new Map(
    entries.flatMap((entry) => (entry.kind === 'verdict' ? [[entry.flood, entry.verdict] as const] : [])),
  );
  const begun = entries.flatMap((entry): readonly ToldFlood[] => {
    if (entry.kind !== 'flood-started') return [];
    const verdict = verdicts.get(entry.flood);
    return [
      {
        atMillis: entry.at,
        minutes: entry.minutes,
        part: entry.part,
        end: verdict?.kind ?? 'not-judged',
        reason: entry.reason,
        says: verdict?.says ?? '',
      },
    ];
  });
  const started = new Set(entries.flatMap((entry) => (entry.kind === 'flood-started' ? [entry.flood] : [])));
  // Withheld before it began, or begun before the span and gone wrong in it.
  const others = entries.flatMap((entry): readonly ToldFlood[] =>
    entry.kind === 'verdict' && !started.has(entry.flood) && entry.verdict.kind !== 'confirmed'
      ? [
          {
            atMillis: entry.at,
            minutes: null,
            part: entry.part,
            end: entry.verdict.kind,
            reason: '',
            says: entry.verdict.says,
          },
        ]
      : [],
  );
  return [...begun, ...others]
    .filter(({ atMillis }) => atMillis < rehearsal.endMillis)
    .sort((a, b) => a.atMillis - b.atMillis);
};
