import { beforeAll, describe, expect, it } from 'vitest';
import { candidatesOf, cheaper, cheapestSafe, type Candidate } from '../../firmware-host/tune/search.ts';
import { decidingTheta, openTune, QUICK_ROOM, type SettingsJob } from '../../firmware-host/tune/tune-job.ts';
import { openTrials } from '../../firmware-host/tune/trials.ts';
import { seededDice } from '../../sim/dice.ts';
import { farmWith } from '../support/farm.ts';
import { byNumber, byRest, HEAT, jobWith, NIGHT, settingOf, wholeFrom } from '../support/tune-jobs.ts';

const PLANS = 300;
const FARM = farmWith([
  ['tank'],
  { litres: 900, usualLitres: 800, dryLitres: 60, topUp: { floatValveAtLitres: 500, litresPerMinute: 10 } },
]);
const { wilt } = FARM.floors;
const { startsPerHour } = FARM.bounds;

/** Of both parts anything from far too little to more than is needed, thinly and thickly. */
const plansBy = (dice: () => number): SettingsJob['settings'] =>
  Array.from({ length: PLANS }, (_, place) =>
    place % 3 === 0
      ? settingOf({
          [NIGHT]: byNumber(wholeFrom(dice, 2, 12), wholeFrom(dice, 10, 35)),
          [HEAT]: byRest(wholeFrom(dice, 10, 45), 5 * wholeFrom(dice, 2, 7)),
        })
      : settingOf({
          [NIGHT]: byNumber(wholeFrom(dice, 2, 6), 5 * wholeFrom(dice, 2, 7)),
          [HEAT]: byRest(5 * wholeFrom(dice, 3, 12), wholeFrom(dice, 10, 35)),
        }),
  );

const job = jobWith({
  farm: FARM,
  draws: 3,
  // Draws under which some of the plans hold, and not all.
  seed: 11,
  tuned: [HEAT, NIGHT],
  settings: plansBy(seededDice(3)),
});

const searching = {
  job,
  startsPerHour,
  progress: (): void => undefined,
  signal: new AbortController().signal,
};

describe('300 random plans for the night and the heat of the day, in four runs each', () => {
  const trials = openTrials(job);
  const allowed = job.settings
    .map((setting, place): Candidate => ({ place, cost: trials.cost(setting), quickTheta: NaN }))
    .filter(({ cost }) => cost.startsAnHourMost <= startsPerHour)
    .toSorted(cheaper);
  /** The driest of all runs of the whole model, of every plan. */
  let driest: readonly number[] = [];
  let safe: readonly Candidate[] = [];

  beforeAll(() => {
    driest = job.settings.map((setting) =>
      Math.min(
        ...Array.from({ length: trials.runs }, (_, run) =>
          decidingTheta(trials.whole(setting, run, { traced: false }), job),
        ),
      ),
    );
    safe = allowed.filter(({ place }) => driest[place]! >= wilt);
  }, 240_000);

  it('hold some that are safe, more than one of which any could be the smallest, and cheaper ones that are not', () => {
    expect(safe.length).toBeGreaterThan(20);
    expect(allowed.indexOf(safe[0]!)).toBeGreaterThan(20);
    expect(allowed.length).toBeLessThanOrEqual(PLANS);
  });

  it('are searched for the very plan that the whole model finds cheapest of the safe ones, every plan in every run', async () => {
    const candidates = await candidatesOf(searching);
    expect(candidates.map(({ place }) => place)).toEqual(allowed.map(({ place }) => place));
    const found = await cheapestSafe(searching, candidates);
    expect(found?.place).toBe(safe[0]!.place);
    // What the quick judgement of the pairs that it keeps throws away is not safe.
    const thrown = candidates.filter(({ quickTheta }) => quickTheta < wilt - QUICK_ROOM);
    expect(thrown.length).toBeGreaterThan(20);
    expect(thrown.filter(({ place }) => driest[place]! >= wilt)).toEqual([]);
  });
});

describe('more draws', () => {
  it('never make a plan safe that fewer show to be unsafe: 4, 8 and 16 on 20 of the plans', () => {
    const settings = job.settings.filter((_, place) => place % 15 === 1);
    const isSafe = [4, 8, 16].map((draws) => {
      const work = openTune({ ...job, draws, settings });
      return settings.map((_, place) => {
        const result = work({ kind: 'check', place });
        return result.kind === 'check' && result.isSafe;
      });
    });
    const [four, eight, sixteen] = isSafe as [boolean[], boolean[], boolean[]];
    for (const place of settings.keys()) {
      if (!four[place]!) expect(eight[place]).toBe(false);
      if (!eight[place]!) expect(sixteen[place]).toBe(false);
    }
    expect(four).toContain(true);
    expect(four).toContain(false);
  });
});
