import { describe, expect, it } from 'vitest';
import { spanWords, verdictText } from '../../../firmware-host/cli/rehearsal-verdict.ts';
import type { Fault } from '../../../firmware-host/simulated-shed.ts';
import { farmWith, type Change } from '../../support/farm.ts';
import { clock, fault, rehearsalOf, type MadeRun } from './made-rehearsal.ts';

const NEXT = '2026-07-16';

describe('the verdict of a rehearsal without faults', () => {
  it('holds where no bench wilts and one miss leaves all above the wilt floor of 20 %', () => {
    const { advice, verdict } = rehearsalOf([{ missedTheta: 0.2 }, { missedTheta: 0.5 }]);
    expect(verdict.kind).toBe('holds');
    expect(advice).toEqual([]);
  });

  it('holds unless a flood is missed where one miss leads below the floor in 1 of 2 runs, and names the day part', () => {
    const rehearsal = rehearsalOf([{}, { missedTheta: 0.138 }]);
    expect(verdictText(rehearsal)).toBe(
      'Holds, but not if one flood is missed: without the one at 13:19 Bench 1 would be down to 13.8 % (in 1 of 2 runs below the wilt floor).',
    );
    expect(rehearsal.advice).toEqual([
      'Look at "heat of the day" (now rests of 25 min between floods of 20 min): shorten the rest, or lengthen the floods. Then rehearse again.',
    ]);
  });

  it('names the bench that may wilt first, and the part with its number of floods', () => {
    const rehearsal = rehearsalOf([{ wilts: { 1: clock('17:10'), 2: clock('17:00') } }, {}]);
    expect(verdictText(rehearsal)).toBe('Bench 3 may begin to wilt from 17:00 (in 1 of 2 runs).');
    expect(rehearsal.advice).toEqual([
      'Look at "late afternoon" (now 4 floods of 20 min each): give more floods, or lengthen them. Then rehearse again.',
    ]);
  });

  it('speaks of the tank and not of the day plan where the tank went dry, though its alarm is of the day before', () => {
    const { advice } = rehearsalOf([{ wilts: { 0: clock('12:00') }, tankLitresLowest: 65 }]);
    expect(advice).toEqual([expect.stringContaining('The tank runs low')]);
  });

  it('does not count a bench without plants', () => {
    const farm = farmWith([['benches', 0, 'plants'], 0]);
    expect(rehearsalOf([{ wilts: { 0: clock('12:00') } }], [], farm).verdict.kind).toBe('holds');
  });
});

describe('a verdict on water', () => {
  // The example farm has 1.6 mS/cm: a quarter more is 2.
  it('does not pass for one on salt: a tank of 5.01 mS/cm in 1 of 2 runs is told in the same breath', () => {
    expect(verdictText(rehearsalOf([{}, { tankStrongest: 5.01 }]))).toBe(
      'Holds, also if any one flood is missed. THE TANK GROWS TOO STRONG in 1 of 2 runs: up to 5.01 mS/cm, usual is 1.60. What that does to the crop is not judged here.',
    );
  });

  it('says nothing of a tank that stays within a quarter of its usual strength, nor of channels of 30 °C', () => {
    expect(verdictText(rehearsalOf([{ tankStrongest: 2, tankWeakest: 1.21, warmest: 30 }]))).not.toMatch(
      /TOO/,
    );
  });

  it('nor for one on hunger: a tank of 0.46 mS/cm is told as plainly', () => {
    const weak = rehearsalOf([{ tankWeakest: 0.46 }, {}]);
    expect(verdictText({ ...weak, days: 3 })).toBe(
      'Holds, also if any one flood is missed. THE TANK GROWS TOO WEAK in 1 of 2 runs: down to 0.46 mS/cm, usual is 1.60. What that does to the crop is not judged here.',
    );
    // On one day without faults nobody adds salts.
    expect(verdictText(weak)).not.toContain('WEAK');
  });

  it('nor for one on heat: channels of 40 °C in the middle run are told, of planted benches alone', () => {
    const runs = [{ warmest: 40.2 }, { warmest: 41 }, { warmest: 29 }];
    expect(verdictText(rehearsalOf(runs))).toBe(
      'Holds, also if any one flood is missed. THE WATER IN THE CHANNELS GROWS TOO WARM in 2 of 3 runs: 40 °C in the middle one, up to 30 °C is common practice. What that does to the roots is not judged here.',
    );
    expect(verdictText(rehearsalOf([{ warmest: 40 }, {}, {}]))).not.toContain('WARM');
    const empty = farmWith(...[0, 1, 2, 3].map((place): Change => [['benches', place, 'plants'], 0]));
    expect(verdictText(rehearsalOf(runs, [], empty))).not.toContain('WARM');
  });
});

interface FaultRow {
  readonly title: string;
  readonly runs: readonly MadeRun[];
  readonly kind: 'holds' | 'may-wilt';
  readonly says: string;
}

const wilt = (at: string, place = 3): Readonly<Record<number, number>> => ({ [place]: clock(at) });

/** All with a pump that dies at 13:00. */
const rows: readonly FaultRow[] = [
  {
    title: 'tells the lead of the alarm before the wilting, between the two times as they are told',
    runs: [{ wilts: wilt('14:07'), alarms: [[clock('13:30') + 1000, 'high']] }],
    kind: 'may-wilt',
    says: 'Bench 4 may begin to wilt from 14:07 (in 1 of 1 runs). The first alarm comes at 13:30, 37 min before that.',
  },
  {
    title: 'counts the lead from the first alarm of high priority, and tells the earlier one too',
    runs: [
      {
        wilts: wilt('14:07'),
        alarms: [
          [clock('13:01'), 'medium'],
          [clock('13:30'), 'high'],
          [clock('13:40'), 'high'],
        ],
      },
    ],
    kind: 'may-wilt',
    says: 'Bench 4 may begin to wilt from 14:07 (in 1 of 1 runs). The first alarm comes at 13:01, the first of high priority at 13:30, 37 min before that.',
  },
  {
    title: 'tells the run with the least lead, also where another run wilts earlier',
    runs: [
      { wilts: wilt('14:00'), alarms: [[clock('13:10'), 'high']] },
      { wilts: wilt('14:20', 1), alarms: [[clock('13:50'), 'high']] },
      { alarms: [[clock('13:55'), 'high']] },
    ],
    kind: 'may-wilt',
    says: 'Bench 4 may begin to wilt from 14:00 (in 2 of 3 runs). In the worst of 3 runs the first alarm comes at 13:50, 30 min before Bench 2 may begin to wilt from 14:20.',
  },
  {
    title: 'cries out where the alarm comes after the wilting',
    runs: [
      { wilts: wilt('14:07'), alarms: [[clock('14:29') + 1000, 'high']] },
      { wilts: wilt('14:10'), alarms: [[clock('13:30'), 'high']] },
    ],
    kind: 'may-wilt',
    says: 'Bench 4 may begin to wilt from 14:07 (in 2 of 2 runs). In the worst of 2 runs the first alarm comes at 14:29, 22 min too late. NOT CALLED IN TIME in 1 of 2 runs.',
  },
  {
    title: 'cries out where no alarm of high priority comes, and tells the one of lower priority',
    runs: [
      { wilts: wilt('14:07'), alarms: [[clock('13:01'), 'low']] },
      { wilts: wilt('14:10'), alarms: [[clock('13:30'), 'high']] },
    ],
    kind: 'may-wilt',
    says: 'Bench 4 may begin to wilt from 14:07 (in 2 of 2 runs). In the worst of 2 runs no alarm of high priority comes, only one of lower priority at 13:01. NOT CALLED IN TIME in 1 of 2 runs.',
  },
  {
    title: 'takes no alarm from before the fault for its alarm',
    runs: [{ wilts: wilt('14:07'), alarms: [[clock('12:59'), 'high']] }],
    kind: 'may-wilt',
    says: 'Bench 4 may begin to wilt from 14:07 (in 1 of 1 runs). No alarm of high priority comes. NOT CALLED IN TIME in 1 of 1 runs.',
  },
  {
    title: 'tells a wilting of the next morning as such',
    runs: [{ wilts: { 3: clock('08:56', NEXT) }, alarms: [[clock('13:49'), 'high']] }],
    kind: 'may-wilt',
    says: 'Bench 4 may begin to wilt from 08:56 on the day after (in 1 of 1 runs). The first alarm comes at 13:49, 19 h 7 min before that.',
  },
  {
    title: 'does not blame the fault for a bench that wilts before it',
    runs: [{ wilts: wilt('12:00'), alarms: [[clock('13:30'), 'high']] }, {}],
    kind: 'may-wilt',
    says: 'Bench 4 may begin to wilt from 12:00 (in 1 of 2 runs). A bench wilts before the fault begins (in 1 of 2 runs): rehearse without it first.',
  },
  {
    title: 'tells the latest first alarm where no bench wilts',
    runs: [{ alarms: [[clock('13:30'), 'high']] }, { alarms: [[clock('13:40'), 'medium']] }],
    kind: 'holds',
    says: 'No bench wilts by the end of the day after. The first alarm comes at 13:40 in the latest of 2 runs.',
  },
  {
    title: 'tells in how many runs no alarm came where no bench wilts',
    runs: [{ alarms: [[clock('13:30'), 'high']] }, {}],
    kind: 'holds',
    says: 'No bench wilts by the end of the day after. No alarm comes in 1 of 2 runs.',
  },
];

describe('the verdict of a rehearsal with a pump that dies at 13:00', () => {
  it.each(rows)('$title', ({ runs, kind, says }) => {
    const rehearsal = rehearsalOf(runs, [fault('13:00')]);
    expect(rehearsal.verdict.kind).toBe(kind);
    expect(verdictText(rehearsal)).toBe(says);
    expect(rehearsal.advice).toEqual([]);
  });

  it('does not ask what one more missed flood would do: holds though a miss would lead to 10 %', () => {
    expect(rehearsalOf([{ missedTheta: 0.1 }], [fault('13:00')]).verdict.kind).toBe('holds');
  });
});

describe('the advice on a bench whose inlet is blocked', () => {
  const blocked: Fault = { ...fault('13:00'), kind: 'inlet-blocked' };
  const unseen = [
    'One sensor on the common return does not see one bench. Walk the benches, and look at the inlet of each.',
  ];

  it('is to walk the benches where no alarm comes, or none of high priority before a bench wilts', () => {
    expect(rehearsalOf([{}], [blocked]).advice).toEqual(unseen);
    const late = { wilts: { 0: clock('15:00') }, alarms: [[clock('15:30'), 'high'] as const] };
    expect(rehearsalOf([late], [blocked]).advice).toEqual(unseen);
  });

  it('is none where an alarm of high priority comes first', () => {
    const seen = { wilts: { 0: clock('15:00') }, alarms: [[clock('14:00'), 'high'] as const] };
    expect(rehearsalOf([seen], [blocked]).advice).toEqual([]);
  });
});

describe('spanWords', () => {
  it.each([
    [0, '0 min'],
    [89, '89 min'],
    [90, '1 h 30 min'],
    [168, '2 h 48 min'],
    [1439, '23 h 59 min'],
    [1440, '> 24 h'],
  ])('says %d min as %s', (minutes, words) => {
    expect(spanWords(minutes)).toBe(words);
  });
});
