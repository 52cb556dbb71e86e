import type { Farm } from '../../src/farm/farm.ts';
import type { Judged } from '../tune/choices.ts';
import type { PlanSetting } from '../tune/setting.ts';
import type { SettingsJob } from '../tune/tune-job.ts';
import type { Tuned } from '../tune/tuned.ts';
import { holdsText } from './rehearsal-doubt.ts';
import { daysWords, RESTS_ON } from './rehearsal.ts';
import { planHolds } from './tune-holds.ts';
import { choiceTable } from './tune-table.ts';
import { boundText, closeText, elsewhereText, limitText, noneText, settingWords } from './tune-words.ts';
import { wrapped } from './wrap.ts';

/** The same search for the same benches, some weeks on: with older plants, or with what comes next on them. */
export interface Week {
  readonly date: string;
  readonly weather: string;
  /** The cheapest safe plan; null where none is. */
  readonly setting: PlanSetting | null;
  readonly floods: number | null;
}

/** What was asked, and all that was found around the choices. */
export interface Asked {
  /** As the farm file has it. */
  readonly farm: Farm;
  readonly job: SettingsJob;
  readonly weather: string;
  readonly weeks: readonly Week[];
  /** What would change in the farm file; empty when nothing would. */
  readonly diff: string;
  /** The search was for another world than the farm file's. */
  readonly isWhatIf: boolean;
}

const clock = (minuteOfDay: number): string =>
  `${String(Math.floor(minuteOfDay / 60)).padStart(2, '0')}:${String(minuteOfDay % 60).padStart(2, '0')}`;

/** What was searched, and how. */
export const searchHeading = (
  { farm, job, weather }: Asked,
  { tried, plans, wasStopped }: Tuned,
): readonly string[] => {
  const names = job.tuned.map((place) => farm.dayPlan[place]?.name ?? '').join(', ');
  const replanted = job.farm.benches.filter((bench, place) => bench.sown !== farm.benches[place]?.sown);
  return [
    `${farm.farm}, ${daysWords(job.date, job.days)}: ${names}, tried on ${weather}.`,
    ...(farm.invented === undefined ? [] : ['An invented farm: none of these data are of a real one.']),
    `${tried} of ${plans} plans kept the limits of the farm file; ${wasStopped ? 'those that were judged, each in up to' : 'each judged in'} ${job.draws + 1} runs with other values for what nobody has measured (seed ${job.seed}). The plan alone is judged: the running host would only add floods.`,
    ...(job.pumpShare === 1
      ? []
      : [`What if: the pump gives ${Math.round(job.pumpShare * 100)} % of its flow.`]),
    ...(job.lostMinuteOfDay === null
      ? []
      : [
          `What if: each day the flood nearest to ${clock(job.lostMinuteOfDay)} is lost. No other is missed besides.`,
        ]),
    ...(replanted.length === 0
      ? []
      : [`What if: ${replanted.map(({ name }) => name).join(', ')} is sown on ${job.date}.`]),
    ...(wasStopped ? ['Stopped early: what had been found by then.'] : []),
  ];
};

const judgedText = ({ job }: Asked, judged: Judged): readonly string[] => {
  const { margin, oxygen } = planHolds(job, judged);
  return [...holdsText('The margin', margin), ...holdsText('The oxygen', oxygen), ...elsewhereText(judged)];
};

/** The answer in one sentence, then what it is limited by. */
export const answerText = (asked: Asked, found: Tuned): readonly string[] => {
  const { farm } = asked;
  const { smallest, present, limit } = found;
  if (smallest === null)
    return found.wasStopped
      ? ['No plan was found to be safe before the search was stopped.']
      : [noneText(found.choices, farm)];
  const isPresent = smallest.candidate.place === present?.candidate.place;
  return [
    isPresent
      ? `The plan of the farm file is the one with the fewest floods that are safe: ${settingWords(farm, smallest.setting)}.`
      : `Fewest floods that are safe in every run: ${settingWords(farm, smallest.setting)}.`,
    ...boundText(farm, smallest),
    ...closeText(smallest),
    ...(limit === null ? [] : limitText(limit)),
    ...(smallest.judged === null ? [] : judgedText(asked, smallest.judged)),
  ];
};

export const weekWords = (farm: Farm, { setting }: Week): string =>
  setting === null ? 'none of these plans is safe' : settingWords(farm, setting);

const weeksText = ({ farm, weeks }: Asked): readonly string[] =>
  weeks.length === 0
    ? []
    : [
        'The same benches, some weeks on:',
        ...weeks.map((week) => `  ${week.date}  ${weekWords(farm, week)}`),
      ];

export const changeSays = ({ isWhatIf }: Asked): string =>
  `The change to the farm file${isWhatIf ? ', found for another world than the one of the file' : ''}; --apply writes it, and keeps every comment:`;

const changeText = (asked: Asked): readonly string[] =>
  asked.diff === '' ? [] : [changeSays(asked), '', asked.diff.trimEnd()];

/** The search as a text for people. */
export const tunedText = (asked: Asked, found: Tuned, columns: number): string => {
  const paragraph = (lines: readonly string[]): readonly string[] =>
    lines.map((line) => wrapped(line, columns));
  const table = found.choices.length === 0 ? [] : choiceTable(asked.farm, asked.job, found);
  return [
    ...paragraph(searchHeading(asked, found)),
    '',
    ...paragraph(answerText(asked, found)),
    '',
    ...table.slice(0, -1),
    ...paragraph(table.slice(-1)),
    '',
    ...weeksText(asked),
    '',
    ...changeText(asked),
    '',
    ...paragraph([RESTS_ON]),
  ]
    .join('\n')
    .replaceAll(/\n{3,}/g, '\n\n');
};
