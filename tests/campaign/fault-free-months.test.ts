import { describe, expect, it } from 'vitest';
import { sumOf } from '../../sim/campaign/sum.ts';
import { monthTasks } from '../../sim/campaign/tasks.ts';
import { breachesOf, campaign } from './campaign.ts';

const MONTHS = 50;

describe('fifty months in which nothing is broken, with the noise of cheap sensors', () => {
  it('raise no alarm of a missed flood, and break no invariant', { timeout: 300_000 }, async () => {
    const results = await campaign(monthTasks(1, MONTHS));
    const { days, floods, missedAlarms, thirstyBenches } = sumOf(results);
    expect(breachesOf(results)).toEqual([]);
    expect(days).toBe(MONTHS * 30);
    expect(floods).toBeGreaterThan(MONTHS * 30 * 12);
    expect(missedAlarms).toBe(0);
    // No plan of these is too dry for its plants: none may be excused by that.
    expect(thirstyBenches).toBe(0);
  });
});
