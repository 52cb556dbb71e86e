import { saturationVapourKilopascals } from '../../src/physics/vapour.ts';
import type { Air } from './sky.ts';

/**
 * The same air at another temperature. Its *vapour* is kept and not its relative humidity: warming takes or gives
 * no water. Cooled air gives up what it cannot hold.
 */
export const airAt = (air: Air, airCelsius: number): Air => ({
  ...air,
  airCelsius,
  vapourKilopascals: Math.min(air.vapourKilopascals, saturationVapourKilopascals(airCelsius)),
});
