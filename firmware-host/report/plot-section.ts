import { rowsOf } from './course.ts';
import { stretchesOf, type Grid, type Span } from './grid.ts';
import { escaped, figure, marked } from './markup.ts';
import type { Plot, PlotGroup } from './plot.ts';

const MINUTE_MILLIS = 60_000;

const table = (span: Span, grid: Grid, plot: Plot): string => {
  const each = span.days === 1 ? 'hour' : 'day';
  const cell = (value: number | undefined): string =>
    `<td>${value === undefined ? '–' : figure(value, plot.digits)}`;
  const rows = rowsOf(grid, stretchesOf(span), plot.quantity, plot.mind).map(
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

/** In words which level runs go below, the most harmful one. */
export const belowWords = ({ runs }: Grid, { levels, quantity }: Plot): string => {
  const gone = levels.flatMap(({ at, below, harm }) => {
    const count = runs.filter((moments) => moments.some((moment) => (quantity(moment) ?? Infinity) < at));
    return harm === null || count.length === 0 ? [] : [{ harm, below, count: count.length }];
  });
  const worst = gone.find(({ harm }) => harm === 'danger') ?? gone[0];
  return worst === undefined
    ? ''
    : marked(worst.harm, `${worst.below} in ${worst.count} of ${runs.length} runs.`);
};

/** A heading, its plots, and each plot's figures as a table that is read without script. */
export const plotSection = (
  span: Span,
  grid: Grid,
  group: PlotGroup,
  idOf: (plot: Plot) => string,
  wrong: (plot: Plot) => string,
): string =>
  [
    `<section><h2>${escaped(group.title)}</h2><p>${escaped(group.says)}</p><div class="plots">`,
    ...group.plots.map((plot) =>
      [
        `<figure><figcaption>${escaped(plot.title)}, ${escaped(plot.unit)} ${wrong(plot)}</figcaption>`,
        `<div class="plot" id="${idOf(plot)}" role="img" aria-label="${escaped(`${group.title}, ${plot.title}: the figures are in the table below`)}"></div>`,
        '<p class="read" aria-hidden="true" hidden>&nbsp;</p>',
        table(span, grid, plot),
        '</figure>',
      ].join('\n'),
    ),
    '</div></section>',
  ].join('\n');

/** What one point of a plot is made of. */
export const pointWords = ({ atMillis }: Grid, worst: string): string => {
  const [first = 0, second = first] = atMillis;
  const minutes = Math.round((second - first) / MINUTE_MILLIS);
  return `Each point stands for ${minutes} minutes and tells the worst of them: ${worst}.`;
};
