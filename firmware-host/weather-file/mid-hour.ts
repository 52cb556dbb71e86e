import type { WeatherRow } from './asked.ts';

const HALF_HOUR_MILLIS = 1_800_000;

const between = (before: number | undefined, after: number | undefined, share: number): number | undefined =>
  before === undefined || after === undefined ? undefined : before + (after - before) * share;

const rowOf = (
  epochMillis: number,
  airCelsius: number,
  humidityPercent: number | undefined,
  windMetresPerSecond: number | undefined,
  sunWattsPerSquareMetre: number | undefined,
): WeatherRow => ({
  epochMillis,
  airCelsius,
  ...(humidityPercent === undefined ? {} : { humidityPercent }),
  ...(windMetresPerSecond === undefined ? {} : { windMetresPerSecond }),
  ...(sunWattsPerSquareMetre === undefined ? {} : { sunWattsPerSquareMetre }),
});

/**
 * Rows of which the sun is the mean over the hour that ends at their time, told anew as moments: the sun is put to
 * the middle of its hour, in a row of its own, everything else runs straight from row to row. Straight lines
 * through the middles hold the energy of a day to the joule, since both its ends are dark. Put at the stamp, the
 * sun would come half an hour late.
 */
export const withSunAtMidHour = (rows: readonly WeatherRow[]): readonly WeatherRow[] =>
  rows.flatMap((row, place) => {
    const before = rows[place - 1];
    const after = rows[place + 1];
    const { epochMillis, airCelsius, humidityPercent, windMetresPerSecond, sunWattsPerSquareMetre } = row;
    const sunAtStamp =
      after === undefined
        ? undefined
        : between(
            sunWattsPerSquareMetre,
            after.sunWattsPerSquareMetre,
            HALF_HOUR_MILLIS / (after.epochMillis - epochMillis),
          );
    const atStamp = rowOf(epochMillis, airCelsius, humidityPercent, windMetresPerSecond, sunAtStamp);
    if (before === undefined) return [atStamp];
    const middle = epochMillis - HALF_HOUR_MILLIS;
    const share = (middle - before.epochMillis) / (epochMillis - before.epochMillis);
    const atMiddle = rowOf(
      middle,
      before.airCelsius + (airCelsius - before.airCelsius) * share,
      between(before.humidityPercent, humidityPercent, share),
      between(before.windMetresPerSecond, windMetresPerSecond, share),
      sunWattsPerSquareMetre,
    );
    return [atMiddle, atStamp];
  });
