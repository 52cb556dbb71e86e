import type { Floods } from '../../src/plan/planned-floods.ts';

const MINUTES_PER_DAY = 1440;
const MINUTES_PER_HOUR = 60;

/** What a plan asks of the pump, a day on average, or at the most where a limit is to be held. */
export interface Cost {
  /** Begun in the tuned day parts, a day. */
  readonly floods: number;
  readonly startsADay: number;
  readonly pumpMinutesADay: number;
  readonly startsAnHourMost: number;
  readonly longestRestMinutes: number;
}

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

const costUnder = (
  { begins, ends }: Floods,
  { fromMinute, untilMinute }: { readonly fromMinute: number; readonly untilMinute: number },
  within: Uint8Array,
): Cost => {
  let floods = 0;
  let starts = 0;
  let pumpMinutes = 0;
  let startsAnHourMost = 0;
  let longestRestMinutes = 0;
  let hourFrom = 0;
  for (let place = 0; place < begins.length; place += 1) {
    const begin = begins[place] ?? NaN;
    if (begin < fromMinute) continue;
    while ((begins[hourFrom] ?? NaN) <= begin - MINUTES_PER_HOUR) hourFrom += 1;
    if (begin >= untilMinute) break;
    startsAnHourMost = Math.max(startsAnHourMost, place - hourFrom + 1);
    longestRestMinutes = Math.max(longestRestMinutes, begin - (ends[place - 1] ?? begin));
    starts += 1;
    if (within[Math.floor(begin)] === 1) floods += 1;
    pumpMinutes += (ends[place] ?? NaN) - begin;
  }
  const days = (untilMinute - fromMinute) / MINUTES_PER_DAY;
  return {
    floods: floods / days,
    startsADay: starts / days,
    pumpMinutesADay: pumpMinutes / days,
    startsAnHourMost,
    longestRestMinutes,
  };
};

/** Over all skies: the mean of what is used, the most of what is limited. */
export const costOf = (
  floodsBySky: readonly Floods[],
  stretch: { readonly fromMinute: number; readonly untilMinute: number },
  within: Uint8Array,
): Cost => {
  const costs = floodsBySky.map((floods) => costUnder(floods, stretch, within));
  return {
    floods: mean(costs.map(({ floods }) => floods)),
    startsADay: mean(costs.map(({ startsADay }) => startsADay)),
    pumpMinutesADay: mean(costs.map(({ pumpMinutesADay }) => pumpMinutesADay)),
    startsAnHourMost: Math.max(...costs.map((cost) => cost.startsAnHourMost)),
    longestRestMinutes: Math.max(...costs.map((cost) => cost.longestRestMinutes)),
  };
};
