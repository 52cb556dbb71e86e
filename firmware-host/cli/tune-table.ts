import type { Band } from '../simulated-shed.ts';
import type { Choice, Judged } from '../tune/choices.ts';
import type { SettingsJob } from '../tune/tune-job.ts';
import type { Tuned } from '../tune/tuned.ts';
import type { Farm } from '../../src/farm/farm.ts';
import { aligned } from './rehearsal-table.ts';
import { settingWords } from './tune-words.ts';

/** Points of held water, to the dry side. */
export const points = (share: number): string => {
  const whole = Math.floor(share * 100);
  return whole < 0 ? `−${-whole}` : `+${whole}`;
};
const oxygen = ({ low, middle, high }: Band): string =>
  [low, middle, high].map((value) => value.toFixed(1)).join('–');

const judgedCells = (judged: Judged | null): readonly string[] =>
  judged === null
    ? ['not judged', '', '', '']
    : [
        judged.isSafe ? 'yes' : `no (${judged.failing}/${judged.trials.length})`,
        String(Math.floor(judged.lowestTheta.low * 100)),
        `${points(judged.marginLeast)} (${points(judged.margin.middle)})`,
        oxygen(judged.lowestOxygen),
      ];

const cellsOf = (farm: Farm, choice: Choice): readonly string[] => {
  const { cost } = choice.candidate;
  const [safe = '', held = '', margin = '', band = ''] = judgedCells(choice.judged);
  return [
    settingWords(farm, choice.setting),
    cost.floods.toFixed(1),
    safe,
    held,
    margin,
    band,
    (cost.pumpMinutesADay / 60).toFixed(1),
    choice.kilowattHoursADay.toFixed(2),
  ];
};

/** A choice as it is told: one cell for each column. */
export interface ChoiceRow {
  readonly choice: Choice;
  readonly isSmallest: boolean;
  /** It is the plan of the farm file. */
  readonly isPresent: boolean;
  readonly cells: readonly string[];
}

/** Heads of the columns, in two lines. */
export const CHOICE_HEADS = [
  ['', 'plan'],
  ['floods', 'a day'],
  ['', 'safe'],
  ['lowest', 'held %'],
  ['margin', 'points'],
  ['oxygen', 'mg/L'],
  ['pump', 'h a day'],
  ['', 'kWh'],
] as const;

/** The choices in order of their cost, the plan of the farm file among them. */
export const choiceRows = (farm: Farm, { choices, smallest, present }: Tuned): readonly ChoiceRow[] => {
  const isPresent = (choice: Choice): boolean => choice.candidate.place === present?.candidate.place;
  const all =
    present === null || choices.some(isPresent)
      ? choices
      : [...choices, present].toSorted((a, b) => a.candidate.cost.startsADay - b.candidate.cost.startsADay);
  return all.map((choice) => ({
    choice,
    isSmallest: choice === smallest,
    isPresent: isPresent(choice),
    cells: cellsOf(farm, choice),
  }));
};

/** What marks and columns mean. */
export const choicesSay = ({ lostMinuteOfDay }: SettingsJob): string =>
  `→ the fewest floods that are safe in every run, ○ the plan of the farm file. Floods a day: begun in the parts that are tuned; one that falls due where a part ends begins in the next, so they may be fewer than the plan names. Lowest held water: what 5 % of the runs undercut. Margin: held water above the wilt floor with ${lostMinuteOfDay === null ? 'the worst flood missed' : 'that flood lost'}, in the driest run (in brackets the middle one). Oxygen: 5, 50 and 95 % of the runs, in the parts that are tuned. Pump and kWh: the whole day.`;

/** The rows as a table for a terminal, the fewest safe floods marked by an arrow, the present plan by a circle. */
export const choiceTable = (farm: Farm, job: SettingsJob, found: Tuned): readonly string[] => [
  ...aligned([
    ['', ...CHOICE_HEADS.map(([above]) => above)],
    ['', ...CHOICE_HEADS.map(([, below]) => below)],
    ...choiceRows(farm, found).map(({ isSmallest, isPresent, cells }) => [
      `${isSmallest ? '→' : ' '}${isPresent ? '○' : ' '}`,
      ...cells,
    ]),
  ]),
  choicesSay(job),
];
