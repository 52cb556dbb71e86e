import type { AlarmChange } from '../alarm/alarm.ts';
import { cardText } from '../alarm/card.ts';
import type { Happening } from '../journal/entry.ts';
import { minutesBetween, type MonotonicMillis } from '../time/instant.ts';

/** What the journal keeps of an alarm that changed. */
export const alarmSaid = (change: AlarmChange, now: MonotonicMillis): Happening => {
  const { kind: alarm, priority } = change.card;
  switch (change.kind) {
    case 'raised':
      return { kind: 'alarm-raised', alarm, priority, text: cardText(change.card) };
    case 'returned':
      return { kind: 'alarm-returned', alarm };
    case 'acknowledged':
      return { kind: 'alarm-acknowledged', alarm, who: change.who };
    case 'shelved':
      return { kind: 'alarm-shelved', alarm, who: change.who, minutes: minutesBetween(now, change.until) };
    case 'unshelved':
      return { kind: 'alarm-unshelved', alarm };
  }
};
