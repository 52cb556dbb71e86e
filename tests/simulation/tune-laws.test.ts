import { describe, expect, it } from 'vitest';
import { UNCHANGED } from '../../firmware-host/simulated-shed.ts';
import { openTrials, type TuneJob } from '../../firmware-host/tune/trials.ts';
import { decidingTheta } from '../../firmware-host/tune/tune-job.ts';
import type { PlanSetting } from '../../firmware-host/tune/setting.ts';
import { farmWith, type Change } from '../support/farm.ts';
import { byNumber, jobWith, NIGHT, settingOf } from '../support/tune-jobs.ts';

const NO_RULE: Change = [['temperatureRule'], { referenceCelsius: 25, restPercentPerDegree: 0 }];
const TANK: Change = [
  ['tank'],
  {
    litres: 2000,
    usualLitres: 1900,
    dryLitres: 60,
    topUp: { floatValveAtLitres: 1500, litresPerMinute: 10 },
  },
];
const PLANS = [1, 3, 8].flatMap((floods) =>
  [10, 20, 35].map((minutes) => settingOf({ [NIGHT]: byNumber(floods, minutes) })),
);

/** Of each run, the θ on which the verdict stands. */
const thetasOf = (job: TuneJob, setting: PlanSetting): readonly number[] => {
  const trials = openTrials(job);
  return Array.from({ length: trials.runs }, (_, run) =>
    decidingTheta(trials.whole(setting, run, { traced: false }), job),
  );
};

describe('a plan whose floods do not hang on the temperature', () => {
  // So that a hotter night never needs fewer floods: what is safe then is safe on a cooler one.
  it('leaves no more water in any run when all is 3 and 6 °C hotter: 9 plans, 3 runs', () => {
    const farm = farmWith(NO_RULE, TANK);
    for (const [place, setting] of PLANS.entries()) {
      const [usual, hotter, hottest] = [0, 3, 6].map((hotterCelsius) =>
        thetasOf(jobWith({ farm, draws: 2, changes: { ...UNCHANGED, hotterCelsius } }), setting),
      );
      for (const run of usual!.keys()) {
        expect(hotter![run]!, `plan ${place} run ${run}`).toBeLessThanOrEqual(usual![run]! + 1e-6);
        expect(hottest![run]!, `plan ${place} run ${run}`).toBeLessThanOrEqual(hotter![run]! + 1e-6);
      }
    }
  });
});

describe('a shorter longest rest by night', () => {
  // No law: the floods after a shortened rest come at other hours, and the one that is worst to miss may then stand before a longer or a hotter
  // rest. So the search runs every plan and infers none from its neighbour.
  it('may lower the margin with one flood missed, by 2 points from 210 to 150 min, and raise it by more than 5 elsewhere: 9 plans, 3 runs', () => {
    const found = [210, 150, 90].map((longest) => {
      const farm = farmWith(NO_RULE, TANK, [['bounds', 'restMinutesByNight'], { shortest: 20, longest }]);
      return PLANS.map((setting) => thetasOf(jobWith({ farm, draws: 2 }), setting));
    });
    const gains = PLANS.flatMap((_, place) =>
      [1, 2].flatMap((at) => [0, 1, 2].map((run) => found[at]![place]![run]! - found[at - 1]![place]![run]!)),
    );
    expect(found[1]![1]![0]! - found[0]![1]![0]!).toBeLessThan(-0.015);
    expect(Math.max(...gains)).toBeGreaterThan(0.05);
  });
});
