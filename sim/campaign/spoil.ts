import type { Channel, Sample } from '../../src/ports/sample.ts';
import type { Dice } from '../dice.ts';
import { spoiled, type Signal, type Spoiled } from '../faults/failing.ts';
import { within, type Script, type SensorFault } from './script.ts';

/** What a reading may be, in its own unit, for sensors that fail: a cut cable says nothing at all. */
const SIGNALS: Readonly<Record<Channel, Omit<Signal, 'cut'>>> = {
  'air-temperature': { kind: 'level', least: -20, most: 60 },
  'water-temperature': { kind: 'level', least: -5, most: 60 },
  humidity: { kind: 'level', least: 1, most: 100 },
  'return-flow': { kind: 'level', least: 0, most: 80 },
  'tank-level': { kind: 'level', least: 0, most: 600 },
  'return-switch': { kind: 'contact', least: 0, most: 1 },
  'pump-current': { kind: 'contact', least: 0, most: 1 },
  'relay-read-back': { kind: 'contact', least: 0, most: 1 },
  'tank-float': { kind: 'contact', least: 0, most: 1 },
  leak: { kind: 'contact', least: 0, most: 1 },
  overflow: { kind: 'contact', least: 0, most: 1 },
  mains: { kind: 'contact', least: 0, most: 1 },
  probe: { kind: 'level', least: 0, most: 1023 },
};
/** No reading is this: a loose or cut cable of the campaign says nothing. */
const CUT = Number.NEGATIVE_INFINITY;

const valueOf = (sample: Sample): number => {
  switch (sample.channel) {
    case 'air-temperature':
    case 'water-temperature':
      return sample.celsius;
    case 'humidity':
      return sample.percent;
    case 'return-flow':
      return sample.litresPerMinute;
    case 'tank-level':
      return sample.litres;
    case 'probe':
      return sample.counts;
    case 'return-switch':
      return Number(sample.flowing);
    case 'pump-current':
      return Number(sample.drawing);
    case 'relay-read-back':
      return Number(sample.closed);
    case 'tank-float':
      return Number(sample.low);
    case 'leak':
    case 'overflow':
      return Number(sample.wet);
    case 'mains':
      return Number(sample.there);
  }
};

const withValue = (sample: Sample, value: number): Sample => {
  const so = value >= 0.5;
  switch (sample.channel) {
    case 'air-temperature':
    case 'water-temperature':
      return { ...sample, celsius: value };
    case 'humidity':
      return { ...sample, percent: value };
    case 'return-flow':
      return { ...sample, litresPerMinute: value };
    case 'tank-level':
      return { ...sample, litres: value };
    case 'probe':
      return { ...sample, counts: value };
    case 'return-switch':
      return { ...sample, flowing: so };
    case 'pump-current':
      return { ...sample, drawing: so };
    case 'relay-read-back':
      return { ...sample, closed: so };
    case 'tank-float':
      return { ...sample, low: so };
    case 'leak':
    case 'overflow':
      return { ...sample, wet: so };
    case 'mains':
      return { ...sample, there: so };
  }
};

/** The samples as they come to the host, with what the script has done to sensors; `hit` is told of each that it changed. */
export const createSpoiler = (
  { sensors }: Script,
  dice: Dice,
  hit: (fault: SensorFault) => void,
): ((samples: readonly Sample[], atMillis: number) => readonly Sample[]) => {
  const known = new Map<SensorFault, Spoiled>();
  const spoilerOf = (fault: SensorFault): Spoiled => {
    const made = known.get(fault) ?? spoiled(fault.way, { ...SIGNALS[fault.channel], cut: CUT }, dice);
    known.set(fault, made);
    return made;
  };
  return (samples, atMillis) =>
    samples.flatMap((sample) => {
      const fault = sensors.find(
        ({ channel, ...span }) => channel === sample.channel && within(span, atMillis),
      );
      if (fault === undefined) return [sample];
      const truth = valueOf(sample);
      const shown = spoilerOf(fault)(truth, atMillis);
      if (shown !== truth) hit(fault);
      return shown === CUT ? [] : [withValue(sample, shown)];
    });
};
