import type { Farm } from '../farm/farm.ts';
import type { Reading } from '../sense/reading.ts';
import type { Seen } from '../sense/seen.ts';
import {
  returnLitresPerMinute,
  switched,
  tankLitres,
  type Senses,
  type SwitchChannel,
} from '../sense/senses.ts';
import type { MonotonicMillis } from '../time/instant.ts';

/** What the fitted evidence says at one moment; `unknown` where nothing is fitted or it is not good. */
export interface Sighting {
  /** Water on the common return: proves the loop, not each channel. */
  readonly water: Seen;
  /** The same as the sensor shows it, even while it is known to be stuck. */
  readonly returnShows: Seen;
  readonly current: Seen;
  readonly contact: Seen;
  /** Whether the supply of the pump has its mains; filled in by who holds it against the rest over time. */
  readonly mains: Seen;
  readonly returnLitresPerMinute: number | null;
  readonly tankLitres: number | null;
}

/**
 * A meter counts as seeing water above this share of the usual return. Ten minutes after a flood a channel
 * still returns up to a sixth of it, which must not pass for the next flood.
 */
const METER_SHARE = 0.25;

const seenOf = (reading: Reading<boolean>): Seen => {
  if (reading.quality !== 'good') return 'unknown';
  return reading.value ? 'seen' : 'not-seen';
};

/** Sum of the benches' flows in the farm file, L/min. */
export const farmLitresPerMinute = (farm: Farm): number =>
  farm.benches.reduce((sum, bench) => sum + bench.litresPerMinute, 0);

/** What the return sensor itself shows, whether or not it can be believed. */
const returnShows = (
  farm: Farm,
  senses: Senses,
  usualLitresPerMinute: number,
  now: MonotonicMillis,
): Seen => {
  switch (farm.evidence.returnFlow) {
    case 'none':
      return 'unknown';
    case 'switch':
      return seenOf(switched(senses, 'return-switch', now));
    case 'meter': {
      const reading = returnLitresPerMinute(senses, now);
      if (reading.quality !== 'good') return 'unknown';
      return reading.value >= METER_SHARE * usualLitresPerMinute ? 'seen' : 'not-seen';
    }
  }
};

export const sighting = (
  farm: Farm,
  senses: Senses,
  usualLitresPerMinute: number,
  returnProves: 'proves' | 'stuck',
  now: MonotonicMillis,
): Sighting => {
  const { evidence } = farm;
  const fittedSwitch = (fitted: boolean, channel: SwitchChannel): Seen =>
    fitted ? seenOf(switched(senses, channel, now)) : 'unknown';
  const meter = evidence.returnFlow === 'meter' ? returnLitresPerMinute(senses, now) : null;
  const flow = meter?.quality === 'good' ? meter.value : null;
  const level = evidence.tankLevel ? tankLitres(senses, now) : null;
  const shows = returnShows(farm, senses, usualLitresPerMinute, now);
  return {
    water: returnProves === 'stuck' && shows === 'seen' ? 'unknown' : shows,
    returnShows: shows,
    current: fittedSwitch(evidence.pumpCurrent, 'pump-current'),
    contact: fittedSwitch(evidence.relayReadBack, 'relay-read-back'),
    mains: 'unknown',
    returnLitresPerMinute: flow,
    tankLitres: level?.quality === 'good' ? level.value : null,
  };
};
