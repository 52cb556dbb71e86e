import { localClockInstant } from '../../src/time/local-day.ts';
import type { Rehearsal } from '../cli/rehearsal.ts';
import { floodsOf, type FloodEnd, type ToldFlood } from './floods.ts';
import { dateWords, daysOf, momentWords } from './grid.ts';
import { escaped } from './markup.ts';

/** Word and sign of each end of a flood; a sign stands above those that somebody should look at. */
const ENDS: Readonly<Record<FloodEnd, { readonly word: string; readonly sign: string }>> = {
  confirmed: { word: 'confirmed', sign: '' },
  degraded: { word: 'degraded', sign: '▲' },
  unproven: { word: 'unproven', sign: '?' },
  missed: { word: 'missed', sign: '✖' },
  withheld: { word: 'withheld', sign: '◇' },
  'not-judged': { word: 'no verdict yet at the end', sign: '' },
};
const ORDER = Object.keys(ENDS) as readonly FloodEnd[];
const MINUTE_MILLIS = 60_000;
const HOURS = [0, 6, 12, 18] as const;

const counts = (floods: readonly ToldFlood[]): string => {
  const said = ORDER.flatMap((end) => {
    const count = floods.filter((flood) => flood.end === end).length;
    return count === 0 ? [] : [`${count} ${ENDS[end].word}`];
  });
  return said.length === 0 ? 'no flood' : said.join(', ');
};

type Day = Rehearsal['day'];

const percentOf = (day: Day, atMillis: number): number =>
  ((atMillis - day.start) / (day.end - day.start)) * 100;

const mark = (day: Day, { atMillis, minutes, end }: ToldFlood): string => {
  const left = percentOf(day, atMillis);
  const right = percentOf(day, Math.min(day.end, atMillis + (minutes ?? 0) * MINUTE_MILLIS));
  const block = `<i class="${end}" style="left:${left.toFixed(2)}%;width:${(right - left).toFixed(2)}%"></i>`;
  const { sign } = ENDS[end];
  return sign === ''
    ? block
    : `${block}<b class="${end}" style="left:${((left + right) / 2).toFixed(2)}%">${sign}</b>`;
};

const row = (day: Day, floods: readonly ToldFlood[]): string =>
  `<p>${escaped(dateWords(day))}: ${counts(floods)}</p><div class="ribbon${floods.some(({ end }) => ENDS[end].sign !== '') ? ' signs' : ''}" aria-hidden="true">${floods
    .map((flood) => mark(day, flood))
    .join('')}</div>`;

const hours = (day: Day): string =>
  `<div class="hours" aria-hidden="true">${HOURS.map(
    (hour) =>
      `<span style="left:${percentOf(day, localClockInstant(day, hour * 60)).toFixed(2)}%">${String(hour).padStart(2, '0')}:00</span>`,
  ).join('')}</div>`;

const legend = (floods: readonly ToldFlood[]): string =>
  ORDER.filter((end) => end === 'confirmed' || floods.some((flood) => flood.end === end))
    .map(
      (end) =>
        `<span><i class="${end}"></i> <b class="${end}">${ENDS[end].sign}</b> ${ENDS[end].word}</span>`,
    )
    .join(' ');

const sentence = ({ says, reason, end }: ToldFlood): string =>
  [reason, end === 'confirmed' || end === 'not-judged' ? '' : says].filter((text) => text !== '').join(' · ');

const tableRow = (rehearsal: Rehearsal, flood: ToldFlood): string => {
  const { atMillis, minutes, part, end } = flood;
  const { word, sign } = ENDS[end];
  const length = minutes === null ? '' : `, ${minutes.toFixed(0)} min`;
  return `<tr><th scope="row">${escaped(momentWords(rehearsal, atMillis))}${length}<td class="${end}">${sign} ${word}<td>${escaped(`${part}: ${sentence(flood)}`)}`;
};

/** The floods of the central run: a ribbon for each day, and every flood with its verdict in a table. */
export const floodRibbon = (rehearsal: Rehearsal): string => {
  const floods = floodsOf(rehearsal);
  const days = daysOf(rehearsal);
  return [
    `<p>Of the central run, in local time. ${legend(floods)}</p>`,
    ...days.flatMap((day) => [
      row(
        day,
        floods.filter(({ atMillis }) => atMillis >= day.start && atMillis < day.end),
      ),
      ...(day === days.at(-1) ? [hours(day)] : []),
    ]),
    '<details><summary>Every flood as a table</summary><table class="floods"><thead><tr><th scope="col">Start<th scope="col">Verdict<th scope="col">Part of the day, reason</thead><tbody>',
    ...floods.map((flood) => tableRow(rehearsal, flood)),
    '</tbody></table></details>',
  ].join('\n');
};
