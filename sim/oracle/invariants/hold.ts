import { deadMillisIn, deathsIn, deathsUntimed } from '../deaths.ts';
import { isLost } from '../lost-records.ts';
import { isHold } from '../orders-given.ts';
import { rowsOf, type Breach, type Check } from '../record.ts';
import { isUnplanned } from '../rests.ts';
import { disturbed, MINUTE, RELAY_BROKEN } from '../stretches.ts';

/** A hold stops the pump within a look of the host. */
const AT_ONCE_MILLIS = 2000;
/** After it a flood that was withheld comes when the shortest rest is over. */
const AFTER_MINUTES = 3;

/** I13: from the moment of a hold to its end the pump stands still, and floods go on by themselves after it. */
export const holdKept: Check = (record) => {
  const { truth, orders, farm, endMillis } = record;
  const shortest = Math.max(farm.bounds.restMinutesByDay.shortest, farm.bounds.restMinutesByNight.shortest);
  return orders.filter(isHold).flatMap(({ atMillis, minutes }): readonly Breach[] => {
    const found: Breach[] = [];
    // An order that means nothing ends no hold.
    const released = orders.find(
      (one) => one.atMillis > atMillis && (isHold(one) || one.order === 'release'),
    );
    const asked = {
      fromMillis: atMillis,
      untilMillis: Math.min(atMillis + (minutes ?? 0) * MINUTE, released?.atMillis ?? Infinity),
    };
    // One that was in memory alone when the power was cut is held until then.
    const forgotten = isLost(record, { fromMillis: atMillis, untilMillis: atMillis });
    const cutMillis = Math.min(...deathsIn(record, asked).map(({ fromMillis }) => fromMillis));
    const untilMillis = forgotten ? Math.min(asked.untilMillis, cutMillis) : asked.untilMillis;
    const held = { fromMillis: atMillis, untilMillis };
    if (
      disturbed(
        record,
        ['link-lost', 'link-flapping', 'board-reset', 'host-frozen', ...RELAY_BROKEN],
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
        row.entry.verdict.kind === 'withheld' && row.atMillis >= atMillis && row.atMillis < untilMillis,
    );
    // Where no clock tells how much of it has gone while nobody was there, none counts as gone: hands may be in the water.
    const deaths = deathsIn(record, held);
    const endsMillis = untilMillis + (deathsUntimed(record, deaths) ? deadMillisIn(record, held) : 0);
    const bornMillis = Math.max(endsMillis, ...deaths.map((death) => death.untilMillis));
    const after = {
      fromMillis: bornMillis + 1,
      untilMillis: bornMillis + (shortest + AFTER_MINUTES) * MINUTE,
    };
    if (
      !owed ||
      forgotten ||
      after.untilMillis > endMillis ||
      deathsIn(record, after).some(({ fromMillis }) => fromMillis > bornMillis) ||
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
