import type { Farm, Wiring } from '../../src/farm/farm.ts';
import type { Signals } from '../../src/ports/board.ts';
import type { Sample } from '../../src/ports/sample.ts';
import type { MonotonicMillis } from '../../src/time/instant.ts';
import { humidityOf, tankLitresOf, thermistorCelsius } from '../../src/sense/counts.ts';
import { analogPart } from './analog-part.ts';
import { buttonPart } from './button-part.ts';
import { AGREEING, contactPart, type ContactPart } from './contact-part.ts';
import type { Fitting } from './fitting.ts';
import { pulsePart } from './pulse-part.ts';
import { pumpRelay, type PumpRelay } from './pump-relay.ts';

/** The parts on one connected board; all of them go with the connection. */
export interface Parts {
  /** Null on a board that is only read. */
  readonly pump: PumpRelay | null;
  /** What buzzer and lamp do from the next beat on. */
  readonly show: (signals: Signals) => void;
  /** Once in a reading: contacts are asked for, and every output is told again. */
  readonly beat: () => void;
}

/** Whether the pump is driven, or its board only looked at. */
export type Use = 'drive' | 'look';

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
  const { returnFlow, pumpCurrent, relayReadBack, tankFloat, leakSensor, overflowFloat } = wiring;
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

/** Makes every part of the wiring on a board that has just been connected. */
export const fitParts = (wiring: Wiring, deadBoard: Farm['deadBoard'], use: Use, fitting: Fitting): Parts => {
  const { library, board } = fitting;
  const pump = use === 'drive' ? pumpRelay(fitting, wiring.relay, deadBoard) : null;
  analogParts(wiring, fitting);
  const contacts = contactParts(wiring, fitting);
  const button = wiring.button === undefined ? null : buttonPart(fitting, wiring.button);
  const { buzzer, lamp } = use === 'drive' ? wiring : {};
  const buzzerPart = buzzer === undefined ? null : new library.Led({ pin: buzzer, board });
  const lampPart = lamp === undefined ? null : new library.Led({ pin: lamp, board });
  let shown: Signals = { buzzer: 'silent', lamp: 'dark' };
  return {
    pump,
    show: (signals) => {
      shown = signals;
    },
    beat: () => {
      pump?.sayAgain();
      buzzerPart?.[shown.buzzer === 'sounding' ? 'on' : 'off']();
      lampPart?.[shown.lamp === 'lit' ? 'on' : 'off']();
      for (const contact of contacts) contact.poll();
      button?.poll();
    },
  };
};
