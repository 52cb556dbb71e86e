import { describe, expect, it } from 'vitest';
import { UNCHANGED, type WeatherSource } from '../../../firmware-host/simulated-shed.ts';
import { openTrials, type TuneJob } from '../../../firmware-host/tune/trials.ts';
import { QUICK_ROOM } from '../../../firmware-host/tune/tune-job.ts';
import { seededDice } from '../../../sim/dice.ts';
import {
  anyShedOf,
  byNumber,
  byRest,
  HEAT,
  jobWith,
  NIGHT,
  settingOf,
  wholeFrom,
  type ShedKind,
} from '../../support/tune-jobs.ts';

const HOT = { minCelsius: 21, maxCelsius: 36, humidityPercent: 45 };
const MILD = { minCelsius: 14, maxCelsius: 25, humidityPercent: 65 };
const VALVE = { floatValveAtLitres: 500, litresPerMinute: 10 };
const GROWN: ShedKind = { ageDays: [25, 50], startedInPlace: false, hotDay: HOT, topUp: VALVE };
const DRAWN: WeatherSource = {
  kind: 'drawn-days',
  climate: {
    monthly: Array.from({ length: 12 }, () => ({ minCelsius: 18, maxCelsius: 31, humidityPercent: 55 })),
    spreadCelsius: 3,
    site: 'inland',
  },
  seed: 4,
};

const KINDS: Readonly<Record<string, readonly [kind: ShedKind, job: Partial<TuneJob>]>> = {
  'grown crops on a hot day': [GROWN, {}],
  'grown crops on a mild day': [{ ...GROWN, hotDay: MILD }, {}],
  'grown crops 5 °C hotter, the tank filled by hand': [
    { ...GROWN, topUp: 'by-hand' },
    { changes: { ...UNCHANGED, hotterCelsius: 5 } },
  ],
  'grown crops on drawn days': [GROWN, { source: DRAWN }],
  'a pump that gives two fifths': [{ ...GROWN, ageDays: [20, 50] }, { pumpShare: 0.4 }],
  'grown crops that are cut and replanted between two hot days': [
    { ...GROWN, replantedAfterDays: 1 },
    { days: 2 },
  ],
  'seedlings started in place on a hot day': [{ ...GROWN, startedInPlace: true, ageDays: [0, 12] }, {}],
  'crops started in place on a mild day': [
    { ...GROWN, startedInPlace: true, ageDays: [0, 30], hotDay: MILD },
    {},
  ],
};
const FARMS = 4;
const PLANS = 5;
const DRAWS = 3;
/** The wilt floor stands at 0.2. */
const NEAR_FLOOR = { least: 0.1, most: 0.35 } as const;

interface Pair {
  readonly quick: number;
  readonly whole: number;
}

/** Lowest and missed θ of the driest bench, for every plan and run of a kind. */
const pairsOf = ([kind, change]: readonly [ShedKind, Partial<TuneJob>]): readonly Pair[] => {
  const dice = seededDice(7);
  const found: Pair[] = [];
  for (let shed = 0; shed < FARMS; shed += 1) {
    const tuned = shed % 2 === 0 ? [NIGHT] : [HEAT, NIGHT];
    const trials = openTrials(
      jobWith({ ...change, farm: anyShedOf(dice, kind), draws: DRAWS, seed: 10 + shed, tuned }),
    );
    for (let plan = 0; plan < PLANS; plan += 1) {
      const setting = settingOf({
        [NIGHT]: byNumber(wholeFrom(dice, 1, 8), wholeFrom(dice, 5, 35)),
        ...(tuned.length > 1 ? { [HEAT]: byRest(wholeFrom(dice, 10, 60), wholeFrom(dice, 5, 35)) } : {}),
      });
      const verdicts = trials.everyPair(setting);
      const benches = verdicts.length / trials.runs;
      for (let run = 0; run < trials.runs; run += 1) {
        const own = verdicts.slice(run * benches, (run + 1) * benches);
        const whole = trials.whole(setting, run, { traced: false });
        for (const figure of ['lowestTheta', 'missedTheta'] as const)
          found.push({ quick: Math.min(...own.map((each) => each[figure])), whole: whole[figure] });
      }
    }
  }
  return found;
};

const largest = (pairs: readonly Pair[]): number =>
  Math.max(...pairs.map(({ quick, whole }) => Math.abs(quick - whole)));

describe('the quick judgement against the whole model, 80 pairs of plan and draw for each of', () => {
  const all: Pair[] = [];

  it.each(Object.entries(KINDS))('%s: lowest and missed θ within the room it is given', (_, kind) => {
    const pairs = pairsOf(kind);
    all.push(...pairs);
    expect(pairs).toHaveLength(2 * FARMS * PLANS * (DRAWS + 1));
    expect(largest(pairs)).toBeLessThan(QUICK_ROOM);
  });

  it('all of them: by less than a point on average, and by less than half a point near the wilt floor', () => {
    expect(all.length).toBeGreaterThan(600);
    const sum = all.reduce((total, { quick, whole }) => total + Math.abs(quick - whole), 0);
    const near = all.filter(({ whole }) => whole > NEAR_FLOOR.least && whole < NEAR_FLOOR.most);
    const nearSum = near.reduce((total, { quick, whole }) => total + Math.abs(quick - whole), 0);
    expect(sum / all.length).toBeLessThan(0.01);
    expect(near.length).toBeGreaterThan(60);
    expect(nearSum / near.length).toBeLessThan(0.005);
  });
});
