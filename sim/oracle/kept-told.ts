import { rowsOf, type RunRecord, type Stretch } from './record.ts';

/** The board tells whole seconds, and its word takes a moment. */
const TOLD_MILLIS = 2000;

/** The runs of the pump that a board has told of afterwards, as the journal has them. */
export const keptTold = (record: RunRecord): readonly Stretch[] =>
  rowsOf(record, 'kept-run').map(({ atMillis, entry }) => {
    const fromMillis = atMillis - (entry.at - entry.startedAt);
    return { fromMillis, untilMillis: fromMillis + 1000 * entry.seconds };
  });

/** Whether the journal has this run of a board that keeps the plants: told of afterwards, or taken over as it ran. */
export const isKeptTold = (record: RunRecord, run: Stretch): boolean =>
  record.keeps === true &&
  (keptTold(record).some(({ fromMillis }) => Math.abs(fromMillis - run.fromMillis) <= TOLD_MILLIS) ||
    rowsOf(record, 'flood-started').some(
      ({ atMillis }) => run.fromMillis < atMillis && atMillis <= run.untilMillis,
    ) ||
    // A host with a flood in hand that finds its board pumping counts that as a try of its own.
    rowsOf(record, 'link-found').some(
      ({ atMillis, entry }) =>
        entry.keeper === 'kept' && run.fromMillis < atMillis && atMillis <= run.untilMillis,
    ) ||
    run.untilMillis >= record.endMillis);

/** When, on its own clock, a host had this flood in hand that a board had begun before; null for any other. */
export const tookOverAt = (record: RunRecord, flood: number, startedAt: number): number | null => {
  const begun = rowsOf(record, 'flood-started').find(({ entry }) => entry.flood === flood);
  return record.keeps === true && begun !== undefined && begun.entry.at > startedAt + TOLD_MILLIS
    ? begun.entry.at
    : null;
};
