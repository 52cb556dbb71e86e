import { alarmSpans } from '../alarm-log.ts';
import { isMasked, isNoAir, knownBroken } from '../broken-air.ts';
import { dayPlanOf, isLightIn } from '../day-plan.ts';
import { deathsIn } from '../deaths.ts';
import { isLost } from '../lost-records.ts';
import type { Breach, Check } from '../record.ts';
import { isUnplanned, restsBetween } from '../rests.ts';
import { disturbed, HOST_AWAY, MINUTE } from '../stretches.ts';
import { partsAreMoved } from '../time-of-day.ts';

const STALE_MINUTES = 11;
/** One look of five minutes at which a thermometer that says anything happens to say what it did before it jumped. */
const SLACK_MINUTES = 6;
/** Stale, ten minutes more, a quiet look. */
const TOLD_MINUTES = 30;

/** I11, its second half: while nothing good is known of the air the plan is at its wet end. */
const wetEnd: Check = (record) => {
  const { restMinutesByDay, restMinutesByNight } = record.farm.bounds;
  const plan = dayPlanOf(record.farm, { fromMillis: record.startMillis, untilMillis: record.endMillis });
  const rests = restsBetween(record).filter(
    (rest) => !isUnplanned(record, rest) && deathsIn(record, rest).length === 0,
  );
  return knownBroken(record).flatMap((known) =>
    rests.flatMap((rest): readonly Breach[] => {
      // As much of the rest as was had meanwhile.
      const untilMillis = Math.min(rest.untilMillis, known.untilMillis);
      const minutes = (untilMillis - Math.max(rest.fromMillis, known.fromMillis)) / MINUTE;
      // A host that does not know the time of day goes by the hot part of it, so day is the wetter of both.
      const shortest =
        isLightIn(plan, rest) && !partsAreMoved(record, rest)
          ? restMinutesByDay.shortest
          : Math.max(restMinutesByDay.shortest, restMinutesByNight.shortest);
      if (minutes <= shortest + SLACK_MINUTES) return [];
      return [
        {
          invariant: 'I11',
          atMillis: untilMillis,
          words: `a rest of ${minutes.toFixed(0)} min without a good temperature (${known.fault.name})`,
        },
      ];
    }),
  );
};

/** And somebody is told of air that is heard of no more, or that cannot be air. */
const told: Check = (record) => {
  const spans = alarmSpans(record).filter(({ alarm }) => alarm === 'no-good-temperature');
  const plain = record.broken.filter((fault) => isNoAir(fault) && !isMasked(record, fault));
  return plain.flatMap((fault): readonly Breach[] => {
    const window = {
      fromMillis: fault.fromMillis,
      untilMillis: fault.fromMillis + TOLD_MINUTES * MINUTE,
    };
    if (window.untilMillis > Math.min(fault.untilMillis, record.endMillis)) return [];
    if (disturbed(record, [...HOST_AWAY, 'late-ticks', 'samples-repeated'], window, STALE_MINUTES)) return [];
    if (isLost(record, window)) return [];
    const stands = spans.some(
      ({ fromMillis, untilMillis }) => fromMillis <= window.untilMillis && untilMillis >= window.untilMillis,
    );
    if (stands) return [];
    return [
      {
        invariant: 'I11',
        atMillis: window.untilMillis,
        words: `nobody was told in ${TOLD_MINUTES} min that the air is not known`,
      },
    ];
  });
};

/** I11: without a good temperature the plan is at its wet end, and somebody is told. */
export const notGood: Check = (record) => [...wetEnd(record), ...told(record)];
