import { clearSkyWattsPerSquareMetre } from '../../src/physics/radiation.ts';
import { assert, itemAt } from '../../src/units/assertion.ts';
import { vapourForMeanHumidity } from './mean-humidity.ts';
import { celsiusOver, profileSky, spanOfDays, type MadeSpan } from './profile-sky.ts';
import type { Sky } from './sky.ts';
import type { DayExtremes } from './solar-turn.ts';

export interface MadeDay extends MadeSpan {
  readonly minCelsius: number;
  readonly maxCelsius: number;
  /** Mean over each local day. */
  readonly humidityPercent: number;
}

/**
 * The same made-up day again and again: temperature by the sine-exponential profile of Goudriaan & van Laar
 * (1994) on each date's own sunrise and sunset, vapour constant over each local day so that the mean relative
 * humidity is the one asked for (at saturation where the air cannot hold it), a cloudless sun, the usual wind.
 * @throws BrokenAssertion when the span or the temperatures make no sense
 */
export const madeSky = (made: MadeDay): Sky => {
  const { place, minCelsius, maxCelsius, humidityPercent } = made;
  assert(minCelsius <= maxCelsius, `a day from ${minCelsius} up to ${maxCelsius} °C`);
  const span = spanOfDays(made);
  const extremesOf = (): DayExtremes => ({ minCelsius, maxCelsius });
  const vapours = span.localDays.map((day) =>
    vapourForMeanHumidity(celsiusOver(span, day, extremesOf), humidityPercent),
  );
  return profileSky(span, {
    extremesOf,
    vapourAt: (_, localDay) => itemAt(vapours, localDay),
    sunAt: (epochMillis) => clearSkyWattsPerSquareMetre({ ...place, epochMillis }),
    windMetresPerSecond: place.windMetresPerSecond,
  });
};
