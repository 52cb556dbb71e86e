import { describe, expect, it } from 'vitest';
import {
  acknowledged,
  afterConditions,
  isActive,
  nextAlarmChange,
  shelvedUntil,
  type Alarm,
  type AlarmState,
  type Changed,
} from '../../../src/alarm/alarm.ts';
import type { Card } from '../../../src/alarm/card.ts';
import { TRANSITIONS, type Happens } from '../../../src/alarm/states.ts';
import { afterMinutes, afterSeconds, monotonicMillis } from '../../../src/time/instant.ts';
import { minute } from '../../support/moments.ts';
import { alarmIn, cardOf } from './made-alarms.ts';

/**
 * The states of IEC 62682:2022 (ANSI/ISA-18.2) that the project uses: normal, unacknowledged, acknowledged, returned to
 * normal unacknowledged, shelved. Every state meets everything that may happen, also what must change nothing.
 */
const KIND = 'no-good-temperature';
const OLD = cardOf(KIND, 'as raised');
const NEW = cardOf(KIND, 'as it is now');
const GRAVE = cardOf(KIND, 'worse', 'medium');
const RAISED = monotonicMillis(5_000);
const DURING = afterMinutes(RAISED, 30);
const SHELF_ENDS = afterMinutes(RAISED, 60);
const ANA = { who: 'Ana', until: afterMinutes(DURING, 20) };

/** The same with a condition that has been away for 20 min. */
const away = (alarms: readonly Alarm[], since = afterMinutes(DURING, -20)): readonly Alarm[] =>
  alarms.map((alarm) => ({ ...alarm, course: { ...alarm.course, awaySince: since } }));

const HAPPENING: Readonly<Record<Happens, (alarms: readonly Alarm[]) => Changed>> = {
  stands: (alarms) => afterConditions(alarms, [NEW], DURING),
  'got-graver': (alarms) => afterConditions(alarms, [GRAVE], DURING),
  gone: (alarms) => afterConditions(away(alarms), [], DURING),
  acknowledged: (alarms) => acknowledged(alarms, KIND, 'Ana', DURING),
  shelved: (alarms) => shelvedUntil(alarms, KIND, ANA, DURING),
  'shelf-ends-standing': (alarms) => afterConditions(alarms, [NEW], SHELF_ENDS),
  'shelf-ends-gone': (alarms) => afterConditions(away(alarms), [], SHELF_ENDS),
};

type State = AlarmState | 'normal';
const A = 'active-unacknowledged';
const K = 'active-acknowledged';
const R = 'returned-unacknowledged';
const S = 'shelved';

/** Written by hand, not taken from the table in the code. A shelf that ends means nothing where there is none. */
const TABLE: readonly (readonly [State, Happens, State, ...(readonly string[])])[] = [
  ['normal', 'stands', A, 'raised'],
  ['normal', 'got-graver', A, 'raised'],
  ['normal', 'gone', 'normal'],
  ['normal', 'acknowledged', 'normal'],
  ['normal', 'shelved', 'normal'],
  ['normal', 'shelf-ends-gone', 'normal'],
  [A, 'stands', A],
  [A, 'got-graver', A, 'raised'],
  [A, 'gone', R, 'returned'],
  [A, 'acknowledged', K, 'acknowledged'],
  [A, 'shelved', S, 'shelved'],
  [A, 'shelf-ends-standing', A],
  [K, 'stands', K],
  [K, 'got-graver', A, 'raised'],
  [K, 'gone', 'normal', 'returned'],
  [K, 'acknowledged', K],
  [K, 'shelved', S, 'shelved'],
  [K, 'shelf-ends-standing', K],
  [R, 'stands', A, 'raised'],
  [R, 'got-graver', A, 'raised'],
  [R, 'gone', R],
  [R, 'acknowledged', 'normal', 'acknowledged'],
  [R, 'shelved', R],
  [R, 'shelf-ends-gone', R],
  [S, 'stands', S],
  [S, 'got-graver', A, 'unshelved', 'raised'],
  [S, 'gone', S],
  [S, 'acknowledged', S],
  [S, 'shelved', S, 'shelved'],
  [S, 'shelf-ends-standing', A, 'unshelved', 'raised'],
  [S, 'shelf-ends-gone', 'normal', 'unshelved', 'returned'],
];

const inState = (state: State): readonly Alarm[] => (state === 'normal' ? [] : [alarmIn(state, OLD, RAISED)]);

describe('the alarm states', () => {
  for (const [state, happens, next, ...tells] of TABLE) {
    it(`${state}, ${happens}: ${next}${tells.length === 0 ? ', and nothing is told' : ''}`, () => {
      const after = HAPPENING[happens](inState(state));
      expect(after.alarms.map((alarm) => alarm.state)).toEqual(next === 'normal' ? [] : [next]);
      expect(after.changes.map(({ kind }) => kind)).toEqual(tells);
      expect(TRANSITIONS[state][happens]).toEqual({ to: next, tells });
    });
  }

  it('know of the rest that cannot come, an end of a shelf where none is, and change nothing for it', () => {
    const met = new Set(TABLE.map(([state, happens]) => `${state}, ${happens}`));
    const rest = Object.entries(TRANSITIONS).flatMap(([from, row]) =>
      Object.entries(row)
        .filter(([happens]) => !met.has(`${from}, ${happens}`))
        .map(([happens, { to, tells }]) => [`${from}, ${happens}`, to === from, tells.length]),
    );
    expect(rest).toEqual([
      ['normal, shelf-ends-standing', true, 0],
      ['active-unacknowledged, shelf-ends-gone', true, 0],
      ['active-acknowledged, shelf-ends-gone', true, 0],
      ['returned-unacknowledged, shelf-ends-standing', true, 0],
    ]);
  });

  it('tell of one that is now medium and now low, a look apart, once: it stays as grave as it was', () => {
    let alarms = inState(A);
    const told: string[] = [];
    for (let look = 0; look < 10; look += 1) {
      const now = afterSeconds(DURING, 30 * look);
      const after = afterConditions(alarms, [look % 2 === 0 ? GRAVE : NEW], now);
      told.push(...after.changes.map(({ kind }) => kind));
      alarms = after.alarms;
      expect(alarms.map(({ card }) => card.priority)).toEqual(['medium']);
      expect(alarms.map(({ card }) => card.cause)).toEqual([look % 2 === 0 ? GRAVE.cause : NEW.cause]);
    }
    expect(told).toEqual(['raised']);
  });

  it('begin anew with their own gravity once they have returned', () => {
    const over = HAPPENING.gone(HAPPENING['got-graver'](inState(A)).alarms);
    expect(over.alarms.map(({ state }) => state)).toEqual([R]);
    const again = afterConditions(over.alarms, [NEW], SHELF_ENDS);
    expect(again.alarms.map(({ card }) => card.priority)).toEqual(['low']);
  });

  it('stay as they are whatever happens to another alarm: by word or by shelf', () => {
    for (const state of [A, K, R, S] as const) {
      const before = inState(state);
      const byAna = [
        acknowledged(before, 'tank-low', 'Ana', DURING),
        shelvedUntil(before, 'clock-drift', ANA, DURING),
      ];
      for (const after of byAna) expect(after).toEqual({ alarms: before, changes: [] });
    }
  });

  it('lead out of an active state only by a condition that has gone, and to acknowledged only by a person', () => {
    const cells = Object.entries(TRANSITIONS).flatMap(([from, row]) =>
      Object.entries(row).map(([happens, { to }]) => ({ from, happens, to })),
    );
    const cleared = cells.filter(({ from, to }) => from.startsWith('active') && !isStanding(to));
    expect(new Set(cleared.map(({ happens }) => happens))).toEqual(new Set(['gone']));
    const seen = cells.filter(({ from, to }) => from !== to && to === K);
    expect(seen.map(({ happens }) => happens)).toEqual(['acknowledged']);
  });
});
const isStanding = (state: State): boolean => state !== 'normal' && state !== R;

describe('the list of alarms', () => {
  it('keeps the moment of an alarm that stands, and gives a new one to one that comes back', () => {
    const kept = afterConditions(inState(K), [NEW], DURING).alarms;
    const back = afterConditions(inState(R), [NEW], DURING).alarms;
    expect([kept[0]?.raisedAt, back[0]?.raisedAt]).toEqual([RAISED, DURING]);
  });

  it('takes the newest words while the condition stands, and keeps the last ones when it has gone', () => {
    const standing = afterConditions(inState(K), [NEW], DURING).alarms;
    const gone = afterConditions(away(inState(A)), [], DURING).alarms;
    expect([standing[0]?.card.cause, gone[0]?.card.cause]).toEqual(['as it is now', 'as raised']);
  });

  it('is in the order of raising: the first that came is first, one that comes back is last', () => {
    const air = cardOf('no-good-temperature');
    const drift = cardOf('clock-drift');
    const stuck = cardOf('flow-sensor-stuck');
    const before = [alarmIn(R, air, RAISED), alarmIn(A, drift, RAISED)];
    const { alarms } = afterConditions(before, [air, drift, stuck], DURING);
    expect(alarms.map(({ card }) => card.kind)).toEqual([
      'clock-drift',
      'no-good-temperature',
      'flow-sensor-stuck',
    ]);
  });

  it('clears nothing of which nobody can say whether it stands', () => {
    for (const state of [A, K, S] as const) {
      const untold = new Set([KIND] as const);
      const { alarms } = afterConditions(away(inState(state)), [], DURING, untold);
      expect(alarms.map((alarm) => [alarm.state, isActive(alarm)])).toEqual([[state, true]]);
    }
    expect(afterConditions(inState(R), [], DURING, new Set([KIND])).alarms[0]?.state).toBe(R);
  });

  it('names who acknowledged, and who put off until when', () => {
    const changes = [
      ...acknowledged(inState(A), KIND, 'Ana', DURING).changes,
      ...shelvedUntil(inState(A), KIND, ANA, DURING).changes,
    ];
    expect(changes).toEqual([
      { kind: 'acknowledged', card: OLD, who: 'Ana' },
      { kind: 'shelved', card: OLD, ...ANA },
    ]);
  });

  it('says when it may change by itself: at the end of a shelf, or of a deadband of 300 s', () => {
    expect(nextAlarmChange(inState(A))).toBeNull();
    expect(nextAlarmChange(inState(R))).toBeNull();
    expect(nextAlarmChange(inState(S))).toBe(SHELF_ENDS);
    expect(nextAlarmChange(away(inState(K), DURING))).toBe(afterSeconds(DURING, 300));
  });
});

describe('dead channels', () => {
  const RAISED_AT = minute(0);
  const dead = (...names: readonly string[]): Card => {
    const [name = '', ...others] = names;
    const facts = { kind: 'channel-dead', farm: 'Ribeira', name, others } as unknown as Card['facts'];
    return { ...cardOf('channel-dead'), ...(facts === undefined ? {} : { facts }) };
  };
  const toldOf = (state: AlarmState, at: number, ...names: readonly string[]): readonly string[] =>
    afterConditions(
      [alarmIn(state, dead('modem', 'mail'), RAISED_AT)],
      [dead(...names)],
      minute(at),
    ).changes.map(({ kind }) => kind);

  it('are raised anew when one more joins them later, acknowledged, put off or not', () => {
    expect(toldOf('active-unacknowledged', 30, 'modem', 'mail', 'broker')).toEqual(['raised']);
    expect(toldOf('active-acknowledged', 30, 'broker', 'modem')).toEqual(['raised']);
    expect(toldOf('shelved', 30, 'broker')).toEqual(['unshelved', 'raised']);
  });

  it('are one alarm where they die within ten minutes, and where fewer are left', () => {
    expect(toldOf('active-acknowledged', 10, 'modem', 'mail', 'broker')).toEqual([]);
    expect(toldOf('active-acknowledged', 30, 'mail')).toEqual([]);
  });
});
