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
/**
 * These 500 seeds have 11 benches that wilted unseen and 1 whose plan is too dry. A few more may come of another drawing; with
 * more than these something that could be told is no longer, or a plan has become drier.
 */
const UNSEEN_MOST = 15;
const THIRSTY_MOST = 3;
/** All but those whose tank is filled by hand and ran low: of these 500 none. */
const JUDGED_LEAST = 490;

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

  it(`lets at most ${UNSEEN_MOST} benches wilt where nothing could tell, and ${THIRSTY_MOST} under a plan that is too dry`, () => {
    const { unseenWiltings, thirstyBenches } = sumOf(results);
    expect(unseenWiltings).toBeLessThanOrEqual(UNSEEN_MOST);
    expect(thirstyBenches).toBeLessThanOrEqual(THIRSTY_MOST);
  });

  it(`judges in ${JUDGED_LEAST} seeds at least whether service returned after the last fault`, () => {
    expect(sumOf(results).recoveriesJudged).toBeGreaterThanOrEqual(JUDGED_LEAST);
  });

  it('ran 25 seeds twice, with the same journal to the letter', () => {
    expect(sumOf(results).repeated).toBe(SEEDS / 20);
  });
});
