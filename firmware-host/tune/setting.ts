import type { DayPart, Farm } from '../../src/farm/farm.ts';
import { itemAt } from '../../src/units/assertion.ts';
import type { PartChange, PlanChange } from '../farm-file/plan-change.ts';

/** What a plan gives in one day part: floods by number, or by the rest between them. */
export interface PartSetting {
  readonly floodMinutes: number;
  readonly pace: DayPart['pace'];
}

/** One plan to try. */
export interface PlanSetting {
  /** By place of the day part; null leaves it as it is. */
  readonly parts: readonly (PartSetting | null)[];
  /** Of the temperature rule; null leaves it as it is. */
  readonly restPercentPerDegree: number | null;
}

/** The farm with the plan of a setting. */
export const farmWith = (farm: Farm, { parts, restPercentPerDegree }: PlanSetting): Farm => ({
  ...farm,
  dayPlan: farm.dayPlan.map((part, place) => ({ ...part, ...parts[place] })),
  temperatureRule:
    restPercentPerDegree === null ? farm.temperatureRule : { ...farm.temperatureRule, restPercentPerDegree },
});

/** The plan as it stands in the farm file. */
export const presentSetting = (farm: Farm, tuned: readonly number[]): PlanSetting => ({
  parts: farm.dayPlan.map(({ floodMinutes, pace }, place) =>
    tuned.includes(place) ? { floodMinutes, pace } : null,
  ),
  restPercentPerDegree: null,
});

/** Whole numbers from `least` to `most`, so far apart, with `present` always among them. */
const steps = (least: number, most: number, step: number, present: number): readonly number[] => {
  const values = [];
  for (let value = least; value <= most + 1e-9; value += step) values.push(value);
  return [...new Set([...values, present])].toSorted((a, b) => a - b);
};

/** What may be tried. */
export interface Ranges {
  readonly floods: { readonly least: number; readonly most: number };
  readonly floodMinutes: { readonly least: number; readonly most: number; readonly step: number };
  /** For a part that is paced by its rest. */
  readonly restMinutes: { readonly least: number; readonly most: number; readonly step: number };
  /** Empty leaves the rule as it is. */
  readonly restPercents: readonly number[];
}

/** What is tried of one day part. */
export const partSettings = (part: DayPart, ranges: Ranges): readonly PartSetting[] => {
  const { floods, floodMinutes: minutes, restMinutes: rest } = ranges;
  const paces: readonly DayPart['pace'][] =
    part.pace.kind === 'number'
      ? steps(floods.least, floods.most, 1, part.pace.floods).map((count) => ({
          kind: 'number',
          floods: count,
        }))
      : steps(rest.least, rest.most, rest.step, part.pace.restMinutes).map((restMinutes) => ({
          kind: 'rest',
          restMinutes,
        }));
  return paces.flatMap((pace) =>
    steps(minutes.least, minutes.most, minutes.step, part.floodMinutes).map((floodMinutes) => ({
      floodMinutes,
      pace,
    })),
  );
};

/** How many plans there are to try. */
export const countSettings = (farm: Farm, tuned: readonly number[], ranges: Ranges): number =>
  tuned.reduce(
    (product, place) => product * partSettings(itemAt(farm.dayPlan, place), ranges).length,
    Math.max(1, ranges.restPercents.length),
  );

/** Every plan to try: all settings of each tuned part, with each other and with each temperature rule. */
export const settingsOf = (farm: Farm, tuned: readonly number[], ranges: Ranges): readonly PlanSetting[] => {
  const rules = ranges.restPercents.length === 0 ? [null] : ranges.restPercents;
  let plans: readonly (readonly (PartSetting | null)[])[] = [farm.dayPlan.map(() => null)];
  for (const place of tuned) {
    const settings = partSettings(itemAt(farm.dayPlan, place), ranges);
    plans = plans.flatMap((plan) => settings.map((setting) => plan.with(place, setting)));
  }
  return plans.flatMap((parts) => rules.map((restPercentPerDegree) => ({ parts, restPercentPerDegree })));
};

const partChange = (part: DayPart, setting: PartSetting): PartChange | null => {
  const { pace, floodMinutes } = setting;
  const isSamePace = JSON.stringify(pace) === JSON.stringify(part.pace);
  if (isSamePace && floodMinutes === part.floodMinutes) return null;
  return {
    part: part.name,
    ...(isSamePace
      ? {}
      : pace.kind === 'number'
        ? { floods: pace.floods }
        : { restMinutes: pace.restMinutes }),
    ...(floodMinutes === part.floodMinutes ? {} : { floodMinutes }),
  };
};

/** What must change in the farm file for this plan. */
export const changeTo = (farm: Farm, { parts, restPercentPerDegree: percent }: PlanSetting): PlanChange => ({
  parts: farm.dayPlan.flatMap((part, place) => {
    const setting = parts[place] ?? null;
    return setting === null ? [] : (partChange(part, setting) ?? []);
  }),
  ...(percent === null || percent === farm.temperatureRule.restPercentPerDegree
    ? {}
    : { restPercentPerDegree: percent }),
});
