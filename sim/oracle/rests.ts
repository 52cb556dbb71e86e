import type { Channel } from '../../src/ports/sample.ts';
import { rowsOf, type RunRecord, type Stretch } from './record.ts';
import { disturbed, HOST_HINDERED, MINUTE, NO_WATER, RELAY_BROKEN, stepAt } from './stretches.ts';

/** A run shorter than this may be a trial pulse or a retry, and ends no rest; */
const RUN_SECONDS_LEAST = 200;
/** the first try of a flood does, which may be as short as this, */
const TRY_SECONDS_LEAST = 170;
/** or shorter, where what tells of its power lies, and a whole run comes after the pauses of two more. */
const TRIES_MINUTES = 8;
const SAME_MILLIS = 1500;
/** Sensors that may shorten or stop floods. */
const LOCKING: readonly Channel[] = ['tank-float', 'tank-level', 'leak', 'overflow'];
const TANK_LOW_LITRES = 30;

const wholeRuns = (record: RunRecord): readonly Stretch[] => {
  const begun = rowsOf(record, 'flood-started').map(({ atMillis }) => atMillis);
  const seconds = (run: Stretch): number => (run.untilMillis - run.fromMillis) / 1000;
  return record.truth.runs.filter((run, place, runs) => {
    const isFirstTry = begun.some((atMillis) => Math.abs(atMillis - run.fromMillis) <= SAME_MILLIS);
    const followed = runs
      .slice(place + 1)
      .some(
        (later) =>
          later.fromMillis <= run.fromMillis + TRIES_MINUTES * MINUTE && seconds(later) >= RUN_SECONDS_LEAST,
      );
    return seconds(run) >= (isFirstTry ? TRY_SECONDS_LEAST : RUN_SECONDS_LEAST) || (isFirstTry && followed);
  });
};

/** Rests between whole runs of the pump, as they truly were. */
export const restsBetween = (record: RunRecord): readonly Stretch[] => {
  const whole = wholeRuns(record);
  return whole.slice(1).map((run, place) => ({
    fromMillis: whole[place]?.untilMillis ?? run.fromMillis,
    untilMillis: run.fromMillis,
  }));
};

/** The same, with the one before the first run and the one that is still open when the run of the campaign ends. */
export const restsWithEnds = (record: RunRecord): readonly Stretch[] => {
  const { startMillis, endMillis, truth } = record;
  const whole = wholeRuns(record);
  const last = whole.at(-1)?.untilMillis ?? startMillis;
  // A run that the end cuts short may have been going to be whole.
  const running = truth.runs.findLast(({ fromMillis }) => fromMillis >= last);
  const openUntilMillis =
    running !== undefined && running.untilMillis >= endMillis ? running.fromMillis : endMillis;
  return [
    { fromMillis: startMillis, untilMillis: whole[0]?.fromMillis ?? startMillis },
    ...restsBetween(record),
    { fromMillis: last, untilMillis: openUntilMillis },
  ];
};

/**
 * Whether something other than the plan may have made this rest longer or shorter: what is broken, or a tank that is low. A
 * host that has lost its power is not among it: the one after it goes on with what was kept.
 */
export const isUnplanned = (record: RunRecord, rest: Stretch): boolean => {
  const { farm, truth, broken } = record;
  const low = truth.tankLitres
    .slice(stepAt(record, rest.fromMillis), stepAt(record, rest.untilMillis))
    .some((litres) => litres < farm.tank.dryLitres + TANK_LOW_LITRES);
  const locked = broken.some(
    ({ channel, fromMillis, untilMillis }) =>
      channel !== undefined &&
      LOCKING.includes(channel) &&
      fromMillis < rest.untilMillis &&
      rest.fromMillis - 120 * MINUTE < untilMillis,
  );
  return (
    low ||
    locked ||
    disturbed(record, HOST_HINDERED, rest, 5, 1) ||
    disturbed(record, RELAY_BROKEN, rest, 30, 5) ||
    disturbed(record, ['float-stuck-low', 'flow-stuck-high'], rest, 120) ||
    disturbed(record, NO_WATER, rest, 30)
  );
};
