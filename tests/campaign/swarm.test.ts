import { beforeAll, describe, expect, it } from 'vitest';
import { INJECTORS } from '../../sim/faults/injectors.ts';
import { sumOf } from '../../sim/campaign/sum.ts';
import type { CampaignResult } from '../../sim/campaign/task.ts';
import { swarmTasks } from '../../sim/campaign/tasks.ts';
import { breachesOf, campaign } from './campaign.ts';

const SEEDS = 500;
const DAYS = 3;
/** For a machine with other work; how long it takes is for the bench to say. */
const SECONDS_MOST = 1200;
const HITS_LEAST = 20;
describe('the campaign', () => {
  let results: readonly CampaignResult[] = [];
  beforeAll(async () => {
    results = await campaign(swarmTasks(1, SEEDS, DAYS));
  }, SECONDS_MOST * 1000);

  it('breaks no invariant in 500 seeds of 3 days, each with three faults or more at once', () => {
    expect(results).toHaveLength(SEEDS);
    expect(Math.min(...results.map(({ broken }) => broken.length))).toBeGreaterThanOrEqual(3);
    expect(breachesOf(results)).toEqual([]);
  });

  it(`lets every injector change something in ${HITS_LEAST} seeds at least`, () => {
    const { hits } = sumOf(results);
    expect(INJECTORS.filter((name) => hits[name] < HITS_LEAST).map((name) => [name, hits[name]])).toEqual([]);
  });

  it('ran 25 seeds twice, with the same journal to the letter', () => {
    expect(sumOf(results).repeated).toBe(SEEDS / 20);
  });
});
