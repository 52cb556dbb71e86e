import { createHash } from 'node:crypto';
import licence from 'uplot/LICENSE?raw';
import chartScript from 'uplot/dist/uPlot.iife.min.js?raw';
import chartStyle from 'uplot/dist/uPlot.min.css?raw';
import { RESTS_ON, type Rehearsal } from '../cli/rehearsal.ts';
import { hangsOnText, oxygenText } from '../cli/rehearsal-doubt.ts';
import { heading, totals } from '../cli/rehearsal-report.ts';
import { tooStrongText } from '../cli/rehearsal-strength.ts';
import { verdictText } from '../cli/rehearsal-verdict.ts';
import { alarmList } from './alarm-list.ts';
import { benchCards } from './bench-cards.ts';
import { gridOf } from './grid.ts';
import { escaped, jsonForPage, paragraph, prose } from './markup.ts';
import { plotGroups, type Plot } from './plot.ts';
import { plotData } from './plot-data.ts';
import { pointWords, plotSection } from './plot-section.ts';
import plotScript from './page-script.js?raw';
import style from './page-style.css?raw';
import { floodRibbon } from './ribbon.ts';

/** By its first bytes a file is known as a report of ours, which may be replaced. */
export const MARKER = '<!doctype html>\n<!-- rillkeeper rehearsal report 1 -->\n';

/** The address in the first line of the library is left out: the page holds none, and its licence in full. */
const chart = chartScript.replace(/^\/\*![^*]*\*\/\s*/, '');
const script = `/*\nDrawn with uPlot 1.6\n${licence}*/\n${chart}\n${plotScript}`;

/**
 * Nothing is asked of any other place, and no other script runs than this one, whatever stands in a farm file
 * (W3C, Content Security Policy Level 3).
 */
const POLICY = `default-src 'none'; img-src data:; style-src 'unsafe-inline'; script-src 'sha256-${createHash('sha256').update(script).digest('base64')}'`;

const VERDICT_MARKS: Readonly<Record<Rehearsal['verdict']['kind'], readonly [kind: string, sign: string]>> = {
  holds: ['well', '■'],
  'holds-unless-missed': ['caution', '▲'],
  'may-wilt': ['danger', '✖'],
};

const section = (title: string, ...lines: readonly string[]): string =>
  `<section><h2>${escaped(title)}</h2>\n${lines.join('\n')}\n</section>`;

const sectionUnlessEmpty = (title: string, lines: readonly string[]): readonly string[] =>
  lines.length === 0 ? [] : [section(title, ...lines.map(paragraph))];

const howToRead = ({ outcomes, days }: Rehearsal): string =>
  (outcomes.length === 1
    ? 'The line is the one run, without draws: how far it may be off is not shown. '
    : `Line: half of the ${outcomes.length} runs are below it. Grey band: 5 to 95 % of the runs. Dots: the middle of the tank. `) +
  `Filled red: below the wilt floor, or too low for the pump. Hatched brown: below a level to be minded. Local time${days > 1 ? ', a number for each day of the month' : ''}. Touch a plot to read a moment in all of them.`;

/** The rehearsal as one page that needs nothing else; the verdict is its first sentence. */
export const reportPage = (rehearsal: Rehearsal): string => {
  const { farm, day, verdict } = rehearsal;
  const grid = gridOf(rehearsal);
  const groups = plotGroups(rehearsal, grid);
  const plots = groups.flatMap((group) => group.plots);
  const idOf = (plot: Plot): string => `plot-${plots.indexOf(plot)}`;
  const [kind, sign] =
    VERDICT_MARKS[
      verdict.kind === 'holds' && tooStrongText(rehearsal).length > 0 ? 'holds-unless-missed' : verdict.kind
    ];
  return [
    `${MARKER}<html lang="en"><head><meta charset="utf-8">`,
    `<meta http-equiv="Content-Security-Policy" content="${POLICY}">`,
    '<meta name="viewport" content="width=device-width, initial-scale=1"><link rel="icon" href="data:,">',
    `<title>${escaped(`Rehearsal of ${farm.farm}, ${day.date}`)}</title>`,
    `<style>${chartStyle}\n${style}</style></head><body><main>`,
    `<h1 class="${kind}"><span aria-hidden="true">${sign}</span> ${prose(verdictText(rehearsal))}</h1>`,
    ...heading(rehearsal).map(paragraph),
    section('Benches', benchCards(rehearsal)),
    ...sectionUnlessEmpty('What the verdict hangs on', [
      ...hangsOnText(rehearsal),
      ...oxygenText(rehearsal),
      RESTS_ON,
    ]),
    ...sectionUnlessEmpty('What to do', rehearsal.advice),
    section('Alarms', alarmList(rehearsal)),
    section('Floods', floodRibbon(rehearsal)),
    ...(grid.atMillis.length === 0
      ? []
      : [
          section(
            rehearsal.days > 1 ? 'Through the days' : 'Through the day',
            paragraph(howToRead(rehearsal)),
            paragraph(pointWords(grid)),
            '<noscript><p>Plots need script, which is off here: the same figures are in the tables below.</p></noscript>',
          ),
          ...groups.map((group) => plotSection(rehearsal, grid, group, idOf)),
        ]),
    section('The central run in figures', ...totals(rehearsal).map(paragraph)),
    '</main>',
    `<script type="application/json" id="figures">${jsonForPage(plotData(rehearsal, grid, plots, idOf))}</script>`,
    `<script>${script}</script></body></html>\n`,
  ].join('\n');
};
