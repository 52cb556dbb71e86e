import { wallMillis } from '../../src/time/instant.ts';
import { localDayOf, type LocalDay } from '../../src/time/local-day.ts';
import type { HourlyRow } from './hourly-row.ts';

interface DayOfRows {
  readonly day: LocalDay;
  readonly minCelsius: number;
  /** From its first row to its last. */
  readonly spanMillis: number;
}

/** Rows over at least this much of a local day surely hold its coolest hour. */
const WHOLE_DAY_MILLIS = 20 * 3_600_000;

const daysOf = (rows: readonly HourlyRow[], timeZone: string): readonly DayOfRows[] => {
  const days: DayOfRows[] = [];
  let open: { day: LocalDay; minCelsius: number; from: number; to: number } | null = null;
  const close = (): void => {
    if (open !== null)
      days.push({ day: open.day, minCelsius: open.minCelsius, spanMillis: open.to - open.from });
  };
  for (const { epochMillis, airCelsius } of rows) {
    if (open !== null && epochMillis < open.day.end) {
      open.minCelsius = Math.min(open.minCelsius, airCelsius);
      open.to = epochMillis;
      continue;
    }
    close();
    const day = localDayOf(wallMillis(epochMillis), timeZone);
    open = { day, minCelsius: airCelsius, from: epochMillis, to: epochMillis };
  }
  close();
  return days;
};

/**
 * The dew point to take for each row when the record does not say how damp the air was: the minimum
 * temperature of its local day (FAO-56, chapter 3, equation 48). The paper warns that in dry places the true
 * dew point lies 2–3 °C lower. A fragment of a day at the rim of the record may lack its coolest
 * hour and takes the minimum of the nearest whole day, unless its own is lower or there is no whole day.
 */
export const dewPointsFromMinimum = (rows: readonly HourlyRow[], timeZone: string): readonly number[] => {
  const days = daysOf(rows, timeZone);
  const whole = days.filter((day) => day.spanMillis >= WHOLE_DAY_MILLIS);
  const minimumOf = (asked: DayOfRows): number => {
    if (asked.spanMillis >= WHOLE_DAY_MILLIS || whole.length === 0) return asked.minCelsius;
    const distance = ({ day }: DayOfRows): number => Math.abs(day.start - asked.day.start);
    const nearest = whole.reduce((best, day) => (distance(day) < distance(best) ? day : best));
    return Math.min(asked.minCelsius, nearest.minCelsius);
  };
  const minima = days.map(minimumOf);
  let at = 0;
  return rows.map(({ epochMillis }) => {
    while (epochMillis >= (days[at]?.day.end ?? Infinity)) at += 1;
    return minima[at] ?? NaN;
  });
};
