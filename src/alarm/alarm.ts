import type { MonotonicMillis } from '../time/instant.ts';
import type { AlarmKind, Card } from './card.ts';

/**
 * The states of IEC 62682 that this machine needs so far; a normal alarm is one that is not in the list.
 * Returned means: the condition has gone, and nobody has said that they saw it.
 */
export type AlarmState = 'active-unacknowledged' | 'active-acknowledged' | 'returned-unacknowledged';

export interface Alarm {
  readonly state: AlarmState;
  readonly raisedAt: MonotonicMillis;
  readonly card: Card;
}

export type Alarms = readonly Alarm[];

export type AlarmChange =
  | { readonly kind: 'raised'; readonly card: Card }
  | { readonly kind: 'returned'; readonly card: Card }
  | { readonly kind: 'acknowledged'; readonly card: Card; readonly who: string };

interface Changed {
  readonly alarms: Alarms;
  readonly changes: readonly AlarmChange[];
}

/** One alarm against whether its condition still stands (`card`) or has gone (null). */
const carriedOn = (
  alarm: Alarm,
  card: Card | null,
): { readonly alarm: Alarm | null; readonly change: AlarmChange | null } => {
  switch (alarm.state) {
    case 'active-unacknowledged':
      if (card !== null) return { alarm: { ...alarm, card }, change: null };
      return {
        alarm: { ...alarm, state: 'returned-unacknowledged' },
        change: { kind: 'returned', card: alarm.card },
      };
    case 'active-acknowledged':
      if (card !== null) return { alarm: { ...alarm, card }, change: null };
      return { alarm: null, change: { kind: 'returned', card: alarm.card } };
    case 'returned-unacknowledged':
      if (card === null) return { alarm, change: null };
      return {
        alarm: { ...alarm, state: 'active-unacknowledged', card },
        change: { kind: 'raised', card },
      };
  }
};

/** The alarms after the conditions of this moment. An alarm that stands keeps its moment and takes the newest words. */
export const afterConditions = (alarms: Alarms, cards: readonly Card[], now: MonotonicMillis): Changed => {
  const changes: AlarmChange[] = [];
  const kept: Alarm[] = [];
  const standing = new Map<AlarmKind, Card>(cards.map((card) => [card.kind, card]));
  for (const alarm of alarms) {
    const next = carriedOn(alarm, standing.get(alarm.card.kind) ?? null);
    standing.delete(alarm.card.kind);
    if (next.alarm !== null) kept.push(next.alarm);
    if (next.change !== null) changes.push(next.change);
  }
  for (const card of standing.values()) {
    kept.push({ state: 'active-unacknowledged', raisedAt: now, card });
    changes.push({ kind: 'raised', card });
  }
  return { alarms: kept, changes };
};

/** Somebody has seen it. A returned alarm is normal again; an active one stays until its condition goes. */
export const acknowledged = (alarms: Alarms, kind: AlarmKind, who: string): Changed => {
  const changes: AlarmChange[] = [];
  const kept: Alarm[] = [];
  for (const alarm of alarms) {
    if (alarm.card.kind !== kind || alarm.state === 'active-acknowledged') {
      kept.push(alarm);
      continue;
    }
    changes.push({ kind: 'acknowledged', card: alarm.card, who });
    if (alarm.state === 'active-unacknowledged') kept.push({ ...alarm, state: 'active-acknowledged' });
  }
  return { alarms: kept, changes };
};

export const isActive = (alarm: Alarm): boolean => alarm.state !== 'returned-unacknowledged';
