import { drawnRun } from '../../../sim/campaign/seed.ts';
import type { Broken, RunRecord } from '../../../sim/oracle/record.ts';

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const STEP = 5 * MINUTE;
const FLOOD_HOURS = 1 / 3;

const { farm, startMillis } = drawnRun({ seed: 1, days: 1 });

/** The fault as it stands from one hour of the day to another. */
export const brokenAtHours = (
  name: Broken['name'],
  [from, until]: readonly [number, number],
  channel?: Broken['channel'],
): Broken => ({
  name,
  fromMillis: startMillis + from * HOUR,
  untilMillis: startMillis + until * HOUR,
  ...(channel === undefined ? {} : { channel }),
});

export interface MadeDay {
  /** Minutes of rest after a flood that ends at this hour. */
  readonly rest: (hour: number) => number;
  readonly celsius?: (hour: number) => number;
  readonly broken?: readonly Broken[];
  readonly endHour?: number;
  readonly stretch?: RunRecord['farm']['stretch'];
  readonly mainsPresent?: boolean;
}

/**
 * A day in July of a farm that rests 25 min from 6:00 to half an hour after sunset and 120 min by night at 25 °C, 3 % less a
 * degree, and floods for 20 min; the first flood begins at 0:06.
 */
export const madeDay = ({
  rest,
  celsius = () => 25,
  broken = [],
  endHour = 24,
  stretch = 'never',
  mainsPresent = true,
}: MadeDay): RunRecord => {
  const atMillis = Array.from(
    { length: (endHour * HOUR) / STEP },
    (_, place) => startMillis + (place + 1) * STEP,
  );
  const runs: { fromMillis: number; untilMillis: number }[] = [];
  for (let hour = 0.1; hour < endHour; hour += FLOOD_HOURS + rest(hour + FLOOD_HOURS) / 60) {
    const fromMillis = startMillis + hour * HOUR;
    runs.push({ fromMillis, untilMillis: fromMillis + FLOOD_HOURS * HOUR });
  }
  return {
    farm: { ...farm, stretch, evidence: { ...farm.evidence, mainsPresent } },
    startMillis,
    endMillis: startMillis + endHour * HOUR,
    clearMillis: startMillis,
    broken,
    truth: {
      atMillis,
      held: [],
      inflow: [],
      returning: atMillis.map(() => 0),
      tankLitres: atMillis.map(() => farm.tank.usualLitres),
      airCelsius: atMillis.map((at) => celsius((at - startMillis) / HOUR)),
      way: [],
      drop: [],
      runs,
    },
    thirsty: [],
    rows: [],
    acknowledged: [],
    tries: [],
    orders: [],
  };
};
