import { rowsOf, type RunRecord } from './record.ts';
import { MINUTE, seeps } from './stretches.ts';

/** The longest flood with its retries, and the quiet after which a sensor is trusted again. */
const BEFORE_MINUTES = 70;

const endsUnproven = (record: RunRecord, atMillis: number): boolean =>
  rowsOf(record, 'verdict').some((row) => row.atMillis === atMillis && row.entry.verdict.kind === 'unproven');

/**
 * Whether slowly draining channels truly keep the return sensor from proving floods at the moment at which that is told: while
 * they drain, or with the end of a flood that is unproven as they drained into the rest before it.
 */
export const seepingTold = (record: RunRecord, atMillis: number): boolean => {
  if (seeps(record, atMillis)) return true;
  if (!endsUnproven(record, atMillis)) return false;
  const minutes = Array.from({ length: BEFORE_MINUTES }, (_, minute) => minute);
  return minutes.some((minute) => seeps(record, atMillis - minute * MINUTE));
};
