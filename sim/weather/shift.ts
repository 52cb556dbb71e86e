import { assert } from '../../src/units/assertion.ts';
import { airAt } from './kept-vapour.ts';
import type { Air, Sky } from './sky.ts';

/** Beyond this the shifted air is no weather that anyone rehearses. */
export const SHIFT_CELSIUS_MAX = 20;

/**
 * The same sky, warmer or cooler at every moment. The *vapour* is kept and not the relative humidity, so
 * that of warmed air the relative humidity falls and the whole rise of saturation goes into the deficit that the
 * leaves feel. Of the two choices it is the thirstier one. Cooled air gives up what it cannot hold.
 * @throws BrokenAssertion when the shift is not within ±20 °C
 */
export const shiftedSky = (sky: Sky, { celsius }: { readonly celsius: number }): Sky => {
  assert(Math.abs(celsius) <= SHIFT_CELSIUS_MAX, `a shift of ${celsius} °C`);
  return {
    start: sky.start,
    end: sky.end,
    at: (epochMillis): Air => {
      const air = sky.at(epochMillis);
      return airAt(air, air.airCelsius + celsius);
    },
  };
};
