import { bounded } from '../../src/units/bounded.ts';
import { monthCurve } from './month-curve.ts';
import { residualDays } from './residuals.ts';
import type { DayExtremes } from './solar-turn.ts';

/** What one month is usually like. */
export interface ClimateMonth extends DayExtremes {
  /** Mean over the day; where it is not known the dew point is taken at the day's lowest temperature. */
  readonly humidityPercent?: number | undefined;
}

/** What a place is usually like. */
export interface Climate {
  /** January first, twelve of them. */
  readonly monthly: readonly ClimateMonth[];
  /** Standard deviation of a day's extremes about their means for the season. */
  readonly spreadCelsius: number;
  /** Near the coast the same range goes with more sun: FAO-56 eq. 50. */
  readonly site: 'inland' | 'coast';
}

/** A date, with months from 0. */
export interface CalendarDay {
  readonly month: number;
  readonly dayOfMonth: number;
  readonly daysInMonth: number;
}

/** A day has an afternoon, however dull. Common sense, no source. */
const RANGE_CELSIUS_MIN = 1;
/** Beyond these no leaf crop is grown, and the formulas for vapour were not fitted far outside. */
const CELSIUS = { least: -30, most: 55 } as const;

/** Kept apart by the least range about their middle, so that the mean stays what it was. */
const apart = (minCelsius: number, maxCelsius: number): DayExtremes => {
  const middle = (minCelsius + maxCelsius) / 2;
  const half = Math.max(maxCelsius - minCelsius, RANGE_CELSIUS_MIN) / 2;
  return {
    minCelsius: bounded(middle - half, CELSIUS.least, CELSIUS.most - RANGE_CELSIUS_MIN),
    maxCelsius: bounded(middle + half, CELSIUS.least + RANGE_CELSIUS_MIN, CELSIUS.most),
  };
};

/** Lowest and highest temperature of each of the days, drawn about the means of their season. */
export const drawnExtremes = (
  { monthly, spreadCelsius }: Climate,
  days: readonly CalendarDay[],
  normal: () => number,
): readonly DayExtremes[] => {
  const minAt = monthCurve(monthly.map(({ minCelsius }) => minCelsius));
  const maxAt = monthCurve(monthly.map(({ maxCelsius }) => maxCelsius));
  const residuals = residualDays(days.length, normal);
  return days.map(({ month, dayOfMonth, daysInMonth }, place) => {
    const share = (dayOfMonth - 0.5) / daysInMonth;
    const { max = 0, min = 0 } = residuals[place] ?? {};
    return apart(minAt(month, share) + spreadCelsius * min, maxAt(month, share) + spreadCelsius * max);
  });
};
