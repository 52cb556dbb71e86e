import type { Wiring } from '../../src/farm/farm.ts';
import type { Channel } from '../../src/ports/sample.ts';
import type { Failing } from '../faults/failing.ts';
import type { Script } from './script.ts';

const PARTS: Readonly<Record<Channel, keyof Wiring>> = {
  'air-temperature': 'airThermistor',
  'water-temperature': 'waterThermistor',
  humidity: 'humidity',
  'return-flow': 'returnFlow',
  'return-switch': 'returnFlow',
  'tank-level': 'tankLevel',
  'pump-current': 'pumpCurrent',
  'relay-read-back': 'relayReadBack',
  'tank-float': 'tankFloat',
  leak: 'leakSensor',
  overflow: 'overflowFloat',
  mains: 'mainsPresent',
  probe: 'probe',
};

/** The sensors that fail in a script, as parts of the wiring. */
export const failingParts = ({ sensors }: Script): readonly Failing[] =>
  sensors.map(({ channel, ...failing }) => ({ ...failing, part: PARTS[channel] }));
