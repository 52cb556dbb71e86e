import { hotDayUptake, measuredUptake } from '../estimate/reference-day.ts';
import { drunkLitresPerHourMost } from '../estimate/tank-drunk.ts';
import { goodValue } from '../sense/reading.ts';
import { humidityPercent } from '../sense/senses.ts';
import { believedAir } from './air.ts';
import type { Flood } from '../verify/flood.ts';
import type { Turn } from './turn.ts';

/** Reference uptake at this moment, mm/h: of the farm's hot day, and of the air as measured; the hot day's where that is not good. */
export interface UptakeNow {
  readonly hot: number;
  readonly measured: number;
}

/** By the almanac of the turn, which must be that of its day. */
export const uptakeNow = (turn: Turn): UptakeNow => {
  const { farm, state, now } = turn;
  const hot = hotDayUptake(state.almanac.reference, now.wall);
  const air = goodValue(believedAir(turn));
  if (air === undefined || now.wall === 'unknown') return { hot, measured: hot };
  const humidity = goodValue(humidityPercent(state.senses, now.monotonic));
  return { hot, measured: measuredUptake(farm, now.wall, air, humidity) };
};

/**
 * What the benches may take of a flood at most near its end, L/min: what they drink, and what they lacked as it began, which slow
 * roots take up evenly to its end. A thermometer that reads too cold takes nothing off what the hot day says.
 */
export const takenMost = (turn: Turn, { lackedLitres, minutes }: Flood): number => {
  const { hot, measured } = uptakeNow(turn);
  const drunk = drunkLitresPerHourMost(turn.state.almanac.facts, Math.max(hot, measured)) / 60;
  return drunk + lackedLitres / minutes;
};
