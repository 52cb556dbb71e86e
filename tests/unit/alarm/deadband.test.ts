import { describe, expect, it } from 'vitest';
import { afterConditions, type Alarms } from '../../../src/alarm/alarm.ts';
import { chatters, goneAt } from '../../../src/alarm/deadband.ts';
import type { AlarmKind } from '../../../src/alarm/card.ts';
import { afterSeconds } from '../../../src/time/instant.ts';
import { second } from '../../support/moments.ts';
import { cardOf, KINDS } from './made-alarms.ts';

const START = 1000;

interface Seen {
  readonly alarms: Alarms;
  readonly told: readonly string[];
}

/** Second by second what becomes of an alarm whose condition stands where `stands` says so. */
const played = (kind: AlarmKind, seconds: number, stands: (second: number) => boolean): Seen => {
  let alarms: Alarms = [];
  const told: string[] = [];
  for (let now = 0; now <= seconds; now += 1) {
    const after = afterConditions(alarms, stands(now) ? [cardOf(kind)] : [], second(START + now));
    alarms = after.alarms;
    told.push(...after.changes.map((change) => `${change.kind} ${now}`));
  }
  return { alarms, told };
};

describe('an alarm whose condition has gone', () => {
  it.each<readonly [kind: AlarmKind, seconds: number]>([
    ['missed-flood', 0],
    ['weak-flow', 0],
    ['return-lower', 0],
    ['tank-low', 0],
    ['float-suspect', 0],
    ['tank-falls', 0],
    ['tank-full', 0],
    ['strength-off', 0],
    ['hold-is-long', 0],
    ['clock-stepped', 0],
    ['safe-mode', 0],
    ['past-unread', 60],
    ['float-unmoved', 0],
    ['mains-lost', 20],
    ['board-silent', 30],
    ['pump-runs-on', 30],
    ['drying-out', 60],
    ['flow-sensor-stuck', 60],
    ['flow-sensor-silent', 300],
    ['no-good-temperature', 300],
    ['not-recording', 300],
    ['channel-dead', 300],
    ['relay-chatters', 300],
    ['clock-drift', 600],
    ['line-bad', 300],
    ['host-hot', 300],
    ['water-on-floor', 3600],
    ['host-large', 300],
    ['host-battery', 300],
  ])('%s returns after %d s without it, and not a second before', (kind, seconds) => {
    const gone = 100;
    expect(played(kind, gone + seconds, (now) => now < gone).told).toEqual([
      'raised 0',
      `returned ${gone + seconds}`,
    ]);
  });

  it('counts anew each time it comes back: leak sensor dry for 3,599 s, wet for 1 s, all the time', () => {
    const { told } = played('water-on-floor', 4 * 3600, (now) => now % 3600 === 0);
    expect(told).toEqual(['raised 0']);
  });

  it('has a time stated for every kind there is', () => {
    const course = { awaySince: second(0), turns: [], chatteredAt: null };
    for (const kind of KINDS) expect(goneAt(kind, course)).toBeGreaterThanOrEqual(0);
  });
});

describe('chatter', () => {
  it('is more than 3 turns within a minute: then it is one alarm for 10 min, though it has no deadband', () => {
    // Turns at 0, 10, 20 and 30 s; away from then on.
    const { alarms, told } = played('missed-flood', 629, (now) => now < 10 || (now >= 20 && now < 30));
    expect(told).toEqual(['raised 0', 'returned 10', 'raised 20']);
    const { course } = alarms[0]!;
    expect(chatters(course, second(START + 629))).toBe(true);
    expect(goneAt('missed-flood', course)).toBe(afterSeconds(second(START + 30), 600));
    expect(played('missed-flood', 630, (now) => now < 10 || (now >= 20 && now < 30)).told.at(-1)).toBe(
      'returned 630',
    );
  });

  it('is not 4 turns within 61 s', () => {
    const { alarms, told } = played('missed-flood', 100, (now) => now < 10 || (now >= 20 && now < 61));
    expect(told).toEqual(['raised 0', 'returned 10', 'raised 20', 'returned 61']);
    expect(alarms.map(({ course }) => course.chatteredAt)).toEqual([null]);
  });

  it('that goes on for an hour raises one alarm at most 3 times, and remembers 4 turns', () => {
    for (const kind of KINDS) {
      const { alarms, told } = played(kind, 3600, (now) => now % 2 === 0);
      expect(told.filter((word) => word.startsWith('raised')).length).toBeLessThanOrEqual(3);
      expect(alarms[0]!.course.turns).toHaveLength(4);
    }
  });
});
