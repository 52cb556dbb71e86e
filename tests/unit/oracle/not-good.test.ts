import { describe, expect, it } from 'vitest';
import { notGood } from '../../../sim/oracle/invariants/not-good.ts';
import type { Broken } from '../../../sim/oracle/record.ts';
import { brokenAtHours, madeDay, type MadeDay } from './made-record.ts';

/** The farm rests 10 min by day where nothing good is known, with 6 of slack. */
const FIRST = 8;
const LAST = 16;

const restsIn = (broken: readonly Broken[], day: Partial<MadeDay> = {}): readonly number[] => {
  const record = madeDay({ rest: () => 25, broken, ...day });
  return notGood(record)
    .filter(({ words }) => words.startsWith('a rest'))
    .map(({ atMillis }) => (atMillis - record.startMillis) / 3_600_000);
};
const air = (name: Broken['name']): Broken => brokenAtHours(name, [FIRST, LAST], 'air-temperature');
const warming = (hour: number): number => 15 + Math.max(0, hour - 6) * 2;
const afternoon = (hour: number): number => 40 - hour;

describe('rests of 25 min while the thermometer is broken, to the judge', () => {
  it.each<readonly [string, readonly Broken[], number]>([
    ['are too long half an hour after it fell silent', [brokenAtHours('air-silent', [FIRST, LAST])], 8.7],
    ['are too long an hour after it began to say anything at all', [air('sensor-garbage')], 9],
    ['are too long three and a half hours after it got stuck', [air('sensor-stuck')], 11.7],
    ['are too long half an hour after a jump to 16 °C too cold', [air('sensor-wrong')], 8.7],
  ])('%s', (_, broken, first) => {
    const found = restsIn(broken, { celsius: afternoon });
    expect(found[0]).toBeGreaterThan(first - 0.1);
    expect(found[0]).toBeLessThan(first + 0.9);
    expect(found.length).toBeGreaterThan(3);
    expect(restsIn(broken, { celsius: afternoon, rest: () => 15.9 })).toEqual([]);
  });

  it('are judged from three and a half hours after a power cut on, where it is stuck', () => {
    const found = restsIn([air('sensor-stuck'), brokenAtHours('host-killed', [10, 11])]);
    expect(found[0]).toBeGreaterThan(14.4);
  });

  it.each<readonly [string, readonly Broken[], Partial<MadeDay>]>([
    ['slow', [air('sensor-slow')], {}],
    ['15 min late', [air('sensor-delayed')], {}],
    ['in the sun', [brokenAtHours('air-in-sun', [FIRST, LAST])], {}],
    ['wrong since before a power cut', [air('sensor-wrong'), brokenAtHours('host-killed', [8.2, 8.5])], {}],
    [
      'wrong since half of its words were lost',
      [air('sensor-wrong'), brokenAtHours('samples-lost', [7, 9])],
      {},
    ],
    [
      'wrong by a jump that warming air may have hidden between two looks in a rest',
      [brokenAtHours('sensor-wrong', [8.99, LAST], 'air-temperature')],
      { celsius: warming, mainsPresent: false },
    ],
    ['broken in two ways', [air('sensor-garbage'), brokenAtHours('air-in-sun', [9, LAST])], {}],
  ])('are not judged where it is %s: nobody can tell', (_, broken, day) => {
    expect(restsIn(broken, day)).toEqual([]);
  });

  it('are judged until the air is 12 °C warmer than at the jump: then it reads what it did before', () => {
    const found = restsIn([air('sensor-wrong')], { celsius: warming });
    expect(Math.max(...found)).toBeGreaterThan(13);
    expect(Math.max(...found)).toBeLessThan(14.1);
  });
});
