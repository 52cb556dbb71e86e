import { DateTime } from 'luxon';
import { describe, expect, it } from 'vitest';
import type { Farm } from '../../src/farm/farm.ts';
import type { Change } from '../support/farm.ts';
import { lowestTheta, runShed, type ShedRun } from './shed-run.ts';
import { clock, shedWith } from './sheds.ts';

const LEVEL: readonly Change[] = [
  [
    ['evidence'],
    { returnFlow: 'meter', pumpCurrent: true, relayReadBack: true, tankFloat: true, tankLevel: true },
  ],
  [['tank', 'topUp'], 'by-hand'],
];
const BENCHES = 4;

const emptied = (benches: number): readonly Change[] =>
  Array.from({ length: benches }, (_, place): Change => [['benches', BENCHES - 1 - place, 'plants'], 0]);

const TRUE_FARM = shedWith(...LEVEL);
/** A file that calls so many planted benches empty. */
const callsEmpty = (benches: number): Farm => shedWith(...LEVEL, ...emptied(benches));

const run = (written: Farm, farm: Farm = TRUE_FARM): ShedRun =>
  runShed({ farm, written, fromMillis: clock(5), untilMillis: clock(20) });

describe('a farm file that calls planted benches empty', () => {
  it.each([1, 2, 3, 4])('leaves none below its stress floor on a hot day, with %i of four', (benches) => {
    expect(lowestTheta(run(callsEmpty(benches)))).toBeGreaterThan(TRUE_FARM.floors.stress);
  });

  it.each([3, 4])('is asked about by noon, by the fall of the tank, with %i of four', (benches) => {
    const { alarms } = run(callsEmpty(benches));
    const falls = alarms.find(({ entry }) => entry.alarm === 'tank-falls');
    expect(falls?.entry.text).toContain('is every planted bench in the farm file?');
    expect(falls?.entry.at).toBeLessThan(clock(12));
  });

  it('is not seen with one of four: what it drinks hides in the doubt of the others', () => {
    expect(run(callsEmpty(1)).alarms.map(({ entry }) => entry.alarm)).not.toContain('tank-falls');
  });
});

describe('a farm file that has a crop', () => {
  it.each([
    ['14 days younger', 14],
    ['14 days older', -14],
  ])('%s than it is leaves no bench below its stress floor on a hot day', (_, days) => {
    const written = shedWith(
      ...LEVEL,
      ...TRUE_FARM.benches.map(({ sown }, place): Change => [
        ['benches', place, 'sown'],
        DateTime.fromISO(sown, { zone: 'utc' }).plus({ days }).toFormat('yyyy-MM-dd'),
      ]),
    );
    expect(lowestTheta(run(written))).toBeGreaterThan(TRUE_FARM.floors.stress);
  });
});
