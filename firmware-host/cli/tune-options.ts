import type { Bench, Farm } from '../../src/farm/farm.ts';
import { standingOn } from '../../src/farm/standing.ts';
import { itemAt } from '../../src/units/assertion.ts';
import { countSettings, presentSetting, settingsOf, type PlanSetting, type Ranges } from '../tune/setting.ts';
import { EXIT } from './exit-code.ts';
import { Refusal } from './refusal.ts';
import { minuteOfDay, numberWithin } from './times.ts';

/** What may be asked of a search besides weather, dates and draws. */
export interface TuneRangeOptions {
  readonly part?: readonly string[];
  readonly floods?: string;
  readonly minutes?: string;
  readonly rests?: string;
  readonly rule?: string;
}

/** Worlds other than the one of the farm file. */
export interface WhatIfOptions {
  readonly weakerPump?: string;
  readonly replanted?: readonly string[];
  readonly lost?: string;
}

const FLOODS = { least: 1, most: 48 } as const;
const FLOODS_DEFAULT = '1-12';
const STEP_MINUTES = 5;
/** Of minutes: finer is nobody's clock, and would be more plans than fit. */
const STEP_LEAST = 0.1;
/** As the farm file allows: hotter air never makes a rest longer. */
const RULE = { least: -20, most: 0 } as const;
/** More would take longer than anybody waits. */
const PLANS_MAX = 100_000;

const RANGE = /^(\d+(?:\.\d+)?)(?:-(\d+(?:\.\d+)?))?(?::(\d+(?:\.\d+)?))?$/;

interface Range {
  readonly least: number;
  readonly most: number;
  readonly step: number;
}

/** `3`, `1-8` or `10-35:2.5`. @throws Refusal */
const rangeFrom = (text: string, option: string, bounds: Range): Range => {
  const [, low, high = low, apart = String(bounds.step)] = RANGE.exec(text) ?? [];
  const [least, most, step] = [Number(low), Number(high), Number(apart)];
  if (!(least >= bounds.least && most <= bounds.most && least <= most && step >= STEP_LEAST)) {
    throw new Refusal(
      `${option}: found "${text}"; allowed is a number or a range within ${bounds.least} to ${bounds.most}, and after a colon the step, such as ${bounds.least}-${bounds.most}:${bounds.step}.`,
      EXIT.usage,
    );
  }
  return { least, most, step };
};

/** Places of the day parts named; all of them for `all`. @throws Refusal */
export const tunedParts = (farm: Farm, asked: readonly string[] | undefined): readonly number[] => {
  const names = farm.dayPlan.map(({ name }) => name);
  const allowed = `allowed is ${names.map((name) => `"${name}"`).join(', ')} or all`;
  if (asked === undefined || asked.length === 0)
    throw new Refusal(`--part: none is named; ${allowed}.`, EXIT.usage);
  if (asked.includes('all')) return names.map((_, place) => place);
  return asked
    .map((name) => {
      const place = names.indexOf(name);
      if (place < 0) throw new Refusal(`--part: found "${name}"; ${allowed}.`, EXIT.usage);
      return place;
    })
    .filter((place, index, all) => all.indexOf(place) === index)
    .toSorted((a, b) => a - b);
};

/** Floods come whole, and every number is tried. @throws Refusal */
const floodsFrom = (text: string): Range => {
  if (!/^\d+(?:-\d+)?$/.test(text)) {
    throw new Refusal(
      `--floods: found "${text}"; allowed is a whole number or a range of them within ${FLOODS.least} to ${FLOODS.most}, such as 1-8.`,
      EXIT.usage,
    );
  }
  return rangeFrom(text, '--floods', { ...FLOODS, step: 1 });
};

const percentsFrom = (text: string | undefined): readonly number[] =>
  text === undefined
    ? []
    : text.split(',').map((each) => numberWithin(each.trim(), '--rule', RULE.least, RULE.most));

const rangesFrom = (farm: Farm, tuned: readonly number[], options: TuneRangeOptions): Ranges => {
  const { bounds, pump } = farm;
  const minutes = {
    least: bounds.floodMinutes.shortest,
    most: Math.min(bounds.floodMinutes.longest, pump.longestOnMinutes),
    step: STEP_MINUTES,
  };
  const rest = {
    least: Math.min(bounds.restMinutesByDay.shortest, bounds.restMinutesByNight.shortest),
    most: Math.max(bounds.restMinutesByDay.longest, bounds.restMinutesByNight.longest),
    step: STEP_MINUTES,
  };
  const kinds = tuned.map((place) => itemAt(farm.dayPlan, place).pace.kind);
  for (const [option, kind, name] of [
    [options.floods, 'number', '--floods'],
    [options.rests, 'rest', '--rests'],
  ] as const)
    if (option !== undefined && !kinds.includes(kind))
      throw new Refusal(
        `${name}: no part that is tuned is paced so; ${kind === 'number' ? 'its plan names restMinutes: ask with --rests' : 'its plan names floods: ask with --floods'}.`,
        EXIT.usage,
      );
  return {
    floods: floodsFrom(options.floods ?? FLOODS_DEFAULT),
    floodMinutes: options.minutes === undefined ? minutes : rangeFrom(options.minutes, '--minutes', minutes),
    restMinutes: options.rests === undefined ? rest : rangeFrom(options.rests, '--rests', rest),
    restPercents: percentsFrom(options.rule),
  };
};

/** Every plan to try, the present one last. @throws Refusal */
export const settingsFrom = (
  farm: Farm,
  tuned: readonly number[],
  options: TuneRangeOptions,
): readonly PlanSetting[] => {
  const ranges = rangesFrom(farm, tuned, options);
  const count = countSettings(farm, tuned, ranges);
  if (count > PLANS_MAX) {
    throw new Refusal(
      `these are ${count} plans; allowed are ${PLANS_MAX}: name fewer parts with --part, or narrower ranges with --floods, --minutes and --rests.`,
      EXIT.usage,
    );
  }
  const present = presentSetting(farm, tuned);
  const isPresent = JSON.stringify(present);
  return [
    ...settingsOf(farm, tuned, ranges).filter((setting) => JSON.stringify(setting) !== isPresent),
    present,
  ];
};

/** What stands there on the date, sown on it; what comes later still comes. */
const replantedOn = (bench: Bench, date: string): Bench => {
  const { crop, traits, plants, startedInPlace } = standingOn(bench, date);
  const next = bench.next.filter(({ on }) => on > date);
  return { ...bench, crop, traits, plants, startedInPlace, sown: date, next };
};

/** The farm with benches replanted on a date. @throws Refusal */
export const replantedFarm = (farm: Farm, names: readonly string[], date: string): Farm => {
  for (const name of names) {
    if (farm.benches.some((bench) => bench.name === name)) continue;
    throw new Refusal(
      `--replanted: found "${name}"; allowed is ${farm.benches.map((bench) => `"${bench.name}"`).join(', ')}.`,
      EXIT.usage,
    );
  }
  return {
    ...farm,
    benches: farm.benches.map((bench) => (names.includes(bench.name) ? replantedOn(bench, date) : bench)),
  };
};

/** @throws Refusal */
export const pumpShareFrom = (text: string | undefined): number =>
  text === undefined ? 1 : 1 - numberWithin(text, '--weaker-pump', 0, 90) / 100;

/** @throws Refusal */
export const lostFrom = (text: string | undefined): number | null =>
  text === undefined ? null : minuteOfDay(text, '--lost');
