import { wallMillis } from '../../src/time/instant.ts';
import { localDayOn } from '../../src/time/local-day.ts';
import { RESTS_ON } from '../cli/rehearsal.ts';
import { choiceRows, choicesSay } from '../cli/tune-table.ts';
import { answerText, changeSays, searchHeading, weekWords, type Asked } from '../cli/tune-text.ts';
import type { Tuned } from '../tune/tuned.ts';
import { choiceRowsTable } from './choice-rows.ts';
import { daysOf, drawnByDay, momentWords, type Grid, type Span } from './grid.ts';
import { escaped, paragraph, prose } from './markup.ts';
import { MARKS, NO_SCRIPT, section, sectionUnlessEmpty, wholePage, type PageMark } from './page-shell.ts';
import type { Plot } from './plot.ts';
import { plotData } from './plot-data.ts';
import { belowWords, plotSection, pointWords } from './plot-section.ts';
import {
  choicePlot,
  floodsIn,
  nightsOf,
  smallestPlots,
  type ChoicePlot,
  type Stretches,
} from './tune-plots.ts';

const MINUTE_MILLIS = 60_000;

const spanAsked = ({ farm, job }: Asked): Span => {
  const day = localDayOn(job.date, farm.place.timeZone);
  const { days } = job;
  return { farm, day, days, endMillis: daysOf({ day, days }).at(-1)?.end ?? day.end };
};

/** Well only where nothing is left to be minded: whole answer, safe, and no other part or harm beside it. */
const markOf = ({ smallest, limit, wasStopped }: Tuned): PageMark => {
  if (smallest === null) return wasStopped ? MARKS.caution : MARKS.danger;
  const isMinded =
    wasStopped ||
    (smallest.judged?.failingElsewhere ?? 0) > 0 ||
    limit?.by === 'oxygen' ||
    limit?.by === 'heat';
  return isMinded ? MARKS.caution : MARKS.well;
};

const MARGIN_SAYS =
  'Up: held water above the wilt floor, in points, with the worst flood missed. Grey: 5 to 95 % of the runs, with a line at the middle one. The mark below is the driest run: a filled square for the fewest floods that are safe, an open diamond for another safe plan, a red cross for a plan that fails. Choices with as many floods stand side by side.';
const LOST_SAYS = MARGIN_SAYS.replace('with the worst flood missed', 'with the named flood lost each day');

const choiceFigure = ({ job }: Asked, plot: ChoicePlot | null): readonly string[] =>
  plot === null
    ? []
    : [
        paragraph(job.lostMinuteOfDay === null ? MARGIN_SAYS : LOST_SAYS),
        '<figure class="choices"><figcaption>Margin, points, against floods a day in the parts that are tuned</figcaption>',
        '<div class="plot" id="choices" role="img" aria-label="Margin against number of floods: the figures are in the table below"></div>',
        '<p class="read" aria-hidden="true" hidden>&nbsp;</p></figure>',
        NO_SCRIPT,
      ];

const floodList = (span: Span, floods: Stretches): string => {
  const words = floods.map(([from, until]) => {
    const at = momentWords(span, wallMillis(span.day.start + from * MINUTE_MILLIS));
    return `${at} for ${Math.round(until - from)} min`;
  });
  return `<details><summary>Its ${floods.length} floods by their times</summary><p>${prose(words.join(' · '))}</p></details>`;
};

const howToRead = (span: Span, grid: Grid): string =>
  `Line: half of the ${grid.runs.length} runs are below it. Grey band: 5 to 95 % of the runs. ${drawnByDay(span) ? '' : 'Pale ground: night. Blocks along the bottom: floods, in the weather of the central run. '}Filled red: below the wilt floor. Hatched brown: below a level to be minded. Local time. Touch a plot to read a moment in both.`;

/** What is drawn of the smallest safe plan through the days, and what the script needs for it. */
const through = (
  asked: Asked,
  { smallest }: Tuned,
): { readonly sections: readonly string[]; readonly figures: object } => {
  const span = spanAsked(asked);
  const drawn = smallest?.judged == null ? null : smallestPlots(span, smallest.judged);
  if (smallest === null || drawn === null) return { sections: [], figures: { plots: [] } };
  const { grid, group } = drawn;
  const idOf = (plot: Plot): string => `plot-${group.plots.indexOf(plot)}`;
  const floods = floodsIn(asked.job, smallest.setting);
  const marks = drawnByDay(span) ? {} : { nights: nightsOf(span), floods };
  return {
    sections: [
      section(
        `Through the ${span.days > 1 ? 'days' : 'day'} with the fewest safe floods`,
        paragraph(howToRead(span, grid)),
        paragraph(pointWords(grid, 'water and oxygen at their lowest')),
        floodList(span, floods),
      ),
      plotSection(span, grid, group, idOf, (plot) => belowWords(grid, plot)),
    ],
    figures: { ...plotData(span, grid, group.plots, idOf), ...marks },
  };
};

const weeksList = ({ farm, weeks }: Asked): readonly string[] =>
  weeks.length === 0
    ? []
    : [
        section(
          'The same benches, some weeks on',
          '<ul>',
          ...weeks.map((week) => `<li>${escaped(week.date)}: ${prose(weekWords(farm, week))}`),
          '</ul>',
        ),
      ];

/** A search of plans as one page that needs nothing else; the answer is its first sentence. */
export const tunePage = (asked: Asked, found: Tuned): string => {
  const { farm, job, diff } = asked;
  const rows = choiceRows(farm, found);
  const plot = choicePlot(rows);
  const { sections, figures } = through(asked, found);
  const [says = '', ...limits] = answerText(asked, found);
  return wholePage({
    kind: 'search',
    title: `Search of plans for ${farm.farm}, ${job.date}`,
    mark: markOf(found),
    says,
    figures: { ...figures, choices: plot },
    sections: [
      ...searchHeading(asked, found).map(paragraph),
      ...sectionUnlessEmpty('What sets the number of floods', limits),
      ...(rows.length === 0
        ? []
        : [section('Choices', ...choiceFigure(asked, plot), choiceRowsTable(rows, choicesSay(asked.job)))]),
      ...sections,
      ...weeksList(asked),
      ...(diff === ''
        ? []
        : [section('The change', paragraph(changeSays(asked)), `<pre>${escaped(diff.trimEnd())}</pre>`)]),
      section('What it rests on', paragraph(RESTS_ON)),
    ],
  });
};
