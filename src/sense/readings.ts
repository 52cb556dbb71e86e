import type { Farm, Wiring } from '../farm/farm.ts';
import type { MonotonicMillis } from '../time/instant.ts';
import type { ProbeCalibration } from './probe.ts';
import type { Reading } from './reading.ts';
import {
  airCelsius,
  humidityPercent,
  returnLitresPerMinute,
  switched,
  tankLitres,
  waterCelsius,
  type Senses,
  type SwitchChannel,
} from './senses.ts';
import { strength } from './strength.ts';

/** One fitted sensor as a person reads it, and as it is counted. */
export interface NamedReading {
  readonly name: string;
  /** With its unit. */
  readonly reading: Reading<string>;
  /** A contact gives a boolean; null where nothing is known. */
  readonly value: number | boolean | null;
  /** Of a number; empty for a contact. */
  readonly unit: string;
}

/** What is not at 25 °C is no strength, and has another unit. */
export const STRENGTH_UNIT = 'mS/cm at 25 °C';

type Shown = Omit<NamedReading, 'name'>;

const shownAs = <Value>(
  reading: Reading<Value>,
  words: (value: Value) => string,
  unit: string,
  counted: (value: Value) => number | boolean,
): Shown =>
  reading.quality === 'absent'
    ? { reading, value: null, unit }
    : { reading: { ...reading, value: words(reading.value) }, value: counted(reading.value), unit };

const measure = (reading: Reading<number>, digits: number, unit: string): Shown =>
  shownAs(
    reading,
    (value) => `${value.toFixed(digits)} ${unit}`,
    unit,
    (value) => value,
  );

/** Every sensor that the farm has fitted, in the order of what matters first to the plants. */
export const readings = (
  { evidence, sensors }: Pick<Farm, 'evidence' | 'sensors'>,
  wiring: Wiring,
  senses: Senses,
  calibration: ProbeCalibration | null,
  now: MonotonicMillis,
): readonly NamedReading[] => {
  const shown: NamedReading[] = [];
  const show = (fitted: boolean, name: string, of: () => Shown): void => {
    if (fitted) shown.push({ name, ...of() });
  };
  const contact = (channel: SwitchChannel, so: string, not: string) => (): Shown =>
    shownAs(
      switched(senses, channel, now),
      (value) => (value ? so : not),
      '',
      (value) => value,
    );
  const { probe } = wiring;

  show(evidence.returnFlow === 'meter', 'return flow', () =>
    measure(returnLitresPerMinute(senses, now), 1, 'L/min'),
  );
  show(evidence.returnFlow === 'switch', 'return flow', contact('return-switch', 'water', 'none'));
  show(evidence.pumpCurrent, 'pump current', contact('pump-current', 'drawing', 'none'));
  show(evidence.relayReadBack, 'relay contact', contact('relay-read-back', 'closed', 'open'));
  show(evidence.tankLevel, 'tank', () => measure(tankLitres(senses, now), 0, 'L'));
  show(evidence.tankFloat, 'tank float', contact('tank-float', 'low', 'not low'));
  show(evidence.leakSensor, 'leak sensor', contact('leak', 'wet', 'dry'));
  show(evidence.overflowFloat, 'overflow float', contact('overflow', 'wet', 'dry'));
  show(evidence.mainsPresent, 'mains', contact('mains', 'there', 'LOST'));
  show(sensors.airTemperature, 'air', () => measure(airCelsius(senses, now), 1, '°C'));
  show(sensors.humidity, 'humidity', () => measure(humidityPercent(senses, now), 0, '%'));
  show(wiring.waterThermistor !== undefined, 'water', () => measure(waterCelsius(senses, now), 1, '°C'));
  if (probe !== undefined) {
    show(true, 'strength', () => {
      const read = strength(senses, probe, calibration, now);
      return shownAs(
        read,
        (value) =>
          value.compensated
            ? `${value.millisiemensPerCmAt25.toFixed(2)} mS/cm at 25 °C`
            : `${(value.microsiemensPerCm / 1000).toFixed(2)} mS/cm, not compensated`,
        read.quality !== 'absent' && read.value.compensated ? STRENGTH_UNIT : 'mS/cm',
        (value) => (value.compensated ? value.millisiemensPerCmAt25 : value.microsiemensPerCm / 1000),
      );
    });
  }
  return shown;
};
