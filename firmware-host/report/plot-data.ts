import { drawnByDay, momentWords, stretchesOf, ticksOf, type Grid, type Span } from './grid.ts';
import type { Course } from './course.ts';
import type { Plot } from './plot.ts';

const MINUTE_MILLIS = 60_000;

/** Where along the span the points of every plot stand, and what they are called. */
const pointsOf = (span: Span, grid: Grid, minutes: (atMillis: number) => number): object => {
  if (!drawnByDay(span))
    return {
      minutes: grid.atMillis.map(minutes),
      moments: grid.atMillis.map((at) => momentWords(span, at)),
    };
  const days = stretchesOf(span);
  return {
    minutes: days.map(({ fromMillis, untilMillis }) => minutes((fromMillis + untilMillis) / 2)),
    moments: days.map(({ text }) => text),
  };
};

/** What the script of the page draws; along the span all is in minutes from its beginning. */
export const plotData = (
  span: Span,
  grid: Grid,
  plots: readonly Plot[],
  idOf: (plot: Plot) => string,
): object => {
  const minutes = (atMillis: number): number => Math.round((atMillis - span.day.start) / MINUTE_MILLIS);
  return {
    until: minutes(span.endMillis),
    ...pointsOf(span, grid, minutes),
    ticks: ticksOf(span).map(({ atMillis, text }) => ({ at: minutes(atMillis), text })),
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
