import { benchReports, RESTS_ON, type Rehearsal } from '../cli/rehearsal.ts';
import { hangsOnText, oxygenText } from '../cli/rehearsal-doubt.ts';
import { heading, totals } from '../cli/rehearsal-report.ts';
import { besideWaterText } from '../cli/rehearsal-strength.ts';
import { verdictText } from '../cli/rehearsal-verdict.ts';
import { alarmList } from './alarm-list.ts';
import { benchCards, stateOf } from './bench-cards.ts';
import { gridOf, type Grid } from './grid.ts';
import { paragraph } from './markup.ts';
import { MARKS, NO_SCRIPT, section, sectionUnlessEmpty, wholePage, type PageMark } from './page-shell.ts';
import { plotGroups, type Plot } from './plot.ts';
import { plotData } from './plot-data.ts';
import { belowWords, pointWords, plotSection } from './plot-section.ts';
import { floodRibbon } from './ribbon.ts';

const VERDICT_MARKS: Readonly<Record<Rehearsal['verdict']['kind'], PageMark>> = {
  holds: MARKS.well,
  'holds-unless-missed': MARKS.caution,
  'may-wilt': MARKS.danger,
};

const howToRead = ({ outcomes, days }: Rehearsal): string =>
  (outcomes.length === 1
    ? 'The line is the one run, without draws: how far it may be off is not shown. '
    : `Line: half of the ${outcomes.length} runs are below it. Grey band: 5 to 95 % of the runs. Dots: the middle of the tank. `) +
  `Filled red: below the wilt floor, or too low for the pump. Hatched brown: below a level to be minded. Local time${days > 1 ? ', a number for each day of the month' : ''}. Touch a plot to read a moment in all of them.`;

const WORST = 'water, oxygen and tank at their lowest, temperature and strength at their highest';

/** In words what a plot shows to be wrong; of the water of a bench, when it may wilt. */
const wrong = (rehearsal: Rehearsal, grid: Grid, plot: Plot): string => {
  const report = benchReports(rehearsal).find(({ bench }) => bench === plot.title);
  return plot.unit === '%' && report !== undefined ? stateOf(rehearsal, report) : belowWords(grid, plot);
};

/** The rehearsal as one page that needs nothing else; the verdict is its first sentence. */
export const reportPage = (rehearsal: Rehearsal): string => {
  const { farm, day, verdict } = rehearsal;
  const grid = gridOf(rehearsal.outcomes);
  const groups = plotGroups(rehearsal, grid);
  const plots = groups.flatMap((group) => group.plots);
  const idOf = (plot: Plot): string => `plot-${plots.indexOf(plot)}`;
  const mark =
    VERDICT_MARKS[
      verdict.kind === 'holds' && besideWaterText(rehearsal).length > 0 ? 'holds-unless-missed' : verdict.kind
    ];
  return wholePage({
    kind: 'rehearsal',
    title: `Rehearsal of ${farm.farm}, ${day.date}`,
    mark,
    says: verdictText(rehearsal),
    figures: plotData(rehearsal, grid, plots, idOf),
    sections: [
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
              paragraph(pointWords(grid, WORST)),
              NO_SCRIPT,
            ),
            ...groups.map((group) =>
              plotSection(rehearsal, grid, group, idOf, (plot) => wrong(rehearsal, grid, plot)),
            ),
          ]),
      section('The central run in figures', ...totals(rehearsal).map(paragraph)),
    ],
  });
};
