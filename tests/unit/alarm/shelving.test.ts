import { describe, expect, it } from 'vitest';
import { afterConditions, type Alarm } from '../../../src/alarm/alarm.ts';
import type { AlarmKind } from '../../../src/alarm/card.ts';
import { shelfEnded, shelfMinutesMax, shelving, type Shelving } from '../../../src/alarm/shelving.ts';
import { isOnWater } from '../../../src/alarm/stakes.ts';
import { afterMinutes } from '../../../src/time/instant.ts';
import { minute } from '../../support/moments.ts';
import { alarmIn, cardOf, KINDS } from './made-alarms.ts';

const NOW = minute(100);
const standing = (kind: AlarmKind): readonly Alarm[] => [
  alarmIn('active-unacknowledged', cardOf(kind), minute(10)),
];
const put = (kind: AlarmKind, minutes: number, left = 24 * 60, alarms = standing(kind)): Shelving =>
  shelving(alarms, { alarm: kind, minutes, who: 'Ana' }, () => left, NOW);
const whyNot = (answer: Shelving): string | null => (answer.kind === 'refused' ? answer.why : null);

describe('putting an alarm off', () => {
  it('is refused with a reason for each of the 14 kinds that are about water, however short', () => {
    const refused = KINDS.filter((kind) => whyNot(put(kind, 1))?.startsWith('it is about water') === true);
    expect(refused.toSorted()).toEqual([
      'board-silent',
      'drying-out',
      'float-suspect',
      'hold-is-long',
      'mains-lost',
      'missed-flood',
      'pump-runs-on',
      'return-lower',
      'strength-off',
      'tank-falls',
      'tank-full',
      'tank-low',
      'water-on-floor',
      'weak-flow',
    ]);
    expect(refused.every(isOnWater)).toBe(true);
  });

  it('lasts as long as asked, at most 8 h, at most half of the time left', () => {
    expect([shelfMinutesMax(24 * 60), shelfMinutesMax(16 * 60), shelfMinutesMax(90)]).toEqual([480, 480, 45]);
    const cases = [
      [30, 24 * 60, 30],
      [600, 24 * 60, 480],
      [Infinity, 24 * 60, 480],
      [600, 90, 45],
    ] as const;
    for (const [asked, left, granted] of cases) {
      const done = put('no-good-temperature', asked, left);
      const shelf = done.kind === 'shelved' ? done.alarms[0]?.shelf : null;
      expect(shelf).toEqual({ who: 'Ana', until: afterMinutes(NOW, granted) });
    }
  });

  it('is refused where nothing stands, where it is over, for no time that can be read, and with no time left', () => {
    const kind = 'no-good-temperature';
    const over = [alarmIn('returned-unacknowledged', cardOf(kind), minute(10))];
    expect([
      whyNot(put(kind, 30, 1440, [])),
      whyNot(put(kind, 30, 1440, over)),
      whyNot(put(kind, NaN)),
      whyNot(put(kind, 30, 1)),
    ]).toEqual([
      'no such alarm stands',
      'no such alarm stands',
      'for how many minutes was not said',
      'too little time is left',
    ]);
  });

  it('ends by itself, and the alarm is raised anew; by a person it ends before', () => {
    const done = put('no-good-temperature', 30);
    const shelved = done.kind === 'shelved' ? done.alarms : [];
    const cards = [cardOf('no-good-temperature')];
    const told = (alarms: readonly Alarm[], after: number): readonly string[] =>
      afterConditions(alarms, cards, afterMinutes(NOW, after)).changes.map(({ kind }) => kind);
    expect(told(shelved, 29.9)).toEqual([]);
    expect(told(shelved, 30)).toEqual(['unshelved', 'raised']);
    const early = shelfEnded(shelved, 'no-good-temperature', afterMinutes(NOW, 5));
    expect(told(early, 5)).toEqual(['unshelved', 'raised']);
  });
});
