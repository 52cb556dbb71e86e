import { bounded } from '../units/bounded.ts';
import { ln } from './portable-math.ts';
import { netLongwaveHourlyMegajoules, netShortwave } from './radiation.ts';
import {
  meanSaturationVapourKilopascals,
  psychrometricKilopascalsPerCelsius,
  saturationVapourKilopascals,
  vapourSlopeKilopascalsPerCelsius,
} from './vapour.ts';

/**
 * Water that well-watered reference grass of 0.12 m takes up, by the Penman–Monteith form of FAO-56 (Allen, Pereira,
 * Raes, Smith 1998). Rs/Rso and Rn are those of radiation.ts.
 */

/** mm of water that 1 MJ/m² evaporates, FAO-56 eq. 20: 1/2.45. */
export const MILLIMETRES_PER_MEGAJOULE = 0.408;
/** Numerators of the aerodynamic term: FAO-56 eq. 6 for a day, eq. 53 for an hour. */
const NUMERATOR_DAILY = 900;
const NUMERATOR_HOURLY = 37;

const MEGAJOULES_PER_HOUR_PER_WATT = 0.0036;
/** G over Rn by day and by night, FAO-56 eq. 45 and 46. */
const SOIL_SHARE_BY_DAY = 0.1;
const SOIL_SHARE_BY_NIGHT = 0.5;
/**
 * Rs/Rso when the sun is down. FAO-56 ch. 4 takes the ratio of the hours before sunset and, where that is unknown,
 * 0.4–0.6 for a humid and 0.7–0.8 for a dry climate (read from memory); 0.8 is the end with the larger night loss.
 */
const CLEARNESS_SHARE_BY_NIGHT = 0.8;
/** With the sun this low both radiations are small and their ratio says nothing of the clouds. */
const CLEAR_SKY_WATTS_MIN = 50;

/** Wind at 2 m from wind at another height (0.5–20 m) over short grass, m/s. FAO-56 eq. 47. */
export const windAtTwoMetres = (metresPerSecond: number, heightMetres: number): number =>
  (metresPerSecond * 4.87) / ln(67.8 * heightMetres - 5.42);

interface Terms {
  readonly meanCelsius: number;
  readonly saturationKilopascals: number;
  readonly vapourKilopascals: number;
  readonly windMetresPerSecondAt2m: number;
  readonly netRadiationMegajoules: number;
  readonly soilHeatMegajoules: number;
  readonly pressureKilopascals: number;
}

const penmanMonteithMillimetres = (terms: Terms, numerator: number): number => {
  const slope = vapourSlopeKilopascalsPerCelsius(terms.meanCelsius);
  const psychrometric = psychrometricKilopascalsPerCelsius(terms.pressureKilopascals);
  const wind = terms.windMetresPerSecondAt2m;
  const deficit = terms.saturationKilopascals - terms.vapourKilopascals;
  const radiationPart =
    MILLIMETRES_PER_MEGAJOULE * slope * (terms.netRadiationMegajoules - terms.soilHeatMegajoules);
  const airPart = ((psychrometric * numerator) / (terms.meanCelsius + 273)) * wind * deficit;
  return (radiationPart + airPart) / (slope + psychrometric * (1 + 0.34 * wind));
};

export interface ReferenceDay {
  readonly minCelsius: number;
  readonly maxCelsius: number;
  readonly vapourKilopascals: number;
  readonly windMetresPerSecondAt2m: number;
  /** Rn, MJ m⁻² d⁻¹. */
  readonly netRadiationMegajoules: number;
  /** G, MJ m⁻² d⁻¹; 0 for single days (FAO-56 eq. 42). */
  readonly soilHeatMegajoules: number;
  readonly pressureKilopascals: number;
}

/** ETo of one day, mm/d. FAO-56 eq. 6, with eq. 9 for the mean temperature and eq. 12 for saturation. */
export const referenceUptakeDailyMillimetres = (day: ReferenceDay): number =>
  penmanMonteithMillimetres(
    {
      ...day,
      meanCelsius: (day.minCelsius + day.maxCelsius) / 2,
      saturationKilopascals: meanSaturationVapourKilopascals(day.minCelsius, day.maxCelsius),
    },
    NUMERATOR_DAILY,
  );

export interface ReferenceHour {
  readonly airCelsius: number;
  readonly vapourKilopascals: number;
  readonly windMetresPerSecondAt2m: number;
  /** Rn, MJ m⁻² h⁻¹. */
  readonly netRadiationMegajoules: number;
  /** G, MJ m⁻² h⁻¹. */
  readonly soilHeatMegajoules: number;
  readonly pressureKilopascals: number;
}

/** ETo of one hour, mm/h; may be slightly below 0 at night. FAO-56 eq. 53. */
export const referenceUptakeHourlyMillimetres = (hour: ReferenceHour): number =>
  penmanMonteithMillimetres(
    {
      ...hour,
      meanCelsius: hour.airCelsius,
      saturationKilopascals: saturationVapourKilopascals(hour.airCelsius),
    },
    NUMERATOR_HOURLY,
  );

export interface WeatherHour {
  readonly airCelsius: number;
  readonly vapourKilopascals: number;
  /** At 2 m. */
  readonly windMetresPerSecond: number;
  readonly sunWattsPerSquareMetre: number;
  /** What the sun would give without clouds; 0 when it is down. */
  readonly clearSkyWattsPerSquareMetre: number;
  readonly pressureKilopascals: number;
}

/**
 * ETo in mm/h from what a weather record holds; never below 0. FAO-56 eq. 53, 38, 39, 45 and 46. With the sun down or
 * under 50 W/m² of clear sky Rs/Rso is 0.8.
 */
export const referenceUptakeHourlyFromWeather = (hour: WeatherHour): number => {
  const { airCelsius, vapourKilopascals, clearSkyWattsPerSquareMetre: clearSkyWatts } = hour;
  const clearnessShare =
    clearSkyWatts < CLEAR_SKY_WATTS_MIN
      ? CLEARNESS_SHARE_BY_NIGHT
      : bounded(hour.sunWattsPerSquareMetre / clearSkyWatts, 0, 1);
  const netRadiationMegajoules =
    netShortwave(hour.sunWattsPerSquareMetre * MEGAJOULES_PER_HOUR_PER_WATT) -
    netLongwaveHourlyMegajoules({ airCelsius, vapourKilopascals, clearnessShare });
  const soilShare = clearSkyWatts > 0 ? SOIL_SHARE_BY_DAY : SOIL_SHARE_BY_NIGHT;
  const uptake = referenceUptakeHourlyMillimetres({
    airCelsius,
    vapourKilopascals,
    windMetresPerSecondAt2m: hour.windMetresPerSecond,
    netRadiationMegajoules,
    soilHeatMegajoules: soilShare * netRadiationMegajoules,
    pressureKilopascals: hour.pressureKilopascals,
  });
  return Math.max(0, uptake);
};
