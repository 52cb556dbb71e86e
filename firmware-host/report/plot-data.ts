import type { Rehearsal } from '../cli/rehearsal.ts';
import { drawnByDay, momentWords, stretchesOf, ticksOf, type Grid } from './grid.ts';
import type { Course } from './course.ts';
import type { Plot } from './plot.ts';

const MINUTE_MILLIS = 60_000;

/** Where along the span the points of every plot stand, and what they are called. */
const pointsOf = (rehearsal: Rehearsal, grid: Grid, minutes: (atMillis: number) => number): object => {
  if (!drawnByDay(rehearsal))
    return {
      minutes: grid.atMillis.map(minutes),
      moments: grid.atMillis.map((at) => momentWords(rehearsal, at)),
    };
  const days = stretchesOf(rehearsal);
  return {
    minutes: days.map(({ fromMillis, untilMillis }) => minutes((fromMillis + untilMillis) / 2)),
    moments: days.map(({ text }) => text),
  };
};

/** What the script of the page draws; along the span all is in minutes from its beginning. */
export const plotData = (
  rehearsal: Rehearsal,
  grid: Grid,
  plots: readonly Plot[],
  idOf: (plot: Plot) => string,
): object => {
  const minutes = (atMillis: number): number => Math.round((atMillis - rehearsal.day.start) / MINUTE_MILLIS);
  return {
    until: minutes(rehearsal.endMillis),
    ...pointsOf(rehearsal, grid, minutes),
    ticks: ticksOf(rehearsal).map(({ atMillis, text }) => ({ at: minutes(atMillis), text })),
    plots: plots.map((plot) => {
      // As many digits as are shown: the page stays small.
      const short = (values: Course['low']): Course['low'] =>
        values.map((value) => (value === null ? null : Number(value.toFixed(plot.digits))));
      const { low, middle, high } = plot.course;
      return {
        id: idOf(plot),
        unit: plot.unit,
        digits: plot.digits,
        least: plot.least,
        most: plot.most,
        levels: plot.levels,
        low: short(low),
        middle: short(middle),
        high: short(high),
        tank: plot.tank === null ? null : short(plot.tank),
      };
    }),
  };
};
