import { spanOf } from '../../src/alarm/language/language.ts';
import type { Farm } from '../../src/farm/farm.ts';
import type { Choice, Judged } from '../tune/choices.ts';
import { WARM_CELSIUS, type Limit } from '../tune/limit.ts';
import type { PlanSetting } from '../tune/setting.ts';
import { OXYGEN_HARMS } from '../simulated-shed.ts';

const number = (value: number): string => String(Number(value.toFixed(2)));

/** `3 floods of 20 min`, or `rests of 25 min between floods of 20 min`, with the part where several are tuned. */
export const settingWords = (farm: Farm, { parts, restPercentPerDegree }: PlanSetting): string => {
  const several = parts.filter((part) => part !== null).length > 1;
  const words = parts.flatMap((part, place) => {
    if (part === null) return [];
    const { pace, floodMinutes } = part;
    const own =
      pace.kind === 'number'
        ? `${number(pace.floods)} × ${number(floodMinutes)} min`
        : `${number(floodMinutes)} min after ${number(pace.restMinutes)} min`;
    return [several ? `${farm.dayPlan[place]?.name ?? ''} ${own}` : own];
  });
  return [
    ...words,
    ...(restPercentPerDegree === null ? [] : [`rule ${number(restPercentPerDegree)} %/°C`]),
  ].join(', ');
};

const of = (count: number, runs: number): string => `${count} of ${runs} runs`;

/** What the part is limited by, on what that rests, and how sure it is. */
export const limitText = (limit: Limit): readonly string[] => {
  const { by, runs, waterRuns, oxygenRuns, heatRuns } = limit;
  const sure = `${Math.round(limit.sure * 100)} % of the runs`;
  const first = {
    water: `Limited by water: with fewer floods a bench falls to its wilt floor when one is missed, in ${of(waterRuns ?? 0, runs)}.`,
    oxygen: `Water is not the limit. Oxygen may be: more floods would spare ${sure} a fall below ${OXYGEN_HARMS.unharmed} mg/L.`,
    heat: `Water is not the limit. Heat may be: more floods would keep the channels of ${sure} below ${WARM_CELSIUS} °C.`,
    nothing: `Limited by nothing that was looked at: fewer floods than these were not tried, or hold as well (${sure}).`,
  }[by];
  return [
    first,
    `Oxygen below the ${OXYGEN_HARMS.unharmed} mg/L at which growth is known to be unharmed: in ${of(oxygenRuns.smallest, runs)} with the fewest safe floods, in ${of(oxygenRuns.most, runs)} with the most shown. That hangs on re-aeration and respiration that nobody has measured here: never certain without a field test.`,
    `Water in the channels above ${WARM_CELSIUS} °C: in ${of(heatRuns.smallest, runs)} with the fewest safe floods, in ${of(heatRuns.most, runs)} with the most shown (${WARM_CELSIUS} °C is common practice, no source).`,
  ];
};

/** Of a flood a day: less comes of days that begin inside a part. */
const SOME = 0.5;

/** Says where a plan comes to more floods than it names: the fewer are not what was found safe. */
export const boundText = (farm: Farm, { setting, candidate: { cost } }: Choice): readonly string[] => {
  let asked = 0;
  for (const part of setting.parts) {
    if (part === null) continue;
    if (part.pace.kind === 'rest') return [];
    asked += part.pace.floods;
  }
  const { restMinutesByDay, restMinutesByNight } = farm.bounds;
  return cost.floods < asked + SOME
    ? []
    : [
        `Asked for ${asked === 1 ? 'is 1 flood' : `are ${number(asked)} floods`}, but ${cost.floods.toFixed(1)} a day come: the longest rest of the farm file (${spanOf(restMinutesByDay.longest)} by day, ${spanOf(restMinutesByNight.longest)} by night) and its temperature rule make them more. Safe are these, not the fewer ones.`,
      ];
};

/** Of held water: less is nothing to lean on. */
const CLOSE = 0.01;

/** Says where a plan is safe by a hair. */
export const closeText = ({ judged }: Choice): readonly string[] =>
  judged === null || judged.marginLeast >= CLOSE
    ? []
    : [
        'Its margin is less than one point of held water in the driest run: safe, but only just. One flood more, or a longer one, gives room.',
      ];

/** What no setting of the tuned parts can help; empty where there is nothing. */
export const elsewhereText = (judged: Judged): readonly string[] =>
  judged.failingElsewhere === 0
    ? []
    : [
        `In the rest of the day a missed flood takes a bench to its wilt floor in ${of(judged.failingElsewhere, judged.trials.length)}, and no plan for these parts helps that: look at it with rehearse, or tune it as well.`,
      ];

/** Why there is no answer, and where to look. */
export const noneText = (choices: readonly Choice[], farm: Farm): string => {
  const [best] = choices
    .flatMap(({ setting, judged }) => (judged === null ? [] : [{ setting, judged }]))
    .toSorted((a, b) => a.judged.failing - b.judged.failing || b.judged.marginLeast - a.judged.marginLeast);
  const nearest =
    best === undefined
      ? ''
      : ` Of those judged the nearest is ${settingWords(farm, best.setting)}, short in ${best.judged.failing} of ${best.judged.trials.length} runs.`;
  return `No plan that was tried is safe in every run.${nearest} Allow more floods, longer ones or shorter rests: --floods, --minutes, and bounds in the farm file.`;
};
