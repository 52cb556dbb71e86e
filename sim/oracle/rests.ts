import type { Channel } from '../../src/ports/sample.ts';
import type { RunRecord, Stretch } from './record.ts';
import { disturbed, HOST_HINDERED, MINUTE, NO_WATER, RELAY_BROKEN, stepAt } from './stretches.ts';

/** A run shorter than this is a sip or a try, and ends no rest. */
const RUN_SECONDS_LEAST = 200;
/** Sensors that may shorten or stop floods. */
const LOCKING: readonly Channel[] = ['tank-float', 'tank-level', 'leak', 'overflow'];
const TANK_LOW_LITRES = 30;

/** Rests between whole runs of the pump, as they truly were. */
export const restsBetween = ({ truth }: RunRecord): readonly Stretch[] => {
  const whole = truth.runs.filter(
    ({ fromMillis, untilMillis }) => untilMillis - fromMillis >= RUN_SECONDS_LEAST * 1000,
  );
  return whole.slice(1).map((run, place) => ({
    fromMillis: whole[place]?.untilMillis ?? run.fromMillis,
    untilMillis: run.fromMillis,
  }));
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
