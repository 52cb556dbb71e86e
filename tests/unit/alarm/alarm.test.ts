import { describe, expect, it } from 'vitest';
import {
  acknowledged,
  afterConditions,
  isActive,
  type Alarm,
  type AlarmState,
} from '../../../src/alarm/alarm.ts';
import type { Card } from '../../../src/alarm/card.ts';
import { monotonicMillis } from '../../../src/time/instant.ts';

/**
 * The state transitions of IEC 62682:2022 (ANSI/ISA-18.2) that the project uses: normal, unacknowledged,
 * acknowledged, returned to normal unacknowledged. Every state meets every event, also those that must
 * change nothing.
 */
const card = (cause: string): Card => ({
  kind: 'missed-flood',
  priority: 'high',
  cause,
  consequence: null,
  firstAction: 'Look.',
});
const OLD = card('as raised');
const NEW = card('as it is now');
const RAISED = monotonicMillis(5_000);
const NOW = monotonicMillis(60_000);

const EVENTS = {
  'condition stands': (alarms: readonly Alarm[]) => afterConditions(alarms, [NEW], NOW),
  'condition is gone': (alarms: readonly Alarm[]) => afterConditions(alarms, [], NOW),
  'somebody acknowledges': (alarms: readonly Alarm[]) => acknowledged(alarms, 'missed-flood', 'Ana'),
  'somebody acknowledges another alarm': (alarms: readonly Alarm[]) =>
    acknowledged(alarms, 'tank-low', 'Ana'),
} as const;

type State = AlarmState | 'normal';
type EventName = keyof typeof EVENTS;

const NONE: readonly string[] = [];
const TABLE: readonly (readonly [State, EventName, State, readonly string[], cause?: string])[] = [
  ['normal', 'condition stands', 'active-unacknowledged', ['raised'], NEW.cause],
  ['normal', 'condition is gone', 'normal', NONE],
  ['normal', 'somebody acknowledges', 'normal', NONE],
  ['normal', 'somebody acknowledges another alarm', 'normal', NONE],
  ['active-unacknowledged', 'condition stands', 'active-unacknowledged', NONE, NEW.cause],
  ['active-unacknowledged', 'condition is gone', 'returned-unacknowledged', ['returned'], OLD.cause],
  ['active-unacknowledged', 'somebody acknowledges', 'active-acknowledged', ['acknowledged'], OLD.cause],
  ['active-unacknowledged', 'somebody acknowledges another alarm', 'active-unacknowledged', NONE, OLD.cause],
  ['active-acknowledged', 'condition stands', 'active-acknowledged', NONE, NEW.cause],
  ['active-acknowledged', 'condition is gone', 'normal', ['returned']],
  ['active-acknowledged', 'somebody acknowledges', 'active-acknowledged', NONE, OLD.cause],
  ['active-acknowledged', 'somebody acknowledges another alarm', 'active-acknowledged', NONE, OLD.cause],
  ['returned-unacknowledged', 'condition stands', 'active-unacknowledged', ['raised'], NEW.cause],
  ['returned-unacknowledged', 'condition is gone', 'returned-unacknowledged', NONE, OLD.cause],
  ['returned-unacknowledged', 'somebody acknowledges', 'normal', ['acknowledged']],
  [
    'returned-unacknowledged',
    'somebody acknowledges another alarm',
    'returned-unacknowledged',
    NONE,
    OLD.cause,
  ],
];

describe('the alarm states', () => {
  for (const [state, event, next, changes, cause] of TABLE) {
    it(`${state}, ${event}: ${next}${changes.length === 0 ? ', and nothing is told' : ''}`, () => {
      const before: readonly Alarm[] = state === 'normal' ? [] : [{ state, raisedAt: RAISED, card: OLD }];
      const after = EVENTS[event](before);
      expect(after.alarms.map((alarm) => alarm.state)).toEqual(next === 'normal' ? [] : [next]);
      expect(after.alarms.map((alarm) => alarm.card.cause)).toEqual(cause === undefined ? [] : [cause]);
      expect(after.changes.map((change) => change.kind)).toEqual(changes);
    });
  }

  it('meets every event in every state', () => {
    const states: readonly State[] = [
      'normal',
      'active-unacknowledged',
      'active-acknowledged',
      'returned-unacknowledged',
    ];
    const pairs = states.flatMap((state) => Object.keys(EVENTS).map((event) => `${state}, ${event}`));
    expect(TABLE.map(([state, event]) => `${state}, ${event}`).toSorted()).toEqual(pairs.toSorted());
  });

  it('keeps the moment at which an alarm was raised while it stands', () => {
    const [kept] = afterConditions(
      [{ state: 'active-acknowledged', raisedAt: RAISED, card: OLD }],
      [NEW],
      NOW,
    ).alarms;
    const [raised] = afterConditions([], [NEW], NOW).alarms;
    expect([kept?.raisedAt, raised?.raisedAt]).toEqual([RAISED, NOW]);
  });

  it('carries two alarms past each other: one stands, one goes, a third comes', () => {
    const tank: Card = { ...OLD, kind: 'tank-low' };
    const air: Card = { ...OLD, kind: 'no-good-temperature' };
    const before = afterConditions([], [OLD, tank], RAISED).alarms;
    const { alarms, changes } = afterConditions(before, [tank, air], NOW);
    expect(alarms.map((alarm) => [alarm.card.kind, isActive(alarm)])).toEqual([
      ['missed-flood', false],
      ['tank-low', true],
      ['no-good-temperature', true],
    ]);
    expect(changes.map((change) => [change.kind, change.card.kind])).toEqual([
      ['returned', 'missed-flood'],
      ['raised', 'no-good-temperature'],
    ]);
  });

  it('names who acknowledged', () => {
    const { changes } = acknowledged(afterConditions([], [OLD], RAISED).alarms, 'missed-flood', 'Ana');
    expect(changes).toEqual([{ kind: 'acknowledged', card: OLD, who: 'Ana' }]);
  });
});
