import { describe, expect, it } from 'vitest';
import {
  changeTo,
  countSettings,
  farmWith as planned,
  partSettings,
  presentSetting,
  settingsOf,
  type Ranges,
} from '../../../firmware-host/tune/setting.ts';
import { exampleFarm } from '../../support/farm.ts';
import { byNumber, byRest, HEAT, NIGHT, settingOf } from '../../support/tune-jobs.ts';

const RANGES: Ranges = {
  floods: { least: 1, most: 4 },
  floodMinutes: { least: 10, most: 20, step: 5 },
  restMinutes: { least: 30, most: 40, step: 5 },
  restPercents: [],
};

describe('the plans to try', () => {
  it('of a part are each number with each length, the present ones among them though out of range', () => {
    const night = exampleFarm.dayPlan[NIGHT]!;
    expect(partSettings(night, RANGES)).toHaveLength(4 * 3);
    const rests = partSettings(exampleFarm.dayPlan[HEAT]!, RANGES).map(({ pace }) =>
      pace.kind === 'rest' ? pace.restMinutes : NaN,
    );
    expect([...new Set(rests)]).toEqual([25, 30, 35, 40]);
  });

  it('of two parts and two rules are all with all, each once, as many as are counted', () => {
    const ranges = { ...RANGES, restPercents: [-5, 0] };
    const settings = settingsOf(exampleFarm, [HEAT, NIGHT], ranges);
    expect(settings).toHaveLength(12 * 12 * 2);
    expect(countSettings(exampleFarm, [HEAT, NIGHT], ranges)).toBe(settings.length);
    expect(new Set(settings.map((each) => JSON.stringify(each))).size).toBe(settings.length);
    expect(settings.every(({ parts }) => parts[0] === null && parts[2] === null)).toBe(true);
  });

  it('change the farm where they are set and nowhere else', () => {
    const farm = planned(exampleFarm, settingOf({ [NIGHT]: byNumber(7, 12) }));
    expect(farm.dayPlan[NIGHT]).toEqual({ ...exampleFarm.dayPlan[NIGHT], ...byNumber(7, 12) });
    expect({ ...farm, dayPlan: farm.dayPlan.slice(0, NIGHT) }).toEqual({
      ...exampleFarm,
      dayPlan: exampleFarm.dayPlan.slice(0, NIGHT),
    });
  });
});

describe('the change to the farm file', () => {
  it('is none for the plan as it stands', () => {
    const present = presentSetting(exampleFarm, [HEAT, NIGHT]);
    expect(changeTo(exampleFarm, present)).toEqual({ parts: [] });
    const rule = exampleFarm.temperatureRule.restPercentPerDegree;
    expect(changeTo(exampleFarm, { ...present, restPercentPerDegree: rule })).toEqual({ parts: [] });
  });

  it('names only what is another', () => {
    const setting = {
      ...settingOf({ [HEAT]: byRest(25, 15), [NIGHT]: byNumber(5, 20) }),
      restPercentPerDegree: -2,
    };
    expect(changeTo(exampleFarm, setting)).toEqual({
      parts: [
        { part: 'heat of the day', floodMinutes: 15 },
        { part: 'night', floods: 5 },
      ],
      restPercentPerDegree: -2,
    });
  });
});
