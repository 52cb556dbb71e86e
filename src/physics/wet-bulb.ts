import { dewPointCelsius, saturationVapourKilopascals } from './vapour.ts';

/**
 * Wet-bulb temperature: how far water that evaporates into an air can cool it, and itself. ASHRAE Handbook,
 * Fundamentals 2017, ch. 1, with the saturation formula of vapour.ts.
 */

/** Mass of a molecule of water over that of dry air, ASHRAE 2017 ch. 1 eq. 20. */
const WATER_OVER_AIR = 0.621945;
/** Halvings that bring a temperature to the last bit of a double. */
const HALVINGS = 60;

/** kg of vapour in each kg of dry air; the vapour pressure is below the air pressure. ASHRAE 2017 ch. 1 eq. 20. */
export const humidityRatio = (vapourKilopascals: number, airKilopascals: number): number =>
  (WATER_OVER_AIR * vapourKilopascals) / (airKilopascals - vapourKilopascals);

/** The two temperatures of a wetted and a dry thermometer in the same draught. */
export interface WetAndDry {
  readonly wetCelsius: number;
  readonly dryCelsius: number;
  readonly airKilopascals: number;
}

/** kg of vapour in each kg of dry air, from both temperatures; wet 0–50 °C. ASHRAE 2017 ch. 1 eq. 33. */
export const humidityRatioFromWetBulb = ({ wetCelsius, dryCelsius, airKilopascals }: WetAndDry): number => {
  const saturated = humidityRatio(saturationVapourKilopascals(wetCelsius), airKilopascals);
  return (
    ((2501 - 2.326 * wetCelsius) * saturated - 1.006 * (dryCelsius - wetCelsius)) /
    (2501 + 1.86 * dryCelsius - 4.186 * wetCelsius)
  );
};

/**
 * Wet-bulb temperature in °C, between the dew point and the air's own; air up to 60 °C. Below 0 °C it is that of water
 * that has not frozen. ASHRAE 2017 ch. 1 eq. 33, turned round by bisection: the ratio rises with the wet temperature.
 */
export const wetBulbCelsius = (
  airCelsius: number,
  vapourKilopascals: number,
  airKilopascals: number,
): number => {
  const wanted = humidityRatio(vapourKilopascals, airKilopascals);
  let low = Math.min(airCelsius, dewPointCelsius(vapourKilopascals));
  let high = airCelsius;
  for (let halving = 0; halving < HALVINGS; halving += 1) {
    const wetCelsius = (low + high) / 2;
    if (humidityRatioFromWetBulb({ wetCelsius, dryCelsius: airCelsius, airKilopascals }) < wanted)
      low = wetCelsius;
    else high = wetCelsius;
  }
  return (low + high) / 2;
};
