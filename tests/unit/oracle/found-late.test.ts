import { expect, it } from 'vitest';
import { noSilentMiss } from '../../../sim/oracle/invariants/no-silent-miss.ts';
import type { Broken } from '../../../sim/oracle/record.ts';
import type { Happening } from '../../../src/journal/entry.ts';
import { monotonicMillis } from '../../../src/time/instant.ts';
import { MINUTE, quietRecord, rows } from './quiet-record.ts';

const STARTED = 100;
const DEADLINE = 112;

/** Of a dry flood that began at minute 100, had to be found by minute 112 and was found at this one. */
const found = (minute: number, broken: readonly Broken[]): readonly string[] => {
  const missed: Happening = {
    kind: 'verdict',
    flood: 1,
    part: 'night',
    verdict: {
      kind: 'missed',
      says: 'no water came back in 12 min',
      clue: {
        contact: 'unknown',
        current: 'unknown',
        mains: 'unknown',
        tankFell: 'unknown',
        trickleLitresPerMinute: null,
        startedAt: monotonicMillis(STARTED * MINUTE),
        stoppedAt: null,
        deadline: monotonicMillis(DEADLINE * MINUTE),
        retries: 2,
      },
    },
  };
  const alarm: Happening = { kind: 'alarm-raised', alarm: 'missed-flood', priority: 'high', text: 'Made.' };
  return noSilentMiss(quietRecord({ broken, rows: rows([minute, missed], [minute, alarm]) })).map(
    ({ words }) => words,
  );
};
const LATE = ['flood 1 was found missed late'];
const gone = (from: number, until: number, name: Broken['name'] = 'link-lost'): Broken => ({
  name,
  fromMillis: from * MINUTE,
  untilMillis: until * MINUTE,
});

it.each([
  ['by its deadline', 112, [], []],
  ['a minute after it', 113, [], []],
  ['more than a minute after it', 113.1, [], LATE],
  ['a minute after a line that was gone past the deadline is back', 121, [gone(105, 120)], []],
  ['two minutes after that', 122, [gone(105, 120)], LATE],
  ['late, after a line that was back before the deadline', 120, [gone(103, 108)], LATE],
  ['late, beside a line that went before the flood', 120, [gone(80, 99)], LATE],
  ['late, beside one that goes afterwards', 120, [gone(125, 130)], LATE],
  ['late, after something else that has ended', 121, [gone(105, 120, 'disk-slow')], LATE],
] as const)('a dry flood found %s', (_, minute, broken, words) => {
  expect(found(minute, broken)).toEqual(words);
});
