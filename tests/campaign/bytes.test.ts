import { beforeAll, describe, expect, it } from 'vitest';
import type { InjectorName } from '../../sim/faults/injectors.ts';
import { sumOf } from '../../sim/campaign/sum.ts';
import type { CampaignResult } from '../../sim/campaign/task.ts';
import { byteTasks } from '../../sim/campaign/tasks.ts';
import { breachesOf, campaign } from './campaign.ts';

const SEEDS = 50;
/** Three calm hours, five of faults, four without: a day of them all would take twice as long, and is run by hand. */
const DAYS = 0.5;
/** For a machine with other work. */
const SECONDS_MOST = 3000;
/** After the limit, three hours from the last fault on, an hour is left: a flood is judged in it unless the rest is longer. */
const JUDGED_LEAST = 35;
/** What acts on the line, on the host at its end, or on a sensor's wire: all that is not the same without bytes. */
const ON_THE_LINE: readonly InjectorName[] = [
  'link-lost',
  'link-flapping',
  'board-reset',
  'samples-lost',
  'samples-repeated',
  'host-killed',
  'host-frozen',
  'late-ticks',
];
describe('the campaign through Firmata bytes, a look a second', () => {
  let results: readonly CampaignResult[] = [];
  beforeAll(async () => {
    results = await campaign(byteTasks(1, SEEDS, DAYS));
  }, SECONDS_MOST * 1000);

  it('breaks no invariant in 50 seeds of half a day', () => {
    expect(results).toHaveLength(SEEDS);
    expect(breachesOf(results)).toEqual([]);
  });

  it('lets each injector of the line change something', () => {
    const { hits } = sumOf(results);
    expect(ON_THE_LINE.filter((name) => hits[name] === 0)).toEqual([]);
  });

  it(`judges in ${JUDGED_LEAST} seeds at least whether service returned after the last fault`, () => {
    expect(sumOf(results).recoveriesJudged).toBeGreaterThanOrEqual(JUDGED_LEAST);
  });

  it('ran two seeds twice, with the same journal to the letter', () => {
    expect(sumOf(results).repeated).toBe(2);
  });
});
