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

/** One fitted sensor as a person reads it. */
export interface NamedReading {
  readonly name: string;
  /** With its unit. */
  readonly reading: Reading<string>;
}

const inWords = <Value>(reading: Reading<Value>, words: (value: Value) => string): Reading<string> =>
  reading.quality === 'absent' ? reading : { ...reading, value: words(reading.value) };

/** Every sensor that the farm has fitted, in the order of what matters first to the plants. */
export const readings = (
  { evidence, sensors }: Pick<Farm, 'evidence' | 'sensors'>,
  wiring: Wiring,
  senses: Senses,
  calibration: ProbeCalibration | null,
  now: MonotonicMillis,
): readonly NamedReading[] => {
  const shown: NamedReading[] = [];
  const show = (fitted: boolean, name: string, reading: () => Reading<string>): void => {
    if (fitted) shown.push({ name, reading: reading() });
  };
  const contact = (channel: SwitchChannel, so: string, not: string) => (): Reading<string> =>
    inWords(switched(senses, channel, now), (value) => (value ? so : not));
  const { probe } = wiring;

  show(evidence.returnFlow === 'meter', 'return flow', () =>
    inWords(returnLitresPerMinute(senses, now), (value) => `${value.toFixed(1)} L/min`),
  );
  show(evidence.returnFlow === 'switch', 'return flow', contact('return-switch', 'water', 'none'));
  show(evidence.pumpCurrent, 'pump current', contact('pump-current', 'drawing', 'none'));
  show(evidence.relayReadBack, 'relay contact', contact('relay-read-back', 'closed', 'open'));
  show(evidence.tankLevel, 'tank', () =>
    inWords(tankLitres(senses, now), (value) => `${value.toFixed(0)} L`),
  );
  show(evidence.tankFloat, 'tank float', contact('tank-float', 'low', 'not low'));
  show(evidence.leakSensor, 'leak sensor', contact('leak', 'wet', 'dry'));
  show(evidence.overflowFloat, 'overflow float', contact('overflow', 'wet', 'dry'));
  show(evidence.mainsPresent, 'mains', contact('mains', 'there', 'LOST'));
  show(sensors.airTemperature, 'air', () =>
    inWords(airCelsius(senses, now), (value) => `${value.toFixed(1)} °C`),
  );
  show(sensors.humidity, 'humidity', () =>
    inWords(humidityPercent(senses, now), (value) => `${value.toFixed(0)} %`),
  );
  show(wiring.waterThermistor !== undefined, 'water', () =>
    inWords(waterCelsius(senses, now), (value) => `${value.toFixed(1)} °C`),
  );
  if (probe !== undefined) {
    show(true, 'strength', () =>
      inWords(strength(senses, probe, calibration, now), (value) =>
        value.compensated
          ? `${value.millisiemensPerCmAt25.toFixed(2)} mS/cm at 25 °C`
          : `${(value.microsiemensPerCm / 1000).toFixed(2)} mS/cm, not compensated`,
      ),
    );
  }
  return shown;
};
