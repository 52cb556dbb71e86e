import { assert } from '../../src/units/assertion.ts';
import { bounded } from '../../src/units/bounded.ts';
import { airAt } from './kept-vapour.ts';
import { runningDayMean } from './running-mean.ts';
import { SHIFT_CELSIUS_MAX } from './shift.ts';
import type { Air, Sky } from './sky.ts';

/** A run of days that are warmer or colder than the weather around them. */
export interface Spell {
  /** The first and the last moment at full strength. */
  readonly fromMillis: number;
  readonly untilMillis: number;
  /** By how much the daily mean rises, or falls below 0. */
  readonly celsius: number;
  /** By what the distance from the daily mean is multiplied: above 1 the afternoons rise by more than the nights. */
  readonly rangeShare: number;
}

/** It comes in over half a day before the first day, and goes out over half a day after the last. */
const RAMP_MILLIS = 12 * 3_600_000;
const RANGE_SHARE_MAX = 2;

/** From 0 to 1 with a level start and end. */
const eased = (share: number): number => share * share * (3 - 2 * share);

/** How much of the spell there is at a moment, 0 to 1, without a step. */
const strengthAt = ({ fromMillis, untilMillis }: Spell, epochMillis: number): number => {
  const outside = Math.max(fromMillis - epochMillis, epochMillis - untilMillis, 0);
  return eased(1 - bounded(outside / RAMP_MILLIS, 0, 1));
};

/**
 * A heat wave or a cold spell laid over a sky: within it the temperature is shifted, and stretched or narrowed about
 * its mean over a day. Vapour is kept as in `shift.ts`, sun and wind are left alone.
 * @throws BrokenAssertion when it ends before it begins, shifts by more than 20 °C or stretches by more than two
 */
export const skyWithSpell = (sky: Sky, spell: Spell): Sky => {
  const { fromMillis, untilMillis, celsius, rangeShare } = spell;
  assert(fromMillis < untilMillis, 'a spell must end after it begins');
  assert(Math.abs(celsius) <= SHIFT_CELSIUS_MAX, `a spell of ${celsius} °C`);
  assert(rangeShare >= 0 && rangeShare <= RANGE_SHARE_MAX, `a spell with ${rangeShare} times the range`);
  const meanAt = runningDayMean(sky, (air) => air.airCelsius);
  return {
    start: sky.start,
    end: sky.end,
    at: (epochMillis): Air => {
      const air = sky.at(epochMillis);
      const strength = strengthAt(spell, epochMillis);
      if (strength === 0) return air;
      const apart = air.airCelsius - meanAt(epochMillis);
      return airAt(air, air.airCelsius + strength * (celsius + (rangeShare - 1) * apart));
    },
  };
};
