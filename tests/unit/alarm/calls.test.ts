import { describe, expect, it } from 'vitest';
import type { Alarm, Alarms } from '../../../src/alarm/alarm.ts';
import {
  callsAfter,
  NO_CALLS,
  nextCallAt,
  type Call,
  type Called,
  type CallsKept,
} from '../../../src/alarm/calls.ts';
import type { AlarmKind, Priority } from '../../../src/alarm/card.ts';
import { LANGUAGES } from '../../../src/alarm/language/languages.ts';
import type { Stake } from '../../../src/alarm/stakes.ts';
import type { MonotonicMillis } from '../../../src/time/instant.ts';
import { minute } from '../../support/moments.ts';
import { alarmIn, cardOf } from './made-alarms.ts';
import { voice } from './made-voices.ts';

const NOW = minute(100);
const standing = (kind: AlarmKind, priority?: Priority, raisedAt = NOW): Alarm =>
  alarmIn('active-unacknowledged', cardOf(kind, 'It is so.', priority), raisedAt);
const calledOn = (alarms: Alarms, kept: CallsKept = NO_CALLS, now: MonotonicMillis = NOW): Called =>
  callsAfter({
    alarms,
    kept,
    now,
    language: LANGUAGES.en,
    minutesLeft: () => 90.9,
    isLost: () => false,
    hour: () => 'day',
  });
/** As many calls as nobody reads more of, all within the last ten minutes. */
const recent = (stake: Stake, calls = 10, at = minute(95)): CallsKept['recent'] =>
  Array.from({ length: calls }, () => ({ at, stake }));
const shortOf = ({ kind, alarm, also, rung }: Call): string =>
  [kind, alarm, ...also, rung].filter((word) => word !== null).join(' ');

describe('ten calls within ten minutes', () => {
  it('are remembered for ten minutes, and no longer, while anything stands and when nothing does', () => {
    const kept = {
      ...NO_CALLS,
      recent: [...recent('host', 2, minute(90)), ...recent('water', 1, minute(90.1))],
    };
    const left = [{ at: minute(90.1), stake: 'water' }];
    expect(calledOn([], kept).kept).toEqual({ voices: [], recent: left });
    const put = alarmIn('shelved', cardOf('not-recording'), NOW);
    expect(calledOn([put], kept).kept.recent).toEqual(left);
  });

  it('cost nothing to look at where nobody was called and nothing stands', () => {
    expect(calledOn([]).kept).toBe(NO_CALLS);
    expect(calledOn([]).calls).toEqual([]);
  });

  it('are the most before a storm: a tenth is made by itself, two more are one', () => {
    const two = [standing('not-recording'), standing('line-bad')];
    expect(calledOn(two, { ...NO_CALLS, recent: recent('sensing', 8) }).calls.map(shortOf)).toEqual([
      'raised not-recording 0',
      'raised line-bad 0',
    ]);
    expect(calledOn(two, { ...NO_CALLS, recent: recent('sensing', 9) }).calls.map(shortOf)).toEqual([
      'raised not-recording line-bad 0',
    ]);
  });

  it('are followed by no eleventh of the same stake that is not urgent; it waits, and is made when they are old', () => {
    const alarms = [standing('not-recording')];
    const { calls, kept } = calledOn(alarms, { ...NO_CALLS, recent: recent('host') });
    expect(calls).toEqual([]);
    expect(kept.voices).toEqual([voice('not-recording', { dueAt: NOW, raisedAt: NOW })]);
    expect(kept.recent).toHaveLength(10);
    expect(calledOn(alarms, kept, minute(105)).calls.map(shortOf)).toEqual(['raised not-recording 0']);
  });

  it('are followed by one of another stake, and by one of the same that is urgent', () => {
    expect(
      calledOn([standing('not-recording')], { ...NO_CALLS, recent: recent('water') }).calls,
    ).toHaveLength(1);
    expect(calledOn([standing('tank-low')], { ...NO_CALLS, recent: recent('water') }).calls).toHaveLength(1);
    const medium = [standing('strength-off', 'medium')];
    expect(calledOn(medium, { ...NO_CALLS, recent: recent('water') }).calls).toHaveLength(0);
  });

  it('are followed by no word that something urgent is over', () => {
    const over = voice('tank-low', { calledAt: minute(96), rung: 0 });
    expect(calledOn([], { voices: [over], recent: recent('water') }).calls).toEqual([]);
    expect(calledOn([], { voices: [over], recent: recent('host') }).calls.map(shortOf)).toEqual([
      'returned tank-low 0',
    ]);
  });

  it('make one message of a stake: led by what is urgent, then what else stands, then what is over', () => {
    const alarms = [
      standing('strength-off', 'medium', minute(80)),
      standing('tank-low'),
      standing('pump-runs-on', 'high'),
    ];
    const voices = [
      voice('strength-off', {
        card: alarms[0]!.card,
        phase: 'called',
        rung: 1,
        calledAt: minute(90),
        dueAt: minute(99),
        raisedAt: minute(80),
      }),
      voice('mains-lost', { phase: 'called', rung: 4, calledAt: minute(90), dueAt: minute(150) }),
    ];
    const { calls, kept } = calledOn(alarms, { voices, recent: recent('host') });
    expect(calls).toHaveLength(1);
    expect(calls[0]).toMatchObject({
      kind: 'raised',
      alarm: 'tank-low',
      priority: 'high',
      also: ['pump-runs-on', 'strength-off'],
      rung: 5,
      minutesLeft: 90,
      text: 'It is so. Look. With it: pump runs on, strength out of its band. Over: mains lost. First came: strength out of its band.',
    });
    expect(kept.recent.slice(10)).toEqual([{ at: NOW, stake: 'water' }]);
    expect(kept.voices.map(({ card, phase, calledAt }) => [card.kind, phase, calledAt])).toEqual([
      ['strength-off', 'called', NOW],
      ['tank-low', 'called', NOW],
      ['pump-runs-on', 'called', NOW],
      // Remembered for as long as it may come again.
      ['mains-lost', 'over', minute(90)],
    ]);
  });

  it('are remembered up to 64, the newest', () => {
    const { kept } = calledOn([standing('tank-low')], { ...NO_CALLS, recent: recent('host', 64) });
    expect(kept.recent).toHaveLength(64);
    expect(kept.recent.at(-1)).toEqual({ at: NOW, stake: 'water' });
  });
});

describe('a call', () => {
  it('says that its condition comes and goes for ten minutes after it has', () => {
    const chattered = (at: number): Alarm => {
      const alarm = standing('tank-low');
      return { ...alarm, course: { ...alarm.course, chatteredAt: minute(at) } };
    };
    const calm = standing('not-recording');
    const texts = (at: number): readonly string[] =>
      calledOn([calm, chattered(at)]).calls.map(({ text }) => text);
    expect(texts(90.5)).toEqual(['It is so. Look.', 'It is so. Look. It comes and goes.']);
    expect(texts(90)).toEqual(['It is so. Look.', 'It is so. Look.']);
  });

  it('does not say what came first where that was the alarm itself, or one that it does not speak for', () => {
    const alarms = [standing('not-recording'), standing('mains-lost'), standing('missed-flood')];
    expect(calledOn(alarms).calls.map(({ text }) => text)).toEqual([
      'It is so. Look.',
      'It is so. Look. With it: missed flood.',
    ]);
  });

  it('of what is over says what it had explained and still stands, and nothing else', () => {
    const alarms = [
      standing('not-recording'),
      alarmIn('returned-unacknowledged', cardOf('missed-flood'), minute(90)),
      standing('weak-flow', 'medium'),
    ];
    const voices = [
      voice('not-recording', {
        phase: 'called',
        rung: 0,
        calledAt: minute(99),
        raisedAt: NOW,
        dueAt: minute(109),
      }),
      voice('mains-lost', { phase: 'called', rung: -1, calledAt: minute(90) }),
    ];
    const over = calledOn(alarms, { voices, recent: [] }).calls.find(({ kind }) => kind === 'returned');
    expect(over).toMatchObject({
      alarm: 'mains-lost',
      also: ['weak-flow'],
      rung: 0,
      minutesLeft: null,
      text: 'Over: mains lost. Still so: weak flood.',
    });
  });
});

describe('the next call', () => {
  it('is the soonest that is still to come: one that is due already is not waited for', () => {
    const dueAt = (...moments: readonly (number | null)[]): CallsKept => ({
      voices: moments.map((at) => voice('tank-low', { dueAt: at === null ? null : minute(at) })),
      recent: [],
    });
    expect(nextCallAt(dueAt(99, 100, null, 105, 103), NOW)).toBe(minute(103));
    expect(nextCallAt(dueAt(99, 100, null), NOW)).toBeNull();
    expect(nextCallAt(NO_CALLS, NOW)).toBeNull();
  });
});
