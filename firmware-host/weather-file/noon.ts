import { clearSkyWattsPerSquareMetre } from '../../src/physics/radiation.ts';
import type { FarmPlace, WeatherRow } from './asked.ts';

const HOUR_MILLIS = 3_600_000;

/** Hours from the farm's mean noon, −12 to 12. */
const fromNoonHours = (epochMillis: number, { longitudeDegrees }: FarmPlace): number => {
  const turns = (epochMillis / HOUR_MILLIS + longitudeDegrees / 15 - 12) / 24;
  return 24 * (turns - Math.round(turns));
};

/**
 * How many minutes later the sun of the file has its middle than a clear sun over the farm; null without sun.
 * @param beforeMillis how long before the time of its row a sun is taken to be: half an hour for the mean of an hour that
 * ends there, 0 for a moment
 */
export const noonLaterMinutes = (
  rows: readonly WeatherRow[],
  farm: FarmPlace,
  beforeMillis: number,
): number | null => {
  let [seen, seenHours, clear, clearHours] = [0, 0, 0, 0];
  for (const { epochMillis, sunWattsPerSquareMetre } of rows) {
    if (sunWattsPerSquareMetre === undefined) continue;
    const middle = epochMillis - beforeMillis;
    const hour = fromNoonHours(middle, farm);
    const expected = clearSkyWattsPerSquareMetre({ ...farm, epochMillis: middle });
    seen += sunWattsPerSquareMetre;
    seenHours += sunWattsPerSquareMetre * hour;
    clear += expected;
    clearHours += expected * hour;
  }
  return seen === 0 || clear === 0 ? null : 60 * (seenHours / seen - clearHours / clear);
};

/** The mean of the past hour taken as its last moment comes half an hour late; so much of it shows. Judgement, no source. */
const NOON_MINUTES = 25;
/** Over fewer days a few cloudy mornings would pass for a late sun. Judgement, no source. */
const DAYS_LEAST = 10;

/** What of a plain record, each row of which is taken as a moment, makes one doubt that it is; empty where nothing does. */
export const noonNotes = (rows: readonly WeatherRow[], farm: FarmPlace): readonly string[] => {
  const hours = rows.filter((row) => row.sunWattsPerSquareMetre !== undefined).length;
  const later = hours < 24 * DAYS_LEAST ? null : noonLaterMinutes(rows, farm, 0);
  if (later === null || Math.abs(later) < NOON_MINUTES) return [];
  const minutes = Math.round(Math.abs(later));
  return [
    later > 0
      ? `its sun is highest about ${minutes} min later than over the farm: where each row holds the mean of the hour before it, write its times half an hour earlier; else look at the time zone`
      : `its sun is highest about ${minutes} min earlier than over the farm: where each row holds the mean of the hour after it, write its times half an hour later; else look at the time zone`,
  ];
};
