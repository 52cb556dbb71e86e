import type { Farm, Wiring } from '../../src/farm/farm.ts';
import { shedWith } from './sheds.ts';
import type { Change } from '../support/farm.ts';

const contact = (pin: number): { readonly pin: number; readonly reads: 'low' } => ({ pin, reads: 'low' });
const TEN_K = { ohmsAt25: 10_000, betaKelvin: 3950, fixedOhms: 10_000, wired: 'to-ground' } as const;

/** Every part that the wiring knows, on the pins of an Uno; the return by a meter. */
export const METER_WIRING = {
  relay: { pin: 7, energised: 'high' },
  returnFlow: { pin: 2, pulsesPerLitre: 1.5 },
  relayReadBack: contact(3),
  tankFloat: contact(4),
  buzzer: 5,
  lamp: 6,
  button: 8,
  leakSensor: contact(9),
  overflowFloat: contact(10),
  airThermistor: { pin: 'A0', ...TEN_K },
  waterThermistor: { pin: 'A1', ...TEN_K },
  probe: { pin: 'A2', fullScaleMicrosiemensPerCm: 5000, compensation: 'linear', percentPerKelvin: 2 },
  pumpCurrent: { pin: 'A3', drawsAboveCounts: 100 },
  humidity: { pin: 'A4', percentAtZero: 0, percentAtFullScale: 100 },
  tankLevel: { pin: 'A5', litresAtZero: 0, litresAtFullScale: 600 },
} as const satisfies Wiring;

const fitted = (returnFlow: 'meter' | 'switch', wiring: Wiring): Farm =>
  shedWith(
    ...([
      [
        ['evidence'],
        {
          returnFlow,
          pumpCurrent: true,
          relayReadBack: true,
          tankLevel: true,
          tankFloat: true,
          leakSensor: true,
          overflowFloat: true,
        },
      ],
      [['board'], wiring],
    ] satisfies readonly Change[]),
  );

export const SWITCH_WIRING: Wiring = { ...METER_WIRING, returnFlow: contact(2) };
export const METER_SHED = fitted('meter', METER_WIRING);
export const SWITCH_SHED = fitted('switch', SWITCH_WIRING);
