import { clearSkyWattsPerSquareMetre } from '../../src/physics/radiation.ts';
import { assert } from '../../src/units/assertion.ts';
import { airAt } from './kept-vapour.ts';
import type { WeatherPlace } from './place.ts';
import { runningDayMean } from './running-mean.ts';
import type { Air, Sky } from './sky.ts';

/**
 * The same sky under cloud that lets through at most a share of the clear sun; hours that are darker already stay so. The
 * range of temperature about the daily mean narrows in keeping: by FAO-56 eq. 50 the sun goes with the root of the range,
 * hence the range with the square of the sun. The mean itself is left alone, which errs towards thirst: an
 * overcast day is rarely as warm.
 * @throws BrokenAssertion when the share is not within 0–1
 */
export const cloudySky = (
  sky: Sky,
  { place, share }: { readonly place: WeatherPlace; readonly share: number },
): Sky => {
  assert(share >= 0 && share <= 1, `a share of the sun of ${share}`);
  const dimmed: Sky = {
    start: sky.start,
    end: sky.end,
    at: (epochMillis) => {
      const air = sky.at(epochMillis);
      const most = share * clearSkyWattsPerSquareMetre({ ...place, epochMillis });
      return { ...air, sunWattsPerSquareMetre: Math.min(air.sunWattsPerSquareMetre, most) };
    },
  };
  const sunOf = (air: Air): number => air.sunWattsPerSquareMetre;
  const before = runningDayMean(sky, sunOf);
  const after = runningDayMean(dimmed, sunOf);
  const celsius = runningDayMean(sky, (air) => air.airCelsius);
  return {
    ...dimmed,
    at: (epochMillis): Air => {
      const air = dimmed.at(epochMillis);
      const sun = before(epochMillis);
      // In the polar night there is no sun to take away.
      const left = sun === 0 ? 1 : after(epochMillis) / sun;
      const mean = celsius(epochMillis);
      return airAt(air, mean + (air.airCelsius - mean) * left * left);
    },
  };
};
