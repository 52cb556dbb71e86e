import { exp, ln, power } from './portable-math.ts';

/**
 * Water vapour in air by the formulas of FAO-56 (Allen, Pereira, Raes, Smith 1998, FAO Irrigation and Drainage
 * Paper 56), one family throughout: they lie about 0.1 % below the ASHRAE ones.
 */

/** The driest air that has a dew point here, kPa: about −64 °C, drier than any shed. */
const VAPOUR_KILOPASCALS_MIN = 0.001;

/** Saturation vapour pressure in kPa; −20 to 60 °C. FAO-56 eq. 11. */
export const saturationVapourKilopascals = (airCelsius: number): number =>
  0.6108 * exp((17.27 * airCelsius) / (airCelsius + 237.3));

/** Slope of the saturation curve in kPa/°C; −20 to 60 °C. FAO-56 eq. 13. */
export const vapourSlopeKilopascalsPerCelsius = (airCelsius: number): number => {
  const shifted = airCelsius + 237.3;
  return (4098 * saturationVapourKilopascals(airCelsius)) / (shifted * shifted);
};

/** Mean air pressure in kPa at a height above the sea; 0 to 5000 m. FAO-56 eq. 7. */
export const pressureKilopascals = (elevationMetres: number): number =>
  101.3 * power((293 - 0.0065 * elevationMetres) / 293, 5.26);

/** Psychrometric constant in kPa/°C from the air pressure in kPa. FAO-56 eq. 8. */
export const psychrometricKilopascalsPerCelsius = (airKilopascals: number): number =>
  0.665e-3 * airKilopascals;

/** Vapour pressure in kPa from air temperature and relative humidity of 0 to 100 %. FAO-56 eq. 10. */
export const vapourFromHumidity = (airCelsius: number, humidityPercent: number): number =>
  (saturationVapourKilopascals(airCelsius) * humidityPercent) / 100;

/**
 * A day's mean saturation vapour pressure in kPa: the mean of both ends. The curve bends upwards, so its value at
 * the mean temperature is too low. FAO-56 eq. 12.
 */
export const meanSaturationVapourKilopascals = (minCelsius: number, maxCelsius: number): number =>
  (saturationVapourKilopascals(minCelsius) + saturationVapourKilopascals(maxCelsius)) / 2;

/** How much vapour the air still takes up, in kPa; 0 when it is saturated or over. FAO-56 ch. 3. */
export const vapourDeficitKilopascals = (airCelsius: number, vapourKilopascals: number): number =>
  Math.max(0, saturationVapourKilopascals(airCelsius) - vapourKilopascals);

/** Dew point in °C: the inverse of FAO-56 eq. 11. Vapour below 0.001 kPa counts as 0.001 kPa (−64 °C). */
export const dewPointCelsius = (vapourKilopascals: number): number => {
  const logarithm = ln(Math.max(VAPOUR_KILOPASCALS_MIN, vapourKilopascals) / 0.6108);
  return (237.3 * logarithm) / (17.27 - logarithm);
};

/** Relative humidity in percent, never above 100. FAO-56 eq. 10. */
export const humidityPercentAt = (airCelsius: number, vapourKilopascals: number): number =>
  Math.min(100, (100 * vapourKilopascals) / saturationVapourKilopascals(airCelsius));
