import { describe, expect, it } from 'vitest';
import { isSameMoment, keptVerdict } from '../../../src/verify/kept-run.ts';
import { exampleFarm } from '../../support/farm.ts';
import { minute, second } from '../../support/moments.ts';
import { keptRun } from './kept.ts';

describe('a run that the board has judged', () => {
  it.each([
    ['confirmed', 1200, { kind: 'confirmed', says: 'the board saw its water come back, in 20 min' }],
    [
      'unproven',
      1200,
      { kind: 'unproven', says: 'the board gave it; nobody saw whether its water came back' },
    ],
    ['missed', 89, { kind: 'missed', says: 'the board saw no water come back in 89 s' }],
    ['missed', 90, { kind: 'missed', says: 'the board saw no water come back in 2 min' }],
    ['cut-short', 240, { kind: 'degraded', why: 'cut-short', says: 'the board stopped it after 4 min' }],
  ] as const)('%s after %d s comes to the same verdict in words of its own', (verdict, seconds, comesTo) => {
    expect(keptVerdict(exampleFarm, keptRun(100, { seconds, verdict }), 8)).toMatchObject(comesTo);
  });

  it.each(['sip', 'judged-by-host'] as const)('a %s comes to none', (verdict) => {
    expect(keptVerdict(exampleFarm, keptRun(100, { verdict }), 8)).toBeNull();
  });

  it('missed: nothing is known of its power, and its deadline is lag and two retries of 3.5 min from its start', () => {
    expect(keptVerdict(exampleFarm, keptRun(100, { verdict: 'missed' }), 8)).toMatchObject({
      clue: {
        contact: 'unknown',
        current: 'unknown',
        mains: 'unknown',
        tankFell: 'unknown',
        trickleLitresPerMinute: null,
        startedAt: minute(100),
        stoppedAt: null,
        deadline: minute(115),
        retries: 0,
      },
    });
  });
});

describe('a moment of the board and one of the host', () => {
  it.each([
    // 5 s, and 5 % of the 100 s since the earlier of them.
    [0, 10, 100, true],
    [0, 10.1, 100, false],
    [10, 0, 100, true],
    [0, 5, 0, true],
    [0, 5.1, 0, false],
  ])('at %d s and %d s, told at %d s, are one: %s', (one, other, now, same) => {
    expect(isSameMoment(second(one), second(other), second(now))).toBe(same);
  });
});
