import { bucketCard, type BucketCard, type CardHours } from '../../src/estimate/bucket-card.ts';
import { wallMillis } from '../../src/time/instant.ts';
import { isCalendarDate, localDayOf } from '../../src/time/local-day.ts';
import {
  CARD_BASIS,
  CARD_PLUG,
  CARD_RULES,
  channelsWords,
  everyWords,
  hoursWords,
  litresPerHour,
} from '../report/card-words.ts';
import { reportPath, writeCardPage } from '../report/report-file.ts';
import type { Console } from './console.ts';
import { EXIT, type ExitCode } from './exit-code.ts';
import { acceptedFarm, todayFor } from './farm-argument.ts';
import { Refusal } from './refusal.ts';
import { wrapped } from './wrap.ts';

export interface CardOptions {
  readonly date?: string;
  readonly report?: string;
  readonly json?: boolean;
}

const hourLines = (hours: CardHours): readonly string[] => [
  `${hours.name} (${hoursWords(hours)}), about ${litresPerHour(hours.rounds).toFixed(0)} L an hour in all:`,
  ...hours.rounds.map(
    (round, place) =>
      `  ${place + 1}. ${round.bench.padEnd(14)} ${round.litresPerChannel.toFixed(1)} L to ${round.channels === 1 ? 'its one channel' : `each of ${channelsWords(round)}`}, ${everyWords(round)}`,
  ),
];

const cardText = ({ farm, date, hours }: BucketCard, columns: number): string =>
  [
    `If the pump cannot run: water by bucket. ${farm.farm}, plants as of ${date}.`,
    ...(farm.invented === undefined ? [] : ['An invented farm: none of these data are of a real one.']),
    '',
    wrapped(CARD_PLUG, columns),
    ...hours.flatMap((each) => ['', ...hourLines(each)]),
    '',
    ...CARD_RULES.map((rule) => wrapped(`- ${rule}`, columns, 2)),
    '',
    wrapped(CARD_BASIS, columns),
  ].join('\n');

/** `rillkeeper card FARM`: what to carry to which bench while the pump cannot run, to be printed beforehand. */
export const card = async (path: string, options: CardOptions, console: Console): Promise<ExitCode> => {
  const { farm } = await acceptedFarm(path);
  const date = options.date ?? todayFor(farm, localDayOf(wallMillis(Date.now()), farm.place.timeZone).date);
  if (!isCalendarDate(date)) {
    throw new Refusal(`--date: found "${date}"; allowed is a day such as 2026-07-14.`, EXIT.usage);
  }
  const made = bucketCard(farm, date);
  if (options.report !== undefined) {
    await reportPath(options.report, 'bucket card');
    const refused = await writeCardPage(options.report, made);
    if (refused !== null) throw new Refusal(refused);
    console.talk(`The card stands in ${options.report}: print it and hang it where the buckets are.`);
  }
  console.out(
    options.json === true
      ? JSON.stringify({ farm: farm.farm, date, hours: made.hours }, null, 2)
      : cardText(made, console.columns),
  );
  return EXIT.done;
};
