import type { Plant, Witness } from '../../sim/plant/plant.ts';
import type { Air } from '../../sim/weather/sky.ts';
import { sineExponentialCelsius } from '../../src/physics/diurnal.ts';
import { clearSkyWattsPerSquareMetre } from '../../src/physics/radiation.ts';
import { vapourFromHumidity } from '../../src/physics/vapour.ts';
import { DAY_MINUTES, LETTUCE, MINUTE, START, type BenchFacts, type Weather } from './plain-plant.ts';

/** The load by which the simulator is measured, the same for every engine and every solver. */

/** Ages in days of the four benches; more benches take them in turn. */
export const AGES = [18, 40, 50, 28] as const;

export const standardBenches = (count: number): readonly BenchFacts[] =>
  Array.from({ length: count }, (_, place) => ({
    ...LETTUCE,
    ageDays: AGES[place % AGES.length]!,
    liftMetres: 1.1 + 0.1 * (place % AGES.length),
  }));

export const FLOODS_A_DAY = 20;
export const FLOOD_MINUTES = 20;
/** Off every grid of minutes, weather knots and growth. */
const FIRST_MINUTES = 7.37;

/** When a flood of the day begins, in minutes from its midnight. */
export const floodFrom = (flood: number): number => FIRST_MINUTES + (flood * DAY_MINUTES) / FLOODS_A_DAY;

const PLACE = { latitudeDegrees: 37.1, longitudeDegrees: -8, elevationMetres: 180 } as const;
const HOT = { minCelsius: 21, maxCelsius: 36, sunriseHour: 5.5, sunsetHour: 19.8 } as const;
const NIGHT_HUMIDITY_PERCENT = 80;

/** The hot day's air at each minute, the first once more at the end. */
const minutesOfDay = (value: (hour: number) => number): Float64Array =>
  Float64Array.from({ length: DAY_MINUTES + 1 }, (_, minute) => value((minute % DAY_MINUTES) / 60));

/**
 * One hot cloudless day again and again, from a table by the minute with straight lines between. It answers with one
 * object, filled anew, so that what is measured is not the weather.
 */
export const minuteSky = (): Weather => {
  const celsius = minutesOfDay((hour) => sineExponentialCelsius({ ...HOT, hour }));
  const sun = minutesOfDay((hour) =>
    clearSkyWattsPerSquareMetre({ ...PLACE, epochMillis: START + hour * 60 * MINUTE }),
  );
  const vapourKilopascals = vapourFromHumidity(HOT.minCelsius, NIGHT_HUMIDITY_PERCENT);
  const air: { -readonly [Part in keyof Air]: Air[Part] } = {
    airCelsius: 0,
    vapourKilopascals,
    sunWattsPerSquareMetre: 0,
    windMetresPerSecond: 1,
  };
  return {
    at: (epochMillis) => {
      const minutes = (epochMillis - START) / MINUTE;
      const ofDay = minutes - DAY_MINUTES * Math.floor(minutes / DAY_MINUTES);
      const minute = Math.floor(ofDay);
      const share = ofDay - minute;
      air.airCelsius = celsius[minute]! + (celsius[minute + 1]! - celsius[minute]!) * share;
      air.sunWattsPerSquareMetre = sun[minute]! + (sun[minute + 1]! - sun[minute]!) * share;
      return air;
    },
  };
};

/** The days of floods from START on, without those that `missed` picks. */
export const floodDays = (
  plant: Plant,
  days: number,
  missed: (day: number, flood: number) => boolean = () => false,
  witness?: Witness,
): void => {
  for (let day = 0; day < days; day += 1) {
    const midnight = START + day * DAY_MINUTES * MINUTE;
    for (let flood = 0; flood < FLOODS_A_DAY; flood += 1) {
      if (missed(day, flood)) continue;
      const from = midnight + Math.round(floodFrom(flood) * MINUTE);
      plant.advance(from, witness);
      plant.setPump(true);
      plant.advance(from + FLOOD_MINUTES * MINUTE, witness);
      plant.setPump(false);
    }
    plant.advance(midnight + DAY_MINUTES * MINUTE, witness);
  }
};
