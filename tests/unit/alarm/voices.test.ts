import { describe, expect, it } from 'vitest';
import type { Alarm, Alarms, AlarmState } from '../../../src/alarm/alarm.ts';
import type { AlarmKind } from '../../../src/alarm/card.ts';
import { calledNow, voicesAfter, type Voice } from '../../../src/alarm/voices.ts';
import { minute } from '../../support/moments.ts';
import { alarmIn, cardOf } from './made-alarms.ts';
import { voice } from './made-voices.ts';

const NOW = minute(100);
const LEFT = 80;
const PACE = { minutesLeft: () => 20, isLost: () => false };
const after = (alarms: Alarms, voices: readonly Voice[] = [], left = LEFT): readonly Voice[] =>
  voicesAfter({ alarms, voices, minutesLeft: () => left, isLost: () => false, now: NOW });
const alarm = (kind: AlarmKind, state: AlarmState = 'active-unacknowledged', raisedAt = minute(0)): Alarm =>
  alarmIn(state, cardOf(kind), raisedAt);
const called = (kind: AlarmKind, told: Partial<Voice> = {}): Voice =>
  voice(kind, { phase: 'called', rung: 0, calledAt: minute(95), dueAt: minute(105), ...told });

describe('the voice of an alarm that is new', () => {
  it('is due at once; of one that another explains never, and its rung is before the first', () => {
    expect(after([alarm('missed-flood', undefined, NOW)])).toEqual([
      voice('missed-flood', { raisedAt: NOW, dueAt: NOW }),
    ]);
    const both = [alarm('mains-lost', undefined, NOW), alarm('missed-flood', undefined, NOW)];
    expect(after(both)[1]).toEqual(voice('missed-flood', { raisedAt: NOW, dueAt: null }));
    // Not even where it has called people for what it explains itself.
    const chain = [...both, alarm('weak-flow')];
    expect(after(chain, [called('weak-flow', { rung: 2 })])[1]!.rung).toBe(-1);
  });

  it('goes on with the person to whom what it explains had come, where that one was called', () => {
    const both = [alarm('missed-flood'), alarm('mains-lost', undefined, NOW)];
    expect(after(both, [called('missed-flood', { rung: 2 })])[1]!.rung).toBe(1);
    expect(after(both, [called('missed-flood', { phase: 'seen', rung: 2 })])[1]!.rung).toBe(-1);
  });

  it('begins with the first person where what it explains has only reminded for days: an old sensor, and now the board', () => {
    const both = [alarm('flow-sensor-silent'), alarm('board-silent', undefined, NOW)];
    const rung = (told: number): number =>
      after(both, [called('flow-sensor-silent', { rung: told })])[1]!.rung;
    expect([1, 2, 3, 30].map(rung)).toEqual([0, -1, -1, -1]);
  });

  it.each([
    ['was raised at another moment', { raisedAt: minute(50) }],
    ['had been seen, and got worse', { phase: 'seen', rung: 3 }],
    ['was over', { phase: 'over', rung: 3 }],
  ] as const)('is due at once too where the one before %s', (_, told) => {
    expect(after([alarm('tank-low')], [called('tank-low', told)])).toEqual([
      voice('tank-low', { dueAt: NOW }),
    ]);
  });
});

describe('the voice of an alarm that nobody has acknowledged', () => {
  it('that waits stays due though it is held back', () => {
    const waits = voice('not-recording', { dueAt: minute(90) });
    expect(after([alarm('not-recording')], [waits])).toEqual([waits]);
  });

  it('that nothing explains any more has a quarter of the time left, from when that began', () => {
    const first = after([alarm('missed-flood')], [voice('missed-flood')]);
    expect(first).toEqual([voice('missed-flood', { unexplainedAt: NOW, dueAt: minute(120) })]);
    const since = voice('missed-flood', { unexplainedAt: minute(95), dueAt: minute(110) });
    expect(after([alarm('missed-flood')], [since])).toEqual([{ ...since, dueAt: minute(115) }]);
  });

  it('has as long for that though people were called for it before, and not an escalation', () => {
    const spokenFor = called('missed-flood', { rung: 3, dueAt: null });
    const [first] = after([alarm('missed-flood')], [spokenFor]);
    expect(first).toEqual({ ...spokenFor, unexplainedAt: NOW, dueAt: minute(120) });
    const since = { ...spokenFor, unexplainedAt: minute(95), dueAt: minute(115) };
    expect(after([alarm('missed-flood')], [since])).toEqual([since]);
    expect(after([alarm('missed-flood')], [since], 40)[0]!.dueAt).toBe(minute(105));
    const again = calledNow(since, PACE, NOW)!;
    expect(after([alarm('missed-flood')], [again])[0]).toMatchObject({ rung: 4, unexplainedAt: null });
    expect(again.dueAt).toBe(minute(105));
  });

  it('that is explained again is due no more', () => {
    const since = voice('missed-flood', { unexplainedAt: minute(95), dueAt: minute(110) });
    const [, missed] = after([alarm('mains-lost'), alarm('missed-flood')], [called('mains-lost'), since]);
    expect(missed).toEqual(voice('missed-flood'));
  });

  it('is called next sooner where less time is left, never later, and not put off when it is due', () => {
    const next = (dueAt: number, left: number): unknown =>
      after([alarm('tank-low')], [called('tank-low', { dueAt: minute(dueAt) })], left)[0]!.dueAt;
    expect([next(105, 12), next(105, 80)]).toEqual([minute(103), minute(105)]);
    expect([next(100, 80), next(99, 80)]).toEqual([minute(100), minute(99)]);
  });

  it('that goes to no further person at once reminds a day later, once; of low priority never', () => {
    const dueAt = (kind: AlarmKind, planned: number | null): number | null =>
      after([alarm(kind)], [called(kind, { rung: 2, dueAt: planned === null ? null : minute(planned) })])[0]!
        .dueAt;
    expect(dueAt('not-recording', null)).toBe(minute(100 + 24 * 60));
    expect(dueAt('not-recording', 1000)).toBe(minute(1000));
    expect(dueAt('no-good-temperature', null)).toBeNull();
    expect(dueAt('tank-low', 105)).toBe(minute(105));
  });
});

describe('the voice of an alarm that somebody has acknowledged', () => {
  const seen = (kind: AlarmKind, told: Partial<Voice> = {}): Voice =>
    called(kind, { phase: 'seen', ...told });

  it('speaks again at half of the time left, of what is not water a day later, from the first person on', () => {
    expect(after([alarm('tank-low', 'active-acknowledged')], [called('tank-low', { rung: 3 })])).toEqual([
      seen('tank-low', { rung: -1, dueAt: minute(140) }),
    ]);
    const dueAt = (kind: AlarmKind): number | null =>
      after([alarm(kind, 'active-acknowledged')], [called(kind, { dueAt: null })])[0]!.dueAt;
    expect(dueAt('not-recording')).toBe(minute(100 + 24 * 60));
    expect(dueAt('no-good-temperature')).toBeNull();
  });

  it('that was not known before, as after a restart, does so too', () => {
    expect(after([alarm('tank-low', 'active-acknowledged')])).toEqual([
      voice('tank-low', { phase: 'seen', dueAt: minute(140) }),
    ]);
  });

  it('keeps the person it had come to, and its moment, once it is due', () => {
    const due = seen('tank-low', { rung: 2, dueAt: NOW });
    expect(after([alarm('tank-low', 'active-acknowledged')], [due])).toEqual([due]);
    const later = seen('tank-low', { rung: 2, dueAt: minute(150) });
    expect(after([alarm('tank-low', 'active-acknowledged')], [later])[0]!.dueAt).toBe(minute(140));
    expect(after([alarm('tank-low', 'active-acknowledged')], [later], 300)[0]!.dueAt).toBe(minute(150));
  });

  it('is silent while it is put off, and while another one speaks for it', () => {
    expect(after([alarm('tank-low', 'shelved')], [seen('tank-low')])[0]!.dueAt).toBeNull();
    const explained = [alarm('mains-lost'), alarm('missed-flood', 'active-acknowledged')];
    expect(after(explained, [called('mains-lost'), seen('missed-flood')])[1]!.dueAt).toBeNull();
  });
});

describe('the voice of an alarm that is over', () => {
  it('is due at once for who was called, once; who was not has nothing to hear', () => {
    const over = called('tank-low', { phase: 'over', endedAt: NOW, dueAt: NOW });
    expect(after([], [called('tank-low')])).toEqual([over]);
    expect(after([alarm('tank-low', 'returned-unacknowledged')], [called('tank-low')])).toEqual([over]);
    expect(after([], [voice('tank-low', { dueAt: minute(99) })])).toEqual([]);
    expect(after([alarm('tank-low', 'returned-unacknowledged')])).toEqual([]);
  });

  it('keeps its moment while it is held back', () => {
    const held = called('tank-low', { phase: 'over', dueAt: minute(97) });
    expect(after([], [held])).toEqual([held]);
  });
});

describe('a voice that has been called', () => {
  it('waits for an answer, from one person more', () => {
    expect(calledNow(voice('tank-low', { dueAt: NOW, unexplainedAt: minute(90) }), PACE, NOW)).toEqual(
      called('tank-low', { calledAt: NOW, dueAt: minute(105), leftMinutes: 20 }),
    );
    expect(calledNow(called('not-recording', { rung: 1 }), PACE, NOW)).toMatchObject({
      rung: 2,
      dueAt: minute(100 + 24 * 60),
    });
  });

  it('that had been seen speaks again at half of the time left', () => {
    expect(calledNow(called('tank-low', { phase: 'seen', rung: 1 }), PACE, NOW)).toEqual(
      called('tank-low', { phase: 'seen', rung: 2, calledAt: NOW, dueAt: minute(110), leftMinutes: 20 }),
    );
  });

  it('that was over is remembered for 30 min from its end, and has nothing more to say', () => {
    const over = called('tank-low', { phase: 'over', endedAt: minute(95), dueAt: NOW });
    const said = { ...over, dueAt: null };
    expect(calledNow(over, PACE, NOW)).toEqual(said);
    expect(after([], [said])).toEqual([said]);
    expect(after([], [{ ...said, endedAt: minute(70) }])).toEqual([]);
  });

  it('that came and went, and is over for good, is forgotten; so is one of which nobody knows when it ended', () => {
    const over = called('tank-low', { phase: 'over', endedAt: minute(70), dueAt: NOW });
    expect(calledNow({ ...over, wavers: true }, PACE, NOW)).toBeNull();
    expect(calledNow({ ...over, endedAt: null }, PACE, NOW)).toBeNull();
  });
});
