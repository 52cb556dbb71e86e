import type { Bench, Standing } from '../../src/farm/farm.ts';
import { hasPlants } from '../../src/farm/standing.ts';
import { itemAt } from '../../src/units/assertion.ts';
import {
  benchReports,
  notYetSown,
  rounded,
  whenText,
  type BenchReport,
  type Rehearsal,
} from '../cli/rehearsal.ts';
import { spanWords, upToWords } from '../cli/rehearsal-verdict.ts';
import type { Band } from '../simulated-shed.ts';
import { escaped, figure, marked, paragraph, prose } from './markup.ts';

type Words = (value: number) => string;

const digits =
  (count: number): Words =>
  (value) =>
    figure(rounded(value, count), count);

/** To the dry side, as at the terminal. */
const span: Words = (minutes) => spanWords(Math.floor(minutes));
const signed: Words = (points) => `${points >= 0 ? '+' : ''}${figure(points, 1)}`;

/** One figure across where all runs agree; no row where there is nothing to tell. */
const row = (name: string, band: Band | null, words: Words): string => {
  if (band === null) return '';
  const said = [band.low, band.middle, band.high].map(words);
  const cells =
    new Set(said).size === 1
      ? `<td colspan="3">${prose(said[0] ?? '')}</td>`
      : said.map((text) => `<td>${prose(text)}</td>`).join('');
  return `<tr><th scope="row">${escaped(name)}</th>${cells}</tr>`;
};

const whatIfRows = ({ whatIf }: BenchReport): readonly string[] =>
  whatIf === null
    ? []
    : [
        row('Time left, pump dead from its worst moment on', whatIf.timeLeftMinutes, span),
        row('Margin with the worst flood missed, points', whatIf.oneMissMarginPoints, signed),
      ];

/** What is wrong with a bench, by word and shape; above all others that it may wilt. */
export const stateOf = (rehearsal: Rehearsal, report: BenchReport): string => {
  const { mayWiltFromMillis, belowStressMinutesWorst } = report;
  if (mayWiltFromMillis !== null)
    return marked('danger', `May wilt from ${whenText(rehearsal, mayWiltFromMillis)}.`);
  return belowStressMinutesWorst > 0
    ? marked('caution', `Below its stress floor for ${upToWords(belowStressMinutesWorst)}: growth slows.`)
    : '';
};

const moments = ({ lowestHeldAt, longestRestMinutes, whatIf }: BenchReport): string =>
  [
    `Driest at ${lowestHeldAt} in the driest run.`,
    ...(whatIf === null ? [] : [`Worst moment for the pump to fail: ${whatIf.timeLeftWorstIfPumpFailsAt}.`]),
    `Longest rest ${spanWords(longestRestMinutes)}.`,
  ].join(' ');

const plantsWords = ({ plants, crop }: Standing): string =>
  plants === 0 ? 'no plants' : `${crop}, ${plants} plants`;

const card = (rehearsal: Rehearsal, report: BenchReport, bench: Bench): string => {
  const head = `<section class="bench"><h3>${escaped(report.bench)}</h3>`;
  if (!hasPlants(bench)) return `${head}${paragraph('No plants.')}</section>`;
  const unsown = notYetSown(rehearsal).includes(report.bench);
  return [
    head,
    paragraph(`${plantsWords(bench)}${unsown ? ', not sown yet' : ''}`),
    ...bench.next.map((next) => paragraph(`From ${next.on} on: ${plantsWords(next)}`)),
    `<p>${stateOf(rehearsal, report)}</p>`,
    '<table><thead><tr><td></td><th scope="col">5 %</th><th scope="col">50 %</th><th scope="col">95 %</th></tr></thead><tbody>',
    row('Lowest held water, %', report.lowestHeldPercent, digits(1)),
    ...whatIfRows(report),
    row('Lowest oxygen, mg/L', report.lowestOxygenMilligramsPerLitre, digits(2)),
    row('Warmest water, °C', report.warmestWaterCelsius, digits(1)),
    row('Strongest above the wilt floor, mS/cm', report.strongestMillisiemensPerCm, digits(2)),
    row('Water drunk, L', report.drunkLitres, digits(1)),
    '</tbody></table>',
    paragraph(moments(report)),
    '</section>',
  ].join('\n');
};

/** Of fewer runs than these no one is one in twenty. */
const RUNS_FOR_TWENTIETHS = 20;

const spreadWords = (runs: number): string =>
  runs < RUNS_FOR_TWENTIETHS
    ? `Of only ${runs} runs: the first figure is near their lowest, the second their middle, the third near their highest.`
    : `Of ${runs} runs one in twenty is below the first figure, half below the second, one in twenty above the third.`;

export const benchCards = (rehearsal: Rehearsal): string =>
  [
    `<p>${
      rehearsal.outcomes.length === 1 ? 'Figures of the one run.' : spreadWords(rehearsal.outcomes.length)
    }${rehearsal.faults.length > 0 ? '' : ' Time left is until the bench may wilt; the margin is held water above the wilt floor.'}</p>`,
    '<div class="benches">',
    ...benchReports(rehearsal).map((report, place) =>
      card(rehearsal, report, itemAt(rehearsal.farm.benches, place)),
    ),
    '</div>',
  ].join('\n');
