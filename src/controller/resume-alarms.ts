import type { AlarmKind, Card } from '../alarm/card.ts';
import { isActive } from '../alarm/alarm.ts';
import { mayBeSet } from '../time/clock-trust.ts';
import { believedAir } from './air.ts';
import type { Turn } from './turn.ts';

/**
 * How it is known whether a condition stands, after a restart. `memory`: what raised it is kept, and ends when it is seen to
 * have ended. The others hang on a sensor that has not spoken yet, and which is first silent after every start, or on whether
 * something sets the clock after it.
 */
const KNOWN_BY: Readonly<Record<AlarmKind, 'memory' | 'flow-sensor' | 'air-thermometer' | 'clock'>> = {
  'missed-flood': 'memory',
  'weak-flow': 'memory',
  'return-lower': 'memory',
  'mains-lost': 'memory',
  'pump-runs-on': 'memory',
  'tank-low': 'memory',
  'float-suspect': 'memory',
  'tank-falls': 'memory',
  'tank-full': 'memory',
  'strength-off': 'memory',
  'water-on-floor': 'memory',
  'flow-sensor-silent': 'flow-sensor',
  'flow-sensor-stuck': 'memory',
  // Not kept: while the read-back is silent it stays, and a contact that goes on is seen to within its deadband.
  'relay-chatters': 'memory',
  'float-unmoved': 'memory',
  'clock-stepped': 'clock',
  'no-good-temperature': 'air-thermometer',
  'hold-is-long': 'memory',
  'drying-out': 'memory',
  'board-silent': 'memory',
  // Of the host: they stay as they are until it has told of itself.
  'channel-dead': 'memory',
  'not-recording': 'memory',
  'safe-mode': 'memory',
  'past-unread': 'memory',
  'clock-drift': 'memory',
  'line-bad': 'memory',
  'host-hot': 'memory',
  'host-large': 'memory',
  'host-battery': 'memory',
};

export const isAlarmKind = (text: string): text is AlarmKind => Object.hasOwn(KNOWN_BY, text);

const isKnown = (turn: Turn, kind: AlarmKind, flow: 'good' | 'in-doubt'): boolean => {
  switch (KNOWN_BY[kind]) {
    case 'memory':
      return true;
    case 'flow-sensor':
      return flow === 'good';
    case 'air-thermometer':
      return turn.farm.temperatureRule.restPercentPerDegree === 0 || believedAir(turn).quality === 'good';
    case 'clock':
      return !mayBeSet(turn.state.clock, turn.now.monotonic);
  }
};

export interface CarriedOver {
  readonly cards: readonly Card[];
  /** Those of which still nobody could see whether they stand. */
  readonly kinds: readonly AlarmKind[];
}

/**
 * The cards of this moment, and those that an earlier host raised as long as nobody can see that they have gone: no alarm
 * vanishes because nobody looked.
 */
export const carriedOver = (turn: Turn, cards: readonly Card[], flow: 'good' | 'in-doubt'): CarriedOver => {
  const { alarms, carriedAlarms } = turn.state;
  if (carriedAlarms.length === 0) return { cards, kinds: carriedAlarms };
  const standing = new Set(cards.map(({ kind }) => kind));
  const kinds = carriedAlarms.filter((kind) => !standing.has(kind) && !isKnown(turn, kind, flow));
  const held = alarms.filter((alarm) => isActive(alarm) && kinds.includes(alarm.card.kind));
  return { cards: [...cards, ...held.map(({ card }) => card)], kinds };
};
