import type { RunRecord, Stretch } from './record.ts';
import { CLOCKS_ASTRAY, disturbed } from './stretches.ts';

/** The stretches without power that have a moment in common with this one. */
export const deathsIn = ({ broken }: RunRecord, span: Stretch): readonly Stretch[] =>
  broken.filter(
    ({ name, fromMillis, untilMillis }) =>
      name === 'host-killed' && fromMillis <= span.untilMillis && span.fromMillis <= untilMillis,
  );

/** How long nobody was there in this stretch, from its first death on. */
export const deadMillisIn = (record: RunRecord, span: Stretch): number =>
  deathsIn(record, span).reduce(
    (sum, { fromMillis, untilMillis }) => sum + untilMillis - Math.max(fromMillis, span.fromMillis),
    0,
  );

/**
 * Whether no clock told the next host how long nobody had been there: a doubt about the clock that stood at a death stays, for
 * then there is nothing left to hold the clock against.
 */
export const deathsUntimed = (record: RunRecord, deaths: readonly Stretch[]): boolean =>
  deaths.some(({ untilMillis }) =>
    disturbed(record, CLOCKS_ASTRAY, { fromMillis: record.startMillis, untilMillis }),
  );
