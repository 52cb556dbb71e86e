import { describe, expect, it } from 'vitest';
import type { PlanTrial } from '../../../firmware-host/simulated-shed.ts';
import { limitText } from '../../../firmware-host/cli/tune-words.ts';
import { limitOf, type Limit } from '../../../firmware-host/tune/limit.ts';
import { jobOf, madeCandidate, madeChoice, madeTrial } from './made-tune.ts';

const job = jobOf([2, 20], [3, 20], [5, 20]);
/** `count` of ten runs changed. */
const runs = (count: number, change: Partial<PlanTrial>): readonly PlanTrial[] =>
  Array.from({ length: 10 }, (_, run) => madeTrial(run < count ? change : {}));

const limitWith = (
  fewer: readonly PlanTrial[] | null,
  own: readonly PlanTrial[],
  more: readonly PlanTrial[],
): Limit => {
  const choices = [
    ...(fewer === null ? [] : [madeChoice(job, madeCandidate(0, 20), fewer)]),
    madeChoice(job, madeCandidate(1, 21), own),
    madeChoice(job, madeCandidate(2, 23), more),
  ];
  return limitOf(choices, choices[fewer === null ? 0 : 1]!)!;
};
const GOOD = runs(0, {});

describe('what a night is limited by', () => {
  it('is water where the next fewer floods fail, as sure as the share of the runs that do', () => {
    const limit = limitWith(runs(4, { missedTheta: 0.1 }), GOOD, GOOD);
    expect(limit).toMatchObject({ by: 'water', sure: 0.4, waterRuns: 4, runs: 10 });
    expect(limitText(limit)[0]).toContain('in 4 of 10 runs');
  });

  it('is oxygen where more floods spare a tenth of the runs a fall below the unharmed, and not where less', () => {
    expect(limitWith(null, runs(3, { lowestOxygen: 1.9 }), GOOD)).toMatchObject({ by: 'oxygen', sure: 0.3 });
    expect(limitWith(null, runs(3, { lowestOxygen: 1.9 }), runs(3, { lowestOxygen: 2 }))).toMatchObject({
      by: 'nothing',
      oxygenRuns: { smallest: 3, most: 3 },
    });
    expect(limitWith(null, runs(1, { lowestOxygen: 1.9 }), GOOD).by).toBe('oxygen');
    expect(limitWith(null, runs(1, { lowestOxygen: 2.1 }), GOOD).by).toBe('nothing');
  });

  it('is heat where more floods keep a tenth of the runs below 30 °C, and the more of oxygen and heat', () => {
    expect(limitWith(null, runs(2, { warmestCelsius: 31 }), GOOD)).toMatchObject({ by: 'heat', sure: 0.2 });
    const both = runs(2, { warmestCelsius: 31, lowestOxygen: 1 });
    const moreOxygen = [...both.slice(0, 2), ...runs(1, { lowestOxygen: 1 }).slice(0, 1), ...GOOD.slice(3)];
    expect(limitWith(null, moreOxygen, GOOD)).toMatchObject({ by: 'oxygen', sure: 0.3 });
  });

  it('stays water where oxygen is short as well, and tells of that in its second line', () => {
    const limit = limitWith(runs(1, { missedTheta: 0.1 }), runs(9, { lowestOxygen: 1 }), GOOD);
    expect(limit.by).toBe('water');
    expect(limitText(limit)[1]).toMatch(/in 9 of 10 runs with the fewest safe floods, in 0 of 10 runs/);
  });

  it('is nothing, surely, where fewer floods hold as well and more spare nothing', () => {
    expect(limitWith(GOOD, GOOD, GOOD)).toMatchObject({ by: 'nothing', sure: 1, waterRuns: 0 });
    expect(limitWith(null, GOOD, GOOD)).toMatchObject({ by: 'nothing', waterRuns: null });
  });

  it('is not told of a plan that nobody has judged', () => {
    const choice = madeChoice(job, madeCandidate(1, 21), null);
    expect(limitOf([choice], choice)).toBe(null);
  });
});
