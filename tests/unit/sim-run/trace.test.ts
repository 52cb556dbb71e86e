import { describe, expect, it } from 'vitest';
import { strongestOf, traceOf, type Moment } from '../../../sim/run/trace.ts';
import { daySky, flooded, HOT_DAY, LETTUCE, MINUTE, plantBuild, rested, START } from '../../support/plant.ts';

const DAY = 24 * 60 * MINUTE;
const traced = (from: number, until: number): readonly Moment[] => {
  const plant = rested(plantBuild([LETTUCE, { ...LETTUCE, ageDays: 20 }]), daySky(HOT_DAY), {
    tankLitres: 2000,
  });
  const trace = traceOf(plant, START + from, START + until);
  flooded(plant, [{ from: 600, minutes: 20 }], until / MINUTE + 10, trace.witness);
  return trace.moments;
};
const gaps = (moments: readonly Moment[]): readonly number[] =>
  moments.slice(1).map(({ atMillis }, place) => (atMillis - moments[place]!.atMillis) / MINUTE);

describe('the trace of a run', () => {
  it('has a day every 5 min, up to one step late, and nothing outside of it', () => {
    const moments = traced(0, DAY);
    expect(moments.length).toBeGreaterThan(280);
    expect(moments.length).toBeLessThan(292);
    expect(Math.max(...gaps(moments))).toBeLessThanOrEqual(7.5);
    const late = traced(DAY / 2, DAY);
    expect(late[0]!.atMillis).toBeGreaterThanOrEqual(START + DAY / 2);
    expect(late.at(-1)!.atMillis).toBeLessThanOrEqual(START + DAY);
  });

  it('has 12 days in 600 moments at most', () => {
    const moments = traced(0, 12 * DAY);
    expect(moments.length).toBeLessThanOrEqual(602);
    expect(moments.length).toBeGreaterThan(500);
  });

  it('tells of both benches what they are: the older holds the greater share less, its oxygen is lower', () => {
    const moments = traced(0, DAY);
    const last = moments.findLast(({ atMillis }) => atMillis < START + 590 * MINUTE)!;
    expect(last.thetas[0]!).toBeLessThan(last.thetas[1]!);
    // By night, when both are as warm.
    const night = moments.findLast(({ atMillis }) => atMillis < START + 300 * MINUTE)!;
    expect(night.oxygenMilligramsPerLitre[0]!).toBeLessThan(night.oxygenMilligramsPerLitre[1]!);
    expect(last.strengths[0]!).toBeGreaterThan(1);
    expect(moments.some(({ pumpOn }) => pumpOn)).toBe(true);
  });

  it('tells the strongest held water only above the wilt floor: dried, hundreds of mS/cm mean nothing', () => {
    // One flood, then two days of sun.
    const moments = traced(0, 3 * DAY);
    const all = Math.max(...moments.map(({ strengths }) => strengths[0]!));
    const alive = strongestOf(moments, 0, 0.2)!;
    expect(all).toBeGreaterThan(100);
    expect(alive).toBeGreaterThan(1.6);
    expect(alive).toBeLessThan(10);
    expect(strongestOf(moments, 0, 1)).toBeNull();
  });
});
