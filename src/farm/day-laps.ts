import type { WallMillis } from '../time/instant.ts';
import { dayAfter, dayBefore, localDayOn, type LocalDay } from '../time/local-day.ts';
import { itemAt } from '../units/assertion.ts';
import type { Boundary } from './schema.ts';

/**
 * A lap is one round through the day plan, beginning with the first part on the lap's own day. The parts
 * after it begin on that day or the next: `22:00, 06:00` needs the 06:00 of the day after. With sun times
 * near midnight (`sunset+03:00`) it may also be the day before. The lap order holds which, one number for
 * each part; it is the same all year.
 */
export type LapOrder = readonly DayStep[];
type DayStep = -1 | 0 | 1;

export type InstantOf = (boundary: Boundary, day: LocalDay) => WallMillis;

/** Days of every season: a plan in order all year is in order on these, and no order but its own is. */
const SEASONS = ['03-21', '06-21', '09-22', '12-21'] as const;
/** Day plans are ordered and checked on a leap year, whichever year it is: 366 days, the same verdict always. */
export const YEAR_OF_JUDGEMENT = 2028;
const STEPS: readonly DayStep[] = [-1, 0, 1];

/** The local day on which a lap begins, with its neighbours. */
export interface LapDays {
  readonly before: LocalDay;
  readonly on: LocalDay;
  readonly after: LocalDay;
}

export const lapDaysOf = (on: LocalDay): LapDays => ({ before: dayBefore(on), on, after: dayAfter(on) });
export const lapDaysAfter = ({ on, after }: LapDays): LapDays => ({
  before: on,
  on: after,
  after: dayAfter(after),
});

const dayAtStep = (days: LapDays, step: DayStep): LocalDay => {
  if (step === 0) return days.on;
  return step > 0 ? days.after : days.before;
};

/** Where each part of a lap begins, in the order of the plan. */
export const lapStarts = (
  boundaries: readonly Boundary[],
  order: LapOrder,
  days: LapDays,
  instantOf: InstantOf,
): readonly WallMillis[] =>
  boundaries.map((boundary, place) => instantOf(boundary, dayAtStep(days, order[place] ?? 0)));

/** The starts of a lap's parts and, last, that of the first part of the next lap. */
export const wholeLap = (
  boundaries: readonly Boundary[],
  order: LapOrder,
  days: LapDays,
  instantOf: InstantOf,
): readonly WallMillis[] => [
  ...lapStarts(boundaries, order, days, instantOf),
  instantOf(itemAt(boundaries, 0), days.after),
];

/** Length of each part of a whole lap in milliseconds; below 0 where the next part begins before this one. */
export const partMillis = (lap: readonly WallMillis[]): readonly number[] =>
  lap.slice(1).map((end, place) => end - itemAt(lap, place));

const turnedMillis = (lap: readonly WallMillis[]): number =>
  partMillis(lap).reduce((sum, millis) => sum + Math.max(0, -millis), 0);

/** Each part begins as soon as possible after the one before it. */
const soonestOrder = (boundaries: readonly Boundary[], days: LapDays, instantOf: InstantOf): LapOrder => {
  let earliest: WallMillis | null = null;
  return boundaries.map((boundary): DayStep => {
    const after: WallMillis | null = earliest;
    const step: DayStep =
      after === null
        ? 0
        : (STEPS.find((candidate) => instantOf(boundary, dayAtStep(days, candidate)) >= after) ?? 1);
    earliest = instantOf(boundary, dayAtStep(days, step));
    return step;
  });
};

/** The order in which the plan runs; for a plan that cannot, the one that fails least over the seasons. */
export const lapOrderOf = (
  boundaries: readonly Boundary[],
  timeZone: string,
  instantOf: InstantOf,
): LapOrder => {
  const seasons = SEASONS.map((date) => lapDaysOf(localDayOn(`${YEAR_OF_JUDGEMENT}-${date}`, timeZone)));
  let best = { order: boundaries.map((): DayStep => 0), turned: Infinity };
  for (const season of seasons) {
    const order = soonestOrder(boundaries, season, instantOf);
    const turned = seasons.reduce(
      (sum, other) => sum + turnedMillis(wholeLap(boundaries, order, other, instantOf)),
      0,
    );
    if (turned < best.turned) best = { order: [...order], turned };
  }
  return best.order;
};
