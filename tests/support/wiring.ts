import type { Wiring } from '../../src/farm/farm.ts';
import type { Change } from './farm.ts';

const contact = (pin: number): { readonly pin: number; readonly reads: 'low' } => ({ pin, reads: 'low' });

/** "10 k, 3950" against a resistor of 10 kΩ, as the farm file has it by default. */
export const TEN_K = { ohmsAt25: 10_000, betaKelvin: 3950, fixedOhms: 10_000, wired: 'to-ground' } as const;

/** Every part that the wiring knows, on the pins of an Uno; the return by a meter. */
export const EVERY_PART = {
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

/** The evidence of a farm in which all of them are fitted. */
export const everyEvidence = (returnFlow: 'meter' | 'switch'): Change => [
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
];
