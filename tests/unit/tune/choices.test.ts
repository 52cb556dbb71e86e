import { describe, expect, it } from 'vitest';
import { judgedOf, kilowattHours, shown } from '../../../firmware-host/tune/choices.ts';
import { jobOf, madeCandidate, madeTrial } from './made-tune.ts';

const job = jobOf([1, 20], [2, 20], [3, 20], [4, 20], [5, 20], [6, 20], [7, 20], [8, 20], [9, 20], [10, 20]);
/** The i-th with i + 1 floods. */
const candidates = job.settings.map((_, place) => madeCandidate(place, 15 + place, 0.1 + 0.05 * place));

describe('a judged plan', () => {
  it('is safe at its wilt floor of 0.2, and not a hair below it, in one of many runs', () => {
    expect(judgedOf(job, [madeTrial(), madeTrial({ missedTheta: 0.2 })])).toMatchObject({ isSafe: true });
    const dry = judgedOf(job, [madeTrial(), madeTrial({ missedTheta: 0.1999 }), madeTrial()]);
    expect(dry).toMatchObject({ isSafe: false, failing: 1 });
    expect(dry.marginLeast).toBeCloseTo(-0.0001, 9);
  });

  it('is not safe where a bench falls below without any miss', () => {
    expect(judgedOf(job, [madeTrial({ lowestTheta: 0.1, missedTheta: Infinity })]).isSafe).toBe(false);
  });

  it('with a flood lost already is judged without a second miss', () => {
    const lost = { ...job, lostMinuteOfDay: 120 };
    expect(judgedOf(lost, [madeTrial({ missedTheta: 0.05 })]).isSafe).toBe(true);
    expect(judgedOf(lost, [madeTrial({ lowestTheta: 0.15 })]).isSafe).toBe(false);
  });

  it('counts the runs in which the rest of the day is short, which do not make it unsafe', () => {
    const judged = judgedOf(job, [madeTrial({ elsewhereTheta: 0.1 }), madeTrial()]);
    expect(judged).toMatchObject({ failingElsewhere: 1, isSafe: true });
  });

  it('of a pump of 250 W takes 1 kWh in 4 h', () => {
    expect(kilowattHours(job.farm, 240)).toBeCloseTo(1, 12);
  });
});

describe('the rows shown', () => {
  it('are three before the smallest safe plan, it, and four after', () => {
    const rows = shown(job, candidates, candidates[4]!).map(({ place }) => place);
    expect(rows).toEqual([1, 2, 3, 4, 5, 6, 7, 8]);
  });

  it('are the eight dearest where none is safe', () => {
    expect(shown(job, candidates, null).map(({ place }) => place)).toEqual([2, 3, 4, 5, 6, 7, 8, 9]);
  });

  it('hold of each number the shortest floods that look safe, or else the longest', () => {
    const lengths = jobOf([3, 10], [3, 20], [3, 30], [2, 10], [2, 20]);
    const of = [
      madeCandidate(3, 15, 0.05, 150),
      madeCandidate(4, 15, 0.15, 300),
      madeCandidate(0, 16, 0.1, 160),
      madeCandidate(1, 16, 0.3, 320),
      madeCandidate(2, 16, 0.4, 480),
    ];
    expect(shown(lengths, of, null).map(({ place }) => place)).toEqual([4, 1]);
  });

  it('hold one of plans that a bound has made the same: the one that names the most floods', () => {
    const same = [madeCandidate(0, 15), madeCandidate(1, 15), madeCandidate(2, 16)];
    expect(shown(job, same, null).map(({ place }) => place)).toEqual([1, 2]);
  });
});
