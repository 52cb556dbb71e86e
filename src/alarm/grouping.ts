import { isActive, type Alarm, type Alarms } from './alarm.ts';
import type { AlarmKind } from './card.ts';
import { STAKES, type Stake } from './stakes.ts';

/**
 * What follows from what: while the alarm on the left stands, those on the right need no call of their own, for whoever
 * mends the left mends them. They stay in the list and on the page.
 */
export const EXPLAINS: Partial<Readonly<Record<AlarmKind, readonly AlarmKind[]>>> = {
  'mains-lost': ['missed-flood', 'weak-flow', 'drying-out'],
  'board-silent': [
    'drying-out',
    'flow-sensor-silent',
    'flow-sensor-stuck',
    'no-good-temperature',
    'clock-drift',
    'relay-chatters',
    'float-unmoved',
    'line-bad',
  ],
  // A missed flood beside a low tank speaks for itself: the float may be the one that lies. A tank that falls has told its litres
  // an hour before the float hung low, as a rule, and tells them again once somebody has filled it and it still falls.
  'tank-low': ['weak-flow', 'return-lower', 'drying-out', 'tank-falls'],
  'float-suspect': ['drying-out'],
  'water-on-floor': ['drying-out'],
  'missed-flood': ['weak-flow'],
  'pump-runs-on': ['flow-sensor-stuck'],
};

/** Only an alarm that speaks for itself explains others: not one that is over, or that a person has put off. */
const speaks = (alarm: Alarm): boolean => isActive(alarm) && alarm.state !== 'shelved';

/** The alarm that explains this one, the first that came where several do; null when it stands for itself. */
export const explanation = (alarms: Alarms, kind: AlarmKind): Alarm | null =>
  alarms.find((other) => speaks(other) && EXPLAINS[other.card.kind]?.includes(kind) === true) ?? null;

/** The alarm whose call speaks for this one: itself, or what explains it, to the end of the chain. */
export const speaker = (alarms: Alarms, alarm: Alarm): Alarm => {
  const by = explanation(alarms, alarm.card.kind);
  // No kind explains itself, by whatever way: the table has no ring (a test walks it).
  return by === null ? alarm : speaker(alarms, by);
};

/** Alarms that stand with this one and are spoken for by it, in the order in which they came. */
export const followers = (alarms: Alarms, of: Alarm): Alarms =>
  alarms.filter((alarm) => alarm !== of && speaks(alarm) && speaker(alarms, alarm) === of);

/** In a storm of calls all of one stake are one message. */
export const stakeOf = ({ card }: Alarm): Stake => STAKES[card.kind];
