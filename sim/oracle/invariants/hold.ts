import { rowsOf, type Breach, type Check } from '../record.ts';
import { isUnplanned } from '../rests.ts';
import { disturbed, MINUTE, RELAY_BROKEN } from '../stretches.ts';

/** A hold stops the pump within a look of the host. */
const AT_ONCE_MILLIS = 2000;
const HOLD_MINUTES = 30;
/** After it a flood that was withheld comes when the shortest rest is over. */
const AFTER_MINUTES = 3;

/** I13: from the moment of a hold to its end the pump stands still, and floods go on by themselves after it. */
export const holdKept: Check = (record) => {
  const { truth, rows, farm, endMillis } = record;
  const shortest = Math.max(farm.bounds.restMinutesByDay.shortest, farm.bounds.restMinutesByNight.shortest);
  return rowsOf(record, 'order').flatMap(({ atMillis, entry, life }): readonly Breach[] => {
    if (entry.order !== 'hold' || entry.who !== 'somebody') return [];
    const found: Breach[] = [];
    const released = rows.find(
      (row) =>
        row.seq > 0 &&
        row.life === life &&
        row.atMillis > atMillis &&
        row.entry.kind === 'order' &&
        row.entry.order !== 'flood-now',
    );
    const untilMillis = Math.min(atMillis + HOLD_MINUTES * MINUTE, released?.atMillis ?? Infinity);
    const held = { fromMillis: atMillis, untilMillis };
    if (
      disturbed(
        record,
        ['link-lost', 'link-flapping', 'board-reset', 'host-killed', 'host-frozen', ...RELAY_BROKEN],
        held,
        2,
      )
    ) {
      return [];
    }
    const ran = truth.runs.find(
      (run) => run.untilMillis > atMillis + AT_ONCE_MILLIS && run.fromMillis < untilMillis - 1000,
    );
    if (ran !== undefined) {
      found.push({
        invariant: 'I13',
        atMillis: Math.max(atMillis, ran.fromMillis),
        words: 'the pump ran while somebody held it',
      });
    }
    const owed = rowsOf(record, 'verdict').some(
      (row) =>
        row.life === life &&
        row.entry.verdict.kind === 'withheld' &&
        row.atMillis >= atMillis &&
        row.atMillis < untilMillis,
    );
    const after = {
      fromMillis: untilMillis + 1,
      untilMillis: untilMillis + (shortest + AFTER_MINUTES) * MINUTE,
    };
    if (
      !owed ||
      after.untilMillis > endMillis ||
      isUnplanned({ ...record, broken: record.broken.filter(({ name }) => name !== 'hold') }, after)
    ) {
      return found;
    }
    const resumed = truth.runs.some(
      ({ fromMillis }) => fromMillis >= untilMillis - 1000 && fromMillis <= after.untilMillis,
    );
    return resumed
      ? found
      : [
          ...found,
          {
            invariant: 'I13',
            atMillis: after.untilMillis,
            words: 'no flood came after the end of a hold, though one was owed',
          },
        ];
  });
};
