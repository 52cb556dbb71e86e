import { isByDay } from '../plan/day-view.ts';
import { goodValue, type Reading } from '../sense/reading.ts';
import { airCelsius, waterCelsius } from '../sense/senses.ts';
import { wallAfterMinutes } from '../time/instant.ts';
import type { Turn } from './turn.ts';

/**
 * By day the air over the benches is not this much colder than the water that has just run under the leaves;
 * a thermometer that says so reads low, and would let the rests grow. Judgement.
 */
const COLDER_THAN_WATER_CELSIUS = 8;
/** Early in the day the air may still be as cold as the night. */
const AFTER_SUNRISE_MINUTES = 180;

/** The air as far as it may be believed: on its own, and against the water. */
export const believedAir = ({ state, now }: Turn): Reading<number> => {
  const air = airCelsius(state.senses, now.monotonic);
  const water = goodValue(waterCelsius(state.senses, now.monotonic));
  const { view } = state.almanac;
  if (air.quality !== 'good' || water === undefined || view === null || now.wall === 'unknown') return air;
  const dayIsOn =
    isByDay(view, now.wall) && isByDay(view, wallAfterMinutes(now.wall, -AFTER_SUNRISE_MINUTES));
  const colder = water - air.value;
  if (!dayIsOn || colder <= COLDER_THAN_WATER_CELSIUS) return air;
  const why = `the air thermometer reads ${colder.toFixed(0)} °C colder than the one in the water, by day: one of them is wrong`;
  return { ...air, quality: 'suspect', why };
};
