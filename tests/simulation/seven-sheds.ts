import type { Farm, Wiring } from '../../src/farm/farm.ts';
import { everyEvidence, EVERY_PART } from '../support/wiring.ts';
import { shedWith } from './sheds.ts';

const fitted = (returnFlow: 'meter' | 'switch', wiring: Wiring): Farm =>
  shedWith(everyEvidence(returnFlow), [['board'], wiring]);

export const METER_WIRING = EVERY_PART;
export const SWITCH_WIRING: Wiring = { ...EVERY_PART, returnFlow: { pin: 2, reads: 'low' } };
export const METER_SHED = fitted('meter', METER_WIRING);
export const SWITCH_SHED = fitted('switch', SWITCH_WIRING);
