import type { Farm } from '../../src/farm/farm.ts';
import type { Band, Hold } from '../simulated-shed.ts';
import type { Choice } from '../tune/choices.ts';
import { planHolds } from './tune-holds.ts';
import type { PlanSetting } from '../tune/setting.ts';
import type { Tuned } from '../tune/tuned.ts';
import { rounded } from './rehearsal.ts';
import type { Asked } from './tune-text.ts';

const bandJson = ({ low, middle, high }: Band, factor: number, digits: number): Band => ({
  low: rounded(low * factor, digits),
  middle: rounded(middle * factor, digits),
  high: rounded(high * factor, digits),
});

const settingJson = (farm: Farm, { parts, restPercentPerDegree }: PlanSetting): object => ({
  parts: parts.flatMap((part, place) =>
    part === null
      ? []
      : [
          {
            part: farm.dayPlan[place]?.name ?? '',
            ...(part.pace.kind === 'number'
              ? { floods: part.pace.floods }
              : { restMinutes: part.pace.restMinutes }),
            floodMinutes: part.floodMinutes,
          },
        ],
  ),
  restPercentPerDegree,
});

const choiceJson = (farm: Farm, choice: Choice): object => {
  const { cost } = choice.candidate;
  const { judged } = choice;
  return {
    ...settingJson(farm, choice.setting),
    floodsADay: rounded(cost.floods, 2),
    startsADay: rounded(cost.startsADay, 2),
    pumpHoursADay: rounded(cost.pumpMinutesADay / 60, 2),
    kilowattHoursADay: rounded(choice.kilowattHoursADay, 3),
    longestRestMinutes: rounded(cost.longestRestMinutes, 1),
    judged:
      judged === null
        ? null
        : {
            safe: judged.isSafe,
            failingRuns: judged.failing,
            runs: judged.trials.length,
            lowestHeldPercent: bandJson(judged.lowestTheta, 100, 1),
            oneMissMarginPoints: bandJson(judged.margin, 100, 1),
            oneMissMarginPointsWorst: rounded(judged.marginLeast * 100, 1),
            lowestOxygenMilligramsPerLitre: bandJson(judged.lowestOxygen, 1, 2),
            warmestWaterCelsius: bandJson(judged.warmestCelsius, 1, 1),
          },
  };
};

const holdsJson = ({ margin, oxygen }: ReturnType<typeof planHolds>): object => {
  const named = (holds: readonly Hold[]): readonly object[] =>
    holds.map(({ judgement, rank }) => ({ judgement, rank: rounded(rank, 2) }));
  return { margin: named(margin), oxygen: named(oxygen) };
};

export const tunedJson = ({ farm, job, weather, weeks, diff }: Asked, found: Tuned): object => ({
  farm: farm.farm,
  invented: farm.invented !== undefined,
  date: job.date,
  days: job.days,
  weather,
  seed: job.seed,
  draws: job.draws,
  parts: job.tuned.map((place) => farm.dayPlan[place]?.name ?? ''),
  pumpShare: job.pumpShare,
  lostMinuteOfDay: job.lostMinuteOfDay,
  choices: found.choices.map((choice) => choiceJson(farm, choice)),
  smallest: found.smallest === null ? null : choiceJson(farm, found.smallest),
  present: found.present === null ? null : choiceJson(farm, found.present),
  limit: found.limit,
  hangsOn: found.smallest?.judged == null ? null : holdsJson(planHolds(job, found.smallest.judged)),
  weeks: weeks.map(({ date, setting, floods }) => ({
    date,
    smallest:
      setting === null ? null : { ...settingJson(farm, setting), floodsADay: rounded(floods ?? 0, 2) },
  })),
  plansTried: found.tried,
  plans: found.plans,
  stopped: found.wasStopped,
  diff,
});
