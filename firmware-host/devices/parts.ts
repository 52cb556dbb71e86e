import type { Farm, Wiring } from '../../src/farm/farm.ts';
import type { Signals } from '../../src/ports/board.ts';
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

const contactParts = (wiring: Wiring, fitting: Fitting): readonly ContactPart[] => {
  const { take } = fitting;
  const { returnFlow, pumpCurrent, relayReadBack, tankFloat, leakSensor, overflowFloat } = wiring;
  const parts: ContactPart[] = [];
  if (returnFlow !== undefined) {
    parts.push(
      'pulsesPerLitre' in returnFlow
        ? pulsePart(fitting, returnFlow)
        : contactPart(fitting, returnFlow, AGREEING.quick, (flowing, at) => {
            take({ at, channel: 'return-switch', flowing });
          }),
    );
  }
  if (pumpCurrent !== undefined && !('drawsAboveCounts' in pumpCurrent)) {
    parts.push(
      contactPart(fitting, pumpCurrent, AGREEING.quick, (drawing, at) => {
        take({ at, channel: 'pump-current', drawing });
      }),
    );
  }
  if (relayReadBack !== undefined) {
    parts.push(
      contactPart(fitting, relayReadBack, AGREEING.quick, (closed, at) => {
        take({ at, channel: 'relay-read-back', closed });
      }),
    );
  }
  if (tankFloat !== undefined) {
    parts.push(
      contactPart(fitting, tankFloat, AGREEING.calm, (low, at) => {
        take({ at, channel: 'tank-float', low });
      }),
    );
  }
  if (leakSensor !== undefined) {
    parts.push(
      contactPart(fitting, leakSensor, AGREEING.calm, (wet, at) => {
        take({ at, channel: 'leak', wet });
      }),
    );
  }
  if (overflowFloat !== undefined) {
    parts.push(
      contactPart(fitting, overflowFloat, AGREEING.calm, (wet, at) => {
        take({ at, channel: 'overflow', wet });
      }),
    );
  }
  return parts;
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
