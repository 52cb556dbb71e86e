import type { AlarmKind } from './card.ts';

/**
 * What an alarm is about. On water hangs the crop: such an alarm cannot be put off. What sees the water and what
 * the host does for itself may wait.
 */
export type Stake = 'water' | 'sensing' | 'host';

export const STAKES: Readonly<Record<AlarmKind, Stake>> = {
  'missed-flood': 'water',
  'mains-lost': 'water',
  'board-silent': 'water',
  'pump-runs-on': 'water',
  'tank-low': 'water',
  'float-suspect': 'water',
  'tank-falls': 'water',
  'tank-full': 'water',
  'strength-off': 'water',
  'water-on-floor': 'water',
  'hold-is-long': 'water',
  'drying-out': 'water',
  'weak-flow': 'water',
  'return-lower': 'water',
  'flow-sensor-silent': 'sensing',
  'flow-sensor-stuck': 'sensing',
  'no-good-temperature': 'sensing',
  // The pump still runs by it; what it may come to, a missed flood or a pump that runs on, is told by itself.
  'relay-chatters': 'sensing',
  'float-unmoved': 'sensing',
  'clock-stepped': 'host',
  'clock-drift': 'host',
  'line-bad': 'host',
  'host-hot': 'host',
  'host-large': 'host',
  'host-battery': 'host',
  'channel-dead': 'host',
  'not-recording': 'host',
  'safe-mode': 'host',
  'past-unread': 'host',
};

export const isOnWater = (kind: AlarmKind): boolean => STAKES[kind] === 'water';
