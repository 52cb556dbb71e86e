import { describe, expect, it } from 'vitest';
import {
  lostFrom,
  pumpShareFrom,
  replantedFarm,
  settingsFrom,
  tunedParts,
  type TuneRangeOptions,
} from '../../../firmware-host/cli/tune-options.ts';
import { exampleFarm, farmWith } from '../../support/farm.ts';
import { byNumber, DATE, HEAT, NIGHT, settingOf } from '../../support/tune-jobs.ts';
import { expectRefusal } from './refused.ts';

const NIGHT_PART = [NIGHT];
const HEAT_PART = [HEAT];

describe('the parts to tune', () => {
  it('are taken by their names, each once, in the order of the plan; or all', () => {
    expect(tunedParts(exampleFarm, ['night', 'heat of the day', 'night'])).toEqual([HEAT, NIGHT]);
    expect(tunedParts(exampleFarm, ['all'])).toEqual([0, 1, 2, 3]);
  });

  it.each([[undefined], [[]], [['evening']], [['Night']], [['night', '']]])('are refused for %j', (asked) => {
    expectRefusal(
      () => tunedParts(exampleFarm, asked),
      ['--part: ', '"early morning", "heat of the day", "late afternoon", "night" or all'],
    );
  });
});

describe('the plans that are asked for', () => {
  it('are every one of the ranges, the present one last and once', () => {
    const settings = settingsFrom(exampleFarm, NIGHT_PART, { floods: '2-4', minutes: '15-20:5' });
    expect(settings).toHaveLength(6);
    expect(settings.at(-1)).toEqual(settingOf({ [NIGHT]: byNumber(3, 20) }));
    expect(new Set(settings.map((each) => JSON.stringify(each))).size).toBe(6);
  });

  it('without ranges are 1 to 12 floods of 10 to 35 min by 5', () => {
    expect(settingsFrom(exampleFarm, NIGHT_PART, {})).toHaveLength(12 * 6);
  });

  const bad: readonly (readonly [readonly number[], TuneRangeOptions, readonly string[]])[] = [
    [NIGHT_PART, { floods: '0-3' }, ['--floods', '"0-3"', '1 to 48']],
    [NIGHT_PART, { floods: '1-49' }, ['--floods', '"1-49"', '1 to 48']],
    [NIGHT_PART, { floods: '5-3' }, ['--floods', '"5-3"']],
    [NIGHT_PART, { floods: '3-5:0' }, ['--floods', '"3-5:0"']],
    [NIGHT_PART, { floods: '' }, ['--floods', '""']],
    [NIGHT_PART, { floods: '-3' }, ['--floods', '"-3"']],
    [NIGHT_PART, { floods: 'NaN' }, ['--floods', '"NaN"']],
    [NIGHT_PART, { floods: '1e1' }, ['--floods', '"1e1"']],
    [NIGHT_PART, { floods: '2.5' }, ['--floods', '"2.5"', 'whole']],
    [NIGHT_PART, { floods: '2-6:2' }, ['--floods', '"2-6:2"']],
    [NIGHT_PART, { minutes: '9' }, ['--minutes', '"9"', '10 to 35']],
    [NIGHT_PART, { minutes: '10-36' }, ['--minutes', '"10-36"', '10 to 35']],
    [NIGHT_PART, { minutes: '10-20:-5' }, ['--minutes', '"10-20:-5"']],
    [HEAT_PART, { rests: '9-40' }, ['--rests', '"9-40"', '10 to 210']],
    [HEAT_PART, { floods: '1-3' }, ['--floods', '--rests']],
    [NIGHT_PART, { rests: '20-40' }, ['--rests', '--floods']],
    [NIGHT_PART, { rule: '-21' }, ['--rule', '-20', '0']],
    [NIGHT_PART, { rule: '1' }, ['--rule', '-20', '0']],
    [NIGHT_PART, { rule: '-3,' }, ['--rule']],
    [NIGHT_PART, { rule: 'hot' }, ['--rule', 'hot']],
    [[0, 1, 2, 3], { floods: '1-48' }, ['plans; allowed are 100000', '--part']],
    [NIGHT_PART, { minutes: '10-35:0.0000001' }, ['--minutes', 'the step']],
  ];

  it.each(bad)('of parts %j are refused for %j', (tuned, options, says) => {
    expectRefusal(() => settingsFrom(exampleFarm, tuned, options), says);
  });
});

describe('the worlds that are asked for', () => {
  it('are a weaker pump, a bench sown on the day, and a lost flood', () => {
    expect(pumpShareFrom(undefined)).toBe(1);
    expect(pumpShareFrom('30')).toBeCloseTo(0.7, 12);
    expect(lostFrom(undefined)).toBe(null);
    expect(lostFrom('02:30')).toBe(150);
    const { benches } = replantedFarm(exampleFarm, ['Bench 2'], DATE);
    expect(benches.map(({ sown }) => sown === DATE)).toEqual([false, true, false, false]);
  });

  it('sows anew what stands there on that day, and lets come what comes later', () => {
    const comes = { on: '2026-07-01', crop: 'basil', sown: '2026-06-10', plants: 280 };
    const farm = farmWith([
      ['benches', 1, 'next'],
      [comes, { on: '2026-07-17' }],
    ]);
    const bench = replantedFarm(farm, ['Bench 2'], DATE).benches[1]!;
    expect(bench).toMatchObject({ crop: 'basil', plants: 280, sown: DATE });
    expect(bench.next.map(({ on }) => on)).toEqual(['2026-07-17']);
  });

  it.each([
    [() => pumpShareFrom('91'), ['--weaker-pump', '91', '90']],
    [() => pumpShareFrom('-1'), ['--weaker-pump']],
    [() => pumpShareFrom('much'), ['--weaker-pump', 'much']],
    [() => lostFrom('24:00'), ['--lost', '24:00']],
    [() => lostFrom('2'), ['--lost']],
    [() => replantedFarm(exampleFarm, ['Bench 9'], DATE), ['--replanted', '"Bench 9"', '"Bench 1"']],
  ] as const)('are refused by what, where and what is allowed: %s', (call, says) => {
    expectRefusal(call, says);
  });
});
