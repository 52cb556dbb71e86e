import { alarmSpans } from '../alarm-log.ts';
import { deathsIn } from '../deaths.ts';
import type { Breach, Broken, Check } from '../record.ts';
import { isUnplanned, restsBetween } from '../rests.ts';
import { disturbed, HOST_AWAY, MINUTE } from '../stretches.ts';

/** A reading is stale after ten minutes; the rest that runs then is measured anew. */
const STALE_MINUTES = 11;
const SETTLED_MINUTES = 25;
const SLACK_MINUTES = 6;
/** Stale, ten minutes more, a quiet look. */
const TOLD_MINUTES = 30;

/** Air that is heard of no more, or that cannot be air. */
const isNoAir = ({ name, channel }: Broken): boolean =>
  name === 'air-silent' || name === 'air-open' || (name === 'sensor-off' && channel === 'air-temperature');

/** I11: without a good temperature the plan is at its wet end, and somebody is told. */
export const notGood: Check = (record) => {
  const { farm, broken, endMillis } = record;
  const { restMinutesByDay, restMinutesByNight } = farm.bounds;
  const wettest = Math.max(restMinutesByDay.shortest, restMinutesByNight.shortest) + SLACK_MINUTES;
  const rests = restsBetween(record);
  const spans = alarmSpans(record).filter(({ alarm }) => alarm === 'no-good-temperature');
  // A thermometer that fails in a second way at the same time may well show something that air can be.
  const masked = (fault: Broken): boolean =>
    broken.some(
      (other) =>
        other !== fault &&
        (other.channel === 'air-temperature' || other.name === 'air-in-sun') &&
        other.fromMillis < fault.untilMillis &&
        fault.fromMillis < other.untilMillis,
    );
  const plain = broken.filter((fault) => isNoAir(fault) && !masked(fault));
  return plain.flatMap((fault): readonly Breach[] => {
    const found: Breach[] = [];
    const settled = fault.fromMillis + SETTLED_MINUTES * MINUTE;
    for (const rest of rests) {
      const minutes = (rest.untilMillis - rest.fromMillis) / MINUTE;
      if (rest.fromMillis < settled || rest.untilMillis > fault.untilMillis || minutes <= wettest) continue;
      if (isUnplanned(record, rest) || deathsIn(record, rest).length > 0) continue;
      found.push({
        invariant: 'I11',
        atMillis: rest.untilMillis,
        words: `a rest of ${minutes.toFixed(0)} min without a good temperature`,
      });
    }
    const told = { fromMillis: fault.fromMillis, untilMillis: fault.fromMillis + TOLD_MINUTES * MINUTE };
    if (told.untilMillis > Math.min(fault.untilMillis, endMillis)) return found;
    if (disturbed(record, [...HOST_AWAY, 'late-ticks', 'samples-repeated'], told, STALE_MINUTES))
      return found;
    const stands = spans.some(
      ({ fromMillis, untilMillis }) => fromMillis <= told.untilMillis && untilMillis >= told.untilMillis,
    );
    return stands
      ? found
      : [
          ...found,
          {
            invariant: 'I11',
            atMillis: told.untilMillis,
            words: `nobody was told in ${TOLD_MINUTES} min that the air is not known`,
          },
        ];
  });
};
