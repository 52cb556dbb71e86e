import type { Farm, Wiring } from '../../src/farm/farm.ts';

/** Pulses a second at the usual return: enough to see, few enough to simulate. */
const DEMO_PULSES_PER_SECOND = 1;

/** The wiring of a board in a simulated shed, for a farm file that names no pins yet. */
export const demoWiring = ({ evidence, sensors, benches, tank }: Farm): Wiring => {
  const contact = (pin: number): { readonly pin: number; readonly reads: 'low' } => ({ pin, reads: 'low' });
  const thermistor = <Pin extends 'A0' | 'A1'>(
    pin: Pin,
  ): { readonly pin: Pin; readonly ohmsAt25: 10_000; readonly betaKelvin: 3950 } & {
    readonly fixedOhms: 10_000;
    readonly wired: 'to-ground';
  } => ({ pin, ohmsAt25: 10_000, betaKelvin: 3950, fixedOhms: 10_000, wired: 'to-ground' });
  const litresPerMinute = benches.reduce((sum, bench) => sum + bench.litresPerMinute, 0);
  const pulsesPerLitre = (60 * DEMO_PULSES_PER_SECOND) / litresPerMinute;
  return {
    relay: { pin: 7, energised: 'high' },
    ...(evidence.returnFlow === 'switch' ? { returnFlow: contact(2) } : {}),
    ...(evidence.returnFlow === 'meter' ? { returnFlow: { pin: 2, pulsesPerLitre } } : {}),
    ...(evidence.relayReadBack ? { relayReadBack: contact(3) } : {}),
    ...(evidence.tankFloat ? { tankFloat: contact(4) } : {}),
    buzzer: 5,
    lamp: 6,
    button: 8,
    ...(evidence.leakSensor ? { leakSensor: contact(9) } : {}),
    ...(evidence.overflowFloat ? { overflowFloat: contact(10) } : {}),
    ...(evidence.mainsPresent ? { mainsPresent: contact(11) } : {}),
    ...(sensors.airTemperature ? { airThermistor: thermistor('A0') } : {}),
    waterThermistor: thermistor('A1'),
    probe: { pin: 'A2', fullScaleMicrosiemensPerCm: 5000, compensation: 'linear', percentPerKelvin: 2 },
    ...(evidence.pumpCurrent ? { pumpCurrent: { pin: 'A3', drawsAboveCounts: 100 } } : {}),
    ...(sensors.humidity ? { humidity: { pin: 'A4', percentAtZero: 0, percentAtFullScale: 100 } } : {}),
    ...(evidence.tankLevel
      ? { tankLevel: { pin: 'A5', litresAtZero: 0, litresAtFullScale: tank.litres } }
      : {}),
  };
};
