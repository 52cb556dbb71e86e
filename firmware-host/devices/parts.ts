import type { Wiring } from '../../src/farm/farm.ts';
import type { Sample } from '../../src/ports/sample.ts';
import type { MonotonicMillis } from '../../src/time/instant.ts';
import { humidityOf, tankLitresOf, thermistorCelsius } from '../../src/sense/counts.ts';
import { analogPart } from './analog-part.ts';
import { AGREEING, contactPart, type ContactPart } from './contact-part.ts';
import type { Fitting } from './fitting.ts';
import { pulsePart } from './pulse-part.ts';

/** What a connected board is read by; all of it goes with the connection. */
export interface Parts {
  /** Once in a reading: contacts are asked for. */
  readonly beat: () => void;
}

/** Of a board that has not the pins for what is wired. */
export const NO_PARTS: Parts = { beat: () => undefined };

const analogParts = (wiring: Wiring, fitting: Fitting): void => {
  const { take } = fitting;
  const { airThermistor, waterThermistor, humidity, probe, tankLevel, pumpCurrent } = wiring;
  if (airThermistor !== undefined) {
    analogPart(fitting, airThermistor.pin, (counts, at) => {
      take({ at, channel: 'air-temperature', celsius: thermistorCelsius(counts, airThermistor) });
    });
  }
  if (waterThermistor !== undefined) {
    analogPart(fitting, waterThermistor.pin, (counts, at) => {
      take({ at, channel: 'water-temperature', celsius: thermistorCelsius(counts, waterThermistor) });
    });
  }
  if (humidity !== undefined) {
    analogPart(fitting, humidity.pin, (counts, at) => {
      take({ at, channel: 'humidity', percent: humidityOf(counts, humidity) });
    });
  }
  if (probe !== undefined) {
    analogPart(fitting, probe.pin, (counts, at) => {
      take({ at, channel: 'probe', counts });
    });
  }
  if (tankLevel !== undefined) {
    analogPart(fitting, tankLevel.pin, (counts, at) => {
      take({ at, channel: 'tank-level', litres: tankLitresOf(counts, tankLevel) });
    });
  }
  if (pumpCurrent !== undefined && 'drawsAboveCounts' in pumpCurrent) {
    analogPart(fitting, pumpCurrent.pin, (counts, at) => {
      take({ at, channel: 'pump-current', drawing: counts > pumpCurrent.drawsAboveCounts });
    });
  }
};

/** A contact that may be wired, how calm it must be, and what it tells. */
type ContactRow = readonly [
  part: NonNullable<Wiring['tankFloat']> | undefined,
  agreeing: Parameters<typeof contactPart>[2],
  sample: (so: boolean, at: MonotonicMillis) => Sample,
];

const contactRows = (wiring: Wiring): readonly ContactRow[] => {
  const { returnFlow, pumpCurrent, relayReadBack, tankFloat, leakSensor, overflowFloat, mainsPresent } =
    wiring;
  const { quick, calm } = AGREEING;
  const returnSwitch = returnFlow !== undefined && 'reads' in returnFlow ? returnFlow : undefined;
  const currentSwitch = pumpCurrent !== undefined && 'reads' in pumpCurrent ? pumpCurrent : undefined;
  return [
    [returnSwitch, quick, (flowing, at) => ({ at, channel: 'return-switch', flowing })],
    [currentSwitch, quick, (drawing, at) => ({ at, channel: 'pump-current', drawing })],
    [relayReadBack, quick, (closed, at) => ({ at, channel: 'relay-read-back', closed })],
    [tankFloat, calm, (low, at) => ({ at, channel: 'tank-float', low })],
    [leakSensor, calm, (wet, at) => ({ at, channel: 'leak', wet })],
    [overflowFloat, calm, (wet, at) => ({ at, channel: 'overflow', wet })],
    [mainsPresent, calm, (there, at) => ({ at, channel: 'mains', there })],
  ];
};

const contactParts = (wiring: Wiring, fitting: Fitting): readonly ContactPart[] => {
  const { returnFlow } = wiring;
  const contacts = contactRows(wiring).flatMap(([part, agreeing, sample]) =>
    part === undefined
      ? []
      : [
          contactPart(fitting, part, agreeing, (so, at) => {
            fitting.take(sample(so, at));
          }),
        ],
  );
  const isMeter = returnFlow !== undefined && 'pulsesPerLitre' in returnFlow;
  return isMeter ? [...contacts, pulsePart(fitting, returnFlow)] : contacts;
};

/** Makes every sensor of the wiring on a board that has just been connected. */
export const fitParts = (wiring: Wiring, fitting: Fitting): Parts => {
  analogParts(wiring, fitting);
  const contacts = contactParts(wiring, fitting);
  return {
    beat: () => {
      for (const contact of contacts) contact.poll();
    },
  };
};
