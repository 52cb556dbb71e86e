import { rowsOf, type Breach, type Check } from '../record.ts';
import { disturbed, HOST_AWAY, RELAY_BROKEN } from '../stretches.ts';

/** Nothing beside control may hold a command up for longer. */
const LATE_MILLIS_MOST = 250;
/** Further off than this it is another run. */
const SAME_RUN_MILLIS = 60_000;

/** I8: the pump starts within 250 ms of its command. */
export const isolation: Check = (record) => {
  const starts = record.truth.runs.map(({ fromMillis }) => fromMillis);
  return rowsOf(record, 'pump-asked').flatMap(({ atMillis, entry }): readonly Breach[] => {
    if (entry.pump !== 'on') return [];
    const span = { fromMillis: atMillis, untilMillis: atMillis + SAME_RUN_MILLIS };
    if (disturbed(record, RELAY_BROKEN, span, 1, 1) || disturbed(record, HOST_AWAY, span, 1)) return [];
    const start = starts.find((from) => from >= atMillis - 1);
    if (start === undefined || start - atMillis > SAME_RUN_MILLIS) return [];
    const late = start - atMillis;
    return late > LATE_MILLIS_MOST
      ? [{ invariant: 'I8', atMillis, words: `the pump started ${late.toFixed(0)} ms after its command` }]
      : [];
  });
};
