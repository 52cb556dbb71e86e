import { benchReports, type Rehearsal } from '../cli/rehearsal.ts';
import { stateOf } from './bench-cards.ts';
import { rowsOf } from './course.ts';
import { stretchesOf, type Grid } from './grid.ts';
import { escaped, figure, marked } from './markup.ts';
import type { Plot, PlotGroup } from './plot.ts';

const MINUTE_MILLIS = 60_000;

const table = (rehearsal: Rehearsal, grid: Grid, plot: Plot): string => {
  const each = rehearsal.days === 1 ? 'hour' : 'day';
  const cell = (value: number | undefined): string =>
    `<td>${value === undefined ? '–' : figure(value, plot.digits)}`;
  const rows = rowsOf(grid, stretchesOf(rehearsal), plot.quantity, plot.mind).map(
    ({ text, band }) =>
      `<tr><th scope="row">${escaped(text)}${[band?.low, band?.middle, band?.high].map(cell).join('')}`,
  );
  return [
    `<details><summary>${escaped(plot.title)}: ${plot.mind} of each ${each} as a table</summary>`,
    `<table><thead><tr><th scope="col">${each === 'hour' ? 'From' : 'Day'}<th scope="col">5 %<th scope="col">50 %<th scope="col">95 %, ${escaped(plot.unit)}</thead><tbody>`,
    ...rows,
    '</tbody></table></details>',
  ].join('\n');
};

/** In words what the plot shows to be wrong. */
const wrong = (rehearsal: Rehearsal, grid: Grid, plot: Plot): string => {
  const report = benchReports(rehearsal).find(({ bench }) => bench === plot.title);
  if (plot.unit === '%' && report !== undefined) return stateOf(rehearsal, report);
  const level = plot.levels.find(({ harm }) => harm !== null);
  if (level === undefined) return '';
  const below = grid.runs.filter((moments) =>
    moments.some((moment) => (plot.quantity(moment) ?? Infinity) < level.at),
  ).length;
  return below === 0
    ? ''
    : marked(level.harm ?? 'caution', `${level.below} in ${below} of ${grid.runs.length} runs.`);
};

/** A heading, its plots, and each plot's figures as a table that is read without script. */
export const plotSection = (
  rehearsal: Rehearsal,
  grid: Grid,
  group: PlotGroup,
  idOf: (plot: Plot) => string,
): string =>
  [
    `<section><h2>${escaped(group.title)}</h2><p>${escaped(group.says)}</p><div class="plots">`,
    ...group.plots.map((plot) =>
      [
        `<figure><figcaption>${escaped(plot.title)}, ${escaped(plot.unit)} ${wrong(rehearsal, grid, plot)}</figcaption>`,
        `<div class="plot" id="${idOf(plot)}" role="img" aria-label="${escaped(`${group.title}, ${plot.title}: the figures are in the table below`)}"></div>`,
        '<p class="read" aria-hidden="true" hidden>&nbsp;</p>',
        table(rehearsal, grid, plot),
        '</figure>',
      ].join('\n'),
    ),
    '</div></section>',
  ].join('\n');

/** What one point of a plot is made of. */
export const pointWords = ({ atMillis }: Grid): string => {
  const [first = 0, second = first] = atMillis;
  const minutes = Math.round((second - first) / MINUTE_MILLIS);
  return `Each point stands for ${minutes} minutes and tells the worst of them: water, oxygen and tank at their lowest, temperature and strength at their highest.`;
};
