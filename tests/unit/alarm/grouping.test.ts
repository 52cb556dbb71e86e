import { describe, expect, it } from 'vitest';
import { EXPLAINS, followers, speaker } from '../../../src/alarm/grouping.ts';
import type { AlarmKind } from '../../../src/alarm/card.ts';
import { STAKES } from '../../../src/alarm/stakes.ts';
import { minute } from '../../support/moments.ts';
import { calledOn, callWords, type CalledOn } from './called-on.ts';
import { alarmIn, cardOf, KINDS, usualPriority } from './made-alarms.ts';

const words = (shed: CalledOn): readonly string[] => shed.calls().map(callWords);

describe('what explains what', () => {
  it('has no ring: from each of the 29 kinds one comes to an end', () => {
    const reached = (from: AlarmKind, seen: readonly AlarmKind[] = []): readonly AlarmKind[] =>
      (EXPLAINS[from] ?? []).flatMap((kind) => {
        expect([...seen, from]).not.toContain(kind);
        return [kind, ...reached(kind, [...seen, from])];
      });
    expect(KINDS).toHaveLength(29);
    for (const kind of KINDS) reached(kind);
  });

  it('begins with alarms that cannot be put off and speak again: high, and about water', () => {
    for (const kind of Object.keys(EXPLAINS) as AlarmKind[]) {
      expect([STAKES[kind], usualPriority(kind)]).toEqual(['water', 'high']);
    }
  });

  it('speaks through a chain: lost mains for the missed flood, and for the weak one before it', () => {
    const [weak, missed, mains] = (['weak-flow', 'missed-flood', 'mains-lost'] as const).map((kind, place) =>
      alarmIn('active-unacknowledged', cardOf(kind), minute(place)),
    );
    const alarms = [weak!, missed!, mains!];
    expect(alarms.map((alarm) => speaker(alarms, alarm).card.kind)).toEqual([
      'mains-lost',
      'mains-lost',
      'mains-lost',
    ]);
    expect(followers(alarms, mains!)).toEqual([weak, missed]);
  });

  it('does so only while it stands: not once it is over', () => {
    const missed = alarmIn('active-unacknowledged', cardOf('missed-flood'), minute(1));
    const over = alarmIn('returned-unacknowledged', cardOf('mains-lost'), minute(0));
    expect(speaker([over, missed], missed)).toBe(missed);
  });
});

describe('an alarm that another one explains', () => {
  it('stays in the list and is not called: 2 alarms, 1 call', () => {
    const shed = calledOn();
    shed.stands('mains-lost');
    shed.until(5);
    shed.stands('mains-lost', 'missed-flood');
    shed.until(9);
    expect(words(shed)).toEqual(['raised mains-lost 0 at 0']);
    expect(shed.alarms().map(({ card, state }) => [card.kind, state])).toEqual([
      ['mains-lost', 'active-unacknowledged'],
      ['missed-flood', 'active-unacknowledged'],
    ]);
  });

  it('is named in the next call of its group', () => {
    const shed = calledOn();
    shed.stands('mains-lost', 'missed-flood');
    shed.until(10);
    expect(shed.calls().map(({ text }) => text)).toEqual([
      'It is so. Look. With it: missed flood.',
      'Nobody has answered yet: It is so. Look. With it: missed flood.',
    ]);
  });

  it('speaks again 10 to 30 min after its cause: a filled tank that still falls is called about', () => {
    const shed = calledOn();
    shed.stands('tank-low');
    shed.until(5);
    shed.stands('tank-low', 'tank-falls');
    shed.until(9);
    expect(words(shed)).toEqual(['raised tank-low 0 at 0']);
    shed.stands('tank-falls');
    shed.until(45);
    const own = shed.calls().find(({ alarm }) => alarm === 'tank-falls')!;
    expect(own.at).toBeGreaterThanOrEqual(19);
    expect(own.at).toBeLessThanOrEqual(40);
  });

  it('that came first is told as the first, and its cause goes on with the person it had come to', () => {
    const shed = calledOn();
    shed.stands('missed-flood');
    shed.until(21);
    shed.stands('missed-flood', 'mains-lost');
    shed.until(31);
    expect(words(shed)).toEqual([
      'raised missed-flood 0 at 0',
      'escalated missed-flood 1 at 10',
      'escalated missed-flood 2 at 20',
      'raised mains-lost 2 at 21',
      'escalated mains-lost 3 at 31',
    ]);
    expect(shed.calls()[3]!.text).toMatch(/First came: missed flood\.$/);
  });

  it('has 30 min, or a quarter of the time then left, or 10 min, to be over too when its cause is; then it is called', () => {
    for (const [left, least, most] of [
      [24 * 60, 30, 30],
      // A quarter of what is left then, or of what was left when it was last looked at.
      [60, 12, 15],
      [20, 10, 10],
    ] as const) {
      const shed = calledOn();
      shed.stands('mains-lost', 'missed-flood');
      shed.until(5);
      shed.stands('missed-flood');
      // Lost mains return after 20 s without.
      shed.until(5.34);
      shed.left(left);
      shed.until(60);
      expect(shed.calls()[1]!.text).toBe('Over: mains lost. Still so: missed flood.');
      const missed = shed.calls().find(({ alarm }) => alarm === 'missed-flood')!;
      expect(missed.kind).toBe('raised');
      expect(missed.at - 5.34).toBeLessThanOrEqual(most + 0.02);
      expect(missed.at - 5.34).toBeGreaterThan(least - 0.1);
    }
  });

  it('keeps its cause from nobody: one that comes after a first person answered is called at once', () => {
    const shed = calledOn();
    shed.stands('missed-flood');
    shed.until(0);
    shed.acknowledge('missed-flood');
    shed.until(3);
    shed.stands('missed-flood', 'mains-lost');
    shed.until(4);
    expect(words(shed)).toEqual(['raised missed-flood 0 at 0', 'raised mains-lost 0 at 3']);
  });
});

describe('a storm of calls', () => {
  /**
   * All kinds at once, then all gone, and so on; by whole minutes, so that 10 min are 10 min in a sum too, and by three of them, so
   * that what falls due 10 min after a call never does so in the moment of a change, which is looked at twice.
   */
  const storm = (): CalledOn => {
    const shed = calledOn();
    for (let turn = 0; turn < 12; turn += 1) {
      shed.stands(...(turn % 2 === 0 ? KINDS : []));
      shed.until(turn * 3 + 2);
    }
    return shed;
  };

  it('of 29 alarms at once is 2 messages: of the water, with what the silent board explains, and of the host', () => {
    const shed = calledOn();
    shed.stands(...KINDS);
    shed.until(0);
    expect(shed.calls().map(({ alarm, also }) => [STAKES[alarm!], also.length + 1])).toEqual([
      ['water', 21],
      ['host', 8],
    ]);
    expect(shed.alarms()).toHaveLength(29);
  });

  it('begins with the eleventh call in 10 min: from there on at most 3 messages a moment', () => {
    const calls = storm().calls();
    const moments = [...new Set(calls.map(({ at }) => at))];
    const stormy = moments.filter((moment) => {
      const within = calls.filter(({ at }) => at <= moment && moment - at < 10);
      const here = calls.filter(({ at }) => at === moment);
      expect(within.length <= 10 || here.length <= 3).toBe(true);
      return within.length > 10;
    });
    expect(stormy.length).toBeGreaterThan(0);
  });

  it('holds what is not water to 10 messages in any 10 min', () => {
    const dry = storm()
      .calls()
      .filter(({ alarm }) => STAKES[alarm!] !== 'water');
    for (const { at } of dry) {
      expect(dry.filter((call) => call.at >= at && call.at < at + 10).length).toBeLessThanOrEqual(10);
    }
  });

  it('holds back no new alarm on water: the eleventh call of 10 min is made at once', () => {
    const shed = calledOn();
    const dry = KINDS.filter((kind) => STAKES[kind] !== 'water');
    const wet = ['tank-low', 'water-on-floor', 'pump-runs-on', 'mains-lost'] as const;
    const all = [...dry, ...wet];
    for (const [place] of all.entries()) {
      shed.stands(...all.slice(0, place + 1));
      shed.until(place * 0.5);
    }
    shed.stands(...all, 'hold-is-long');
    shed.until(all.length * 0.5);
    const hold = shed
      .calls()
      .find(({ alarm, also }) => alarm === 'hold-is-long' || also.includes('hold-is-long'));
    expect([shed.calls().length > 10, hold!.at]).toEqual([true, (all.length - 1) * 0.5]);
  });
});
