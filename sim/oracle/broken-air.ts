import { deathsIn } from './deaths.ts';
import type { Broken, RunRecord, Stretch } from './record.ts';
import { disturbed, HOST_AWAY, MINUTE, stepAt } from './stretches.ts';

/** A reading is stale after ten minutes, and what cannot be air is none at once; the rest that runs then is measured anew. */
const ABSENT_MINUTES = 25;
/** Air is never still for three hours. */
const STILL_MINUTES = 180 + ABSENT_MINUTES;
/** Of words of any value between −20 and 60 °C two in three are a jump from the one before; looked at every five minutes. */
const GARBAGE_MINUTES = 45;
/** A thermometer that is wrong reads 16 °C too little. When the air has grown warmer by nearly that it reads what it did before its jump, like one that has come back. */
const BACK_CELSIUS = 12;
/** After one failure of the thermometer the next is held against what it showed before the first, for half a day. */
const HELD_AGAINST_MINUTES = 13 * 60;
/** From look to look of five minutes 16 °C are hardly more than 3 °C a minute: air that grows warmer meanwhile may hide them. */
const LOOK_MINUTES = 5;
/** While the pump runs, or a mains contact is watched, there is a look each minute, and nothing hides them. */
const BUSY_MINUTES = 1.5;

/** Stretches of a broken thermometer in which it must be known that nothing good is known. */
export interface KnownBroken extends Stretch {
  readonly fault: Broken;
}

const ofAir = ({ name, channel }: Broken): boolean =>
  channel === 'air-temperature' || name === 'air-silent' || name === 'air-open' || name === 'air-in-sun';

/** Air that is heard of no more, or that cannot be air. */
export const isNoAir = ({ name, channel }: Broken): boolean =>
  name === 'air-silent' || name === 'air-open' || (name === 'sensor-off' && channel === 'air-temperature');

/** A thermometer that fails in a second way at the same time may well show something that air can be. */
export const isMasked = ({ broken }: RunRecord, fault: Broken, minutesBefore = 0): boolean =>
  broken.some(
    (other) =>
      other !== fault &&
      ofAir(other) &&
      other.fromMillis < fault.untilMillis &&
      fault.fromMillis - minutesBefore * MINUTE < other.untilMillis,
  );

const airAt = (record: RunRecord, atMillis: number): number =>
  record.truth.airCelsius[stepAt(record, atMillis)] ?? NaN;

/** Whether a host that knew the air before was there to see it jump, and looked often enough. */
const jumpIsSeen = (record: RunRecord, fault: Broken): boolean => {
  const { fromMillis } = fault;
  const at = { fromMillis, untilMillis: fromMillis };
  const floods = record.truth.runs.some(
    (run) =>
      run.fromMillis <= fromMillis - BUSY_MINUTES * MINUTE &&
      fromMillis + BUSY_MINUTES * MINUTE <= run.untilMillis,
  );
  const grewNoWarmer =
    airAt(record, fromMillis + LOOK_MINUTES * MINUTE) <= airAt(record, fromMillis - LOOK_MINUTES * MINUTE);
  return (
    (floods || grewNoWarmer || record.farm.evidence.mainsPresent || record.undated === true) &&
    !isMasked(record, fault, HELD_AGAINST_MINUTES) &&
    !disturbed(record, [...HOST_AWAY, 'late-ticks', 'samples-lost'], at, 2 * LOOK_MINUTES, 2 * LOOK_MINUTES)
  );
};

/** When the air has first grown so much warmer than at the start of a fault, or the end of it. */
const warmerFrom = (record: RunRecord, { fromMillis, untilMillis }: Broken): number => {
  const { airCelsius, atMillis } = record.truth;
  const first = stepAt(record, fromMillis);
  const warm = airAt(record, fromMillis) + BACK_CELSIUS;
  const step = airCelsius.findIndex((celsius, place) => place > first && celsius >= warm);
  return Math.min(untilMillis, atMillis[step] ?? Infinity);
};

/**
 * Where the thermometer is broken in a way that can be seen: silent, open, still, jumping about, or wrong by a jump. One that
 * is slow or late, or stands in the sun, or is wrong by no jump that anybody saw, says what the air may well be: no judge can
 * ask a host to know better.
 */
export const knownBroken = (record: RunRecord): readonly KnownBroken[] =>
  record.broken.flatMap((fault): readonly KnownBroken[] => {
    if (!ofAir(fault) || isMasked(record, fault)) return [];
    const deaths = deathsIn(record, fault);
    // A host that begins anew has seen nothing yet.
    const seenFrom = Math.max(fault.fromMillis, ...deaths.map(({ untilMillis }) => untilMillis));
    const { untilMillis } = fault;
    if (isNoAir(fault))
      return [{ fault, fromMillis: fault.fromMillis + ABSENT_MINUTES * MINUTE, untilMillis }];
    if (fault.name === 'sensor-stuck')
      return [{ fault, fromMillis: seenFrom + STILL_MINUTES * MINUTE, untilMillis }];
    if (fault.name === 'sensor-garbage')
      return [{ fault, fromMillis: seenFrom + GARBAGE_MINUTES * MINUTE, untilMillis }];
    if (fault.name !== 'sensor-wrong' || !jumpIsSeen(record, fault)) return [];
    const fromMillis = fault.fromMillis + ABSENT_MINUTES * MINUTE;
    // A new host has nothing to hold it against.
    const until = Math.min(warmerFrom(record, fault), ...deaths.map((death) => death.fromMillis));
    return [{ fault, fromMillis, untilMillis: until }];
  });
