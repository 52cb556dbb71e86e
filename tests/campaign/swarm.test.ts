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
 * Seeds whose breach is known and not mended. One that is mended fails here, as one that is new does. In six of them a
 * return sensor is called stuck in channels that truly drain so slowly; to wait longer would hide a pump that fails while
 * the sensor lies (`tests/simulation/sensor-faults`).
 */
const OPEN_FINDINGS: Readonly<Record<number, readonly string[]>> = {
  96: ['I1'],
  101: ['I2'],
  180: ['I2'],
  348: ['I1'],
  395: ['I1'],
  400: ['I1'],
  401: ['I1'],
  446: ['I1'],
  466: ['I1'],
  483: ['I1'],
};

/** The invariants that each seed breaks, those that break none left out. */
const brokenBy = (results: readonly CampaignResult[]): Readonly<Record<number, readonly string[]>> =>
  Object.fromEntries(
    results
      .filter(({ breaches }) => breaches.length > 0)
      .map(({ task, breaches }) => [task.seed, [...new Set(breaches.map(({ invariant }) => invariant))]]),
  );

describe('the campaign', () => {
  let results: readonly CampaignResult[] = [];
  beforeAll(async () => {
    results = await campaign(swarmTasks(1, SEEDS, DAYS));
  }, SECONDS_MOST * 1000);

  it('breaks no invariant in 500 seeds of 3 days but in the ten open findings, each with three faults or more at once', () => {
    expect(results).toHaveLength(SEEDS);
    expect(Math.min(...results.map(({ broken }) => broken.length))).toBeGreaterThanOrEqual(3);
    expect(brokenBy(results), breachesOf(results).join('\n')).toEqual(OPEN_FINDINGS);
  });

  it(`lets every injector change something in ${HITS_LEAST} seeds at least`, () => {
    const { hits } = sumOf(results);
    expect(INJECTORS.filter((name) => hits[name] < HITS_LEAST).map((name) => [name, hits[name]])).toEqual([]);
  });

  it('ran 25 seeds twice, with the same journal to the letter', () => {
    expect(sumOf(results).repeated).toBe(SEEDS / 20);
  });
});
