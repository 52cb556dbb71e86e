import { describe, expect, it } from 'vitest';
import { seedRun } from '../../sim/campaign/seed.ts';
import { alarmSpans } from '../../sim/oracle/alarm-log.ts';
import { judged } from '../../sim/oracle/judge.ts';

/** A farm of the campaign with a tank float and a float valve that keeps the tank far above it. */
const SEED = 4;
const DAY = 86_400_000;

describe('a tank that is kept full for 31 days, with nothing broken', () => {
  it('has its float asked for once, within 10 min of the 30th day, by the only alarm of the month, and no invariant is broken', () => {
    const { record } = seedRun({ seed: SEED, days: 31, faultFree: true });
    const { tankFloat } = record.farm.evidence;
    const lowest = record.truth.tankLitres.reduce((least, litres) => Math.min(least, litres));
    expect({ tankFloat, aboveFloat: lowest > record.farm.tank.dryLitres + 20 }).toEqual({
      tankFloat: true,
      aboveFloat: true,
    });
    const spans = alarmSpans(record);
    expect(spans.map(({ alarm, priority }) => [alarm, priority])).toEqual([['float-unmoved', 'low']]);
    const days = (spans[0]!.fromMillis - record.startMillis) / DAY;
    expect(days).toBeGreaterThanOrEqual(30);
    expect(days).toBeLessThan(30 + 10 / 1440);
    expect(judged(record)).toEqual([]);
  });
});
