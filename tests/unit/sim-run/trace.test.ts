import { describe, expect, it } from 'vitest';
import { traceOf, type Moment } from '../../../sim/run/trace.ts';
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
  it('tells a day in 288 stretches of 5 min, named by their beginning, and nothing outside of it', () => {
    const moments = traced(0, DAY);
    expect(moments).toHaveLength(288);
    expect(new Set(gaps(moments))).toEqual(new Set([5]));
    const late = traced(DAY / 2, DAY);
    expect(late[0]!.atMillis).toBe(START + DAY / 2);
    expect(late.at(-1)!.atMillis).toBe(START + DAY - 5 * MINUTE);
  });

  it('tells 12 days in stretches of 30 min and 21 in those of an hour: no more than 600', () => {
    expect(traced(0, 12 * DAY)).toHaveLength(12 * 48);
    expect(traced(0, 21 * DAY)).toHaveLength(21 * 24);
  });

  it('misses nothing between two points: a day in stretches of an hour has the lows and highs of one in 5 min', () => {
    const day = (moments: readonly Moment[]): readonly Moment[] =>
      moments.filter(({ atMillis }) => atMillis < START + DAY);
    const [fine, coarse] = [day(traced(0, DAY)), day(traced(0, 21 * DAY))];
    const ends = (moments: readonly Moment[]): readonly number[] => [
      Math.min(...moments.map(({ thetas }) => thetas[0]!)),
      Math.min(...moments.map(({ oxygenMilligramsPerLitre }) => oxygenMilligramsPerLitre[0]!)),
      Math.min(...moments.map(({ tankLitres }) => tankLitres)),
      Math.max(...moments.map(({ waterCelsius }) => waterCelsius[0]!)),
      Math.max(...moments.map(({ strengths }) => strengths[0]!)),
      Math.max(...moments.map(({ tankStrength }) => tankStrength)),
    ];
    expect(coarse.length).toBe(24);
    expect(ends(coarse)).toEqual(ends(fine));
  });

  it('tells of both benches what they are: the older holds the greater share less, its oxygen is lower', () => {
    const moments = traced(0, DAY);
    const last = moments.findLast(({ atMillis }) => atMillis < START + 590 * MINUTE)!;
    expect(last.thetas[0]!).toBeLessThan(last.thetas[1]!);
    // By night, when both are as warm.
    const night = moments.findLast(({ atMillis }) => atMillis < START + 300 * MINUTE)!;
    expect(night.oxygenMilligramsPerLitre[0]!).toBeLessThan(night.oxygenMilligramsPerLitre[1]!);
    expect(last.strengths[0]!).toBeGreaterThan(1);
  });
});
