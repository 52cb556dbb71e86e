import type { Farm } from '../farm/farm.ts';
import { sineExponentialCelsius } from '../physics/diurnal.ts';
import { clearSkyShare, clearSkyWattsPerSquareMetre } from '../physics/radiation.ts';
import { referenceUptakeHourlyFromWeather } from '../physics/reference-uptake.ts';
import { sunEvents } from '../physics/sun.ts';
import { pressureKilopascals, saturationVapourKilopascals, vapourFromHumidity } from '../physics/vapour.ts';
import { MILLIS_PER_MINUTE, type WallMillis } from '../time/instant.ts';

const MILLIS_PER_HOUR = 60 * MILLIS_PER_MINUTE;
/** The day is held as this many figures and read to the nearest; ten minutes of a sun's arc is plenty. */
const SLOTS = 144;
const SLOT_MINUTES = (24 * 60) / SLOTS;
const SLOT_MILLIS = SLOT_MINUTES * MILLIS_PER_MINUTE;
/**
 * Sun straight overhead, above the air, on the day nearest to it, W/m²: 0.0820 MJ m⁻² min⁻¹ (FAO-56 eq. 21) over the
 * square of 0.9833 astronomical units. What counts when not even the time of day is known.
 */
const OVERHEAD_WATTS = 1414;

/**
 * Reference uptake through the farm's hot day, mm/h: FAO-56's hourly Penman–Monteith under a clear sky. It
 * is what the controller expects where it knows no better.
 */
export interface ReferenceDay {
  readonly millimetresPerHour: readonly number[];
  /** Where slot 0 stands; slots repeat every 24 h. */
  readonly startMillis: WallMillis;
  /** At its warmest under the highest sun there can be: what counts when the time of day is unknown. */
  readonly noonMillimetresPerHour: number;
}

interface AirNow {
  readonly celsius: number;
  readonly vapourKilopascals: number;
  readonly clearSkyWatts: number;
}

const uptakeUnder = (farm: Farm, air: AirNow): number =>
  referenceUptakeHourlyFromWeather({
    airCelsius: air.celsius,
    vapourKilopascals: air.vapourKilopascals,
    windMetresPerSecond: farm.place.windMetresPerSecond,
    sunWattsPerSquareMetre: air.clearSkyWatts * farm.place.sunShare,
    clearSkyWattsPerSquareMetre: air.clearSkyWatts,
    pressureKilopascals: pressureKilopascals(farm.place.elevationMetres),
  });

const hotDayVapour = (farm: Farm): number => {
  const { minCelsius, maxCelsius, humidityPercent } = farm.hotDay;
  return Math.min(
    vapourFromHumidity((minCelsius + maxCelsius) / 2, humidityPercent),
    saturationVapourKilopascals(minCelsius),
  );
};

const clearSkyAt = (farm: Farm, wall: number): number =>
  clearSkyWattsPerSquareMetre({
    latitudeDegrees: farm.place.latitudeDegrees,
    longitudeDegrees: farm.place.longitudeDegrees,
    elevationMetres: farm.place.elevationMetres,
    epochMillis: wall,
  });

/** Air and sun of the farm's hot day at a moment of that solar day. */
const hotAir = (farm: Farm, wall: number, vapourKilopascals: number): AirNow => {
  const { minCelsius, maxCelsius } = farm.hotDay;
  const sun = sunEvents({ ...farm.place, noonNearEpochMillis: wall });
  const solarMidnight = sun.noon - 12 * MILLIS_PER_HOUR;
  const hours = (moment: number): number => (moment - solarMidnight) / MILLIS_PER_HOUR;
  const celsius = sineExponentialCelsius({
    minCelsius,
    maxCelsius,
    sunriseHour: hours(sun.sunrise),
    sunsetHour: hours(sun.sunset),
    hour: (hours(wall) + 24) % 24,
  });
  return { celsius, vapourKilopascals, clearSkyWatts: clearSkyAt(farm, wall) };
};

export const referenceDay = (farm: Farm, dayStart: WallMillis): ReferenceDay => {
  const vapour = hotDayVapour(farm);
  const millimetresPerHour = Array.from({ length: SLOTS }, (_, slot) =>
    uptakeUnder(farm, hotAir(farm, dayStart + (slot + 0.5) * SLOT_MILLIS, vapour)),
  );
  const noonMillimetresPerHour = uptakeUnder(farm, {
    celsius: farm.hotDay.maxCelsius,
    vapourKilopascals: vapour,
    clearSkyWatts: clearSkyShare(farm.place.elevationMetres) * OVERHEAD_WATTS,
  });
  return { millimetresPerHour, startMillis: dayStart, noonMillimetresPerHour };
};

/** mm/h of the hot day at a moment; the noon figure when the time of day is unknown. */
export const hotDayUptake = (day: ReferenceDay, wall: WallMillis | 'unknown'): number => {
  if (wall === 'unknown') return day.noonMillimetresPerHour;
  const slot = Math.floor((wall - day.startMillis) / SLOT_MILLIS);
  return day.millimetresPerHour[((slot % SLOTS) + SLOTS) % SLOTS] ?? day.noonMillimetresPerHour;
};

/** mm/h under the air as measured, with the clear sky of the moment: there is no sun sensor to say less. */
export const measuredUptake = (
  farm: Farm,
  wall: WallMillis,
  airCelsius: number,
  humidityPercent: number | undefined,
): number =>
  uptakeUnder(farm, {
    celsius: airCelsius,
    vapourKilopascals:
      humidityPercent === undefined
        ? Math.min(hotDayVapour(farm), saturationVapourKilopascals(airCelsius))
        : vapourFromHumidity(airCelsius, humidityPercent),
    clearSkyWatts: clearSkyAt(farm, wall),
  });
