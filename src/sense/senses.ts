import type { Channel, Sample } from '../ports/sample.ts';
import { minutesBetween, secondsBetween, type MonotonicMillis } from '../time/instant.ts';
import type { Reading } from './reading.ts';

/** A switch or meter that has not spoken for this long is no longer believed: three missed 30 s samples. */
export const STALE_AFTER_SECONDS = 90;
/** Air changes slowly; a thermometer may miss ten minutes before the hot-day plan takes over. */
const AIR_STALE_AFTER_SECONDS = 600;
/** Outside these a thermometer is open or shorted, not hot or cold. */
const AIR_CELSIUS = { least: -20, most: 60 } as const;
/** Faster than this is a thermometer in the sun or a bad contact, not weather. Common practice, no source. */
const AIR_CELSIUS_PER_MINUTE_MAX = 3;
/** A thermometer that has not moved by more than this in three hours hangs: air is never so still. */
const AIR_STUCK = { celsius: 0.05, minutes: 180 } as const;
/** After a jump the thermometer must agree with itself for this long before it is believed again. */
const AIR_CALM_MINUTES = 5;

type SampleOf<C extends Channel> = Extract<Sample, { channel: C }>;

/** The last sample of each channel, and when the air thermometer last jumped. */
export interface Senses {
  readonly last: Partial<Readonly<Record<Channel, Sample>>>;
  readonly airJumpedAt: MonotonicMillis | null;
  /** The air reading that later ones are held against, to see whether it moves at all. */
  readonly airAnchor: { readonly celsius: number; readonly at: MonotonicMillis } | null;
}

export const NO_SENSES: Senses = { last: {}, airJumpedAt: null, airAnchor: null };

const couldBeAir = (celsius: number): boolean => celsius >= AIR_CELSIUS.least && celsius <= AIR_CELSIUS.most;

/** From or to a value that is no number it is a jump as well: that is a loose contact. */
const jumped = (before: SampleOf<'air-temperature'>, after: SampleOf<'air-temperature'>): boolean => {
  const minutes = Math.max(minutesBetween(before.at, after.at), 0.5);
  return !(Math.abs(after.celsius - before.celsius) / minutes <= AIR_CELSIUS_PER_MINUTE_MAX);
};

/** Takes in what the board saw. A sample older than the one held, or from the future, is dropped. */
export const absorbed = (senses: Senses, samples: readonly Sample[], now: MonotonicMillis): Senses => {
  if (samples.length === 0) return senses;
  const last: Partial<Record<Channel, Sample>> = { ...senses.last };
  let { airJumpedAt, airAnchor } = senses;
  for (const sample of samples) {
    const before = last[sample.channel];
    if (sample.at > now || (before !== undefined && before.at > sample.at)) continue;
    if (sample.channel === 'air-temperature' && before?.channel === 'air-temperature') {
      if (jumped(before, sample)) airJumpedAt = sample.at;
    }
    if (sample.channel === 'air-temperature' && couldBeAir(sample.celsius)) {
      const still = airAnchor !== null && Math.abs(sample.celsius - airAnchor.celsius) <= AIR_STUCK.celsius;
      if (!still) airAnchor = { celsius: sample.celsius, at: sample.at };
    }
    last[sample.channel] = sample;
  }
  return { last, airJumpedAt, airAnchor };
};

const absent = <Value>(why: string): Reading<Value> => ({ quality: 'absent', why });

const aged = <Value>(value: Value, ageSeconds: number, staleAfter: number): Reading<Value> =>
  ageSeconds <= staleAfter
    ? { quality: 'good', value, ageSeconds }
    : { quality: 'stale', value, ageSeconds, why: `last reading is ${Math.round(ageSeconds)} s old` };

export const airCelsius = (senses: Senses, now: MonotonicMillis): Reading<number> => {
  const sample = senses.last['air-temperature'];
  if (sample?.channel !== 'air-temperature') return absent('no air thermometer has spoken');
  const { celsius } = sample;
  if (!couldBeAir(celsius)) {
    return absent('the air thermometer reads out of range: open or shorted');
  }
  const reading = aged(celsius, secondsBetween(sample.at, now), AIR_STALE_AFTER_SECONDS);
  if (reading.quality !== 'good') return reading;
  const { airJumpedAt, airAnchor } = senses;
  if (airJumpedAt !== null && minutesBetween(airJumpedAt, now) < AIR_CALM_MINUTES) {
    return { ...reading, quality: 'suspect', why: 'the air thermometer jumped' };
  }
  if (airAnchor !== null && minutesBetween(airAnchor.at, now) > AIR_STUCK.minutes) {
    return { ...reading, quality: 'suspect', why: 'the air thermometer has not moved for three hours' };
  }
  return reading;
};

export const humidityPercent = (senses: Senses, now: MonotonicMillis): Reading<number> => {
  const sample = senses.last.humidity;
  if (sample?.channel !== 'humidity') return absent('no humidity sensor has spoken');
  if (!(sample.percent >= 1 && sample.percent <= 100)) return absent('humidity out of range');
  return aged(sample.percent, secondsBetween(sample.at, now), AIR_STALE_AFTER_SECONDS);
};

export type SwitchChannel = Exclude<Channel, 'air-temperature' | 'humidity' | 'return-flow' | 'tank-level'>;

const switchValue = (sample: Sample): boolean | undefined => {
  switch (sample.channel) {
    case 'return-switch':
      return sample.flowing;
    case 'pump-current':
      return sample.drawing;
    case 'relay-read-back':
      return sample.closed;
    case 'tank-float':
      return sample.low;
    case 'leak':
    case 'overflow':
      return sample.wet;
    case 'air-temperature':
    case 'humidity':
    case 'return-flow':
    case 'tank-level':
      return undefined;
  }
};

/** The state of one switch: true means flowing, drawing, closed, low or wet. */
export const switched = (senses: Senses, channel: SwitchChannel, now: MonotonicMillis): Reading<boolean> => {
  const sample = senses.last[channel];
  const value = sample === undefined ? undefined : switchValue(sample);
  if (sample === undefined || value === undefined) return absent('it has not spoken');
  return aged(value, secondsBetween(sample.at, now), STALE_AFTER_SECONDS);
};

export const returnLitresPerMinute = (senses: Senses, now: MonotonicMillis): Reading<number> => {
  const sample = senses.last['return-flow'];
  if (sample?.channel !== 'return-flow') return absent('no flow meter has spoken');
  if (!(sample.litresPerMinute >= 0)) return absent('the flow meter reads nonsense');
  return aged(sample.litresPerMinute, secondsBetween(sample.at, now), STALE_AFTER_SECONDS);
};

export const tankLitres = (senses: Senses, now: MonotonicMillis): Reading<number> => {
  const sample = senses.last['tank-level'];
  if (sample?.channel !== 'tank-level') return absent('no level sensor has spoken');
  if (!(sample.litres >= 0)) return absent('the level sensor reads nonsense');
  return aged(sample.litres, secondsBetween(sample.at, now), STALE_AFTER_SECONDS);
};
