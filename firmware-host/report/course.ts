import { bandOf, type Band, type Moment } from '../simulated-shed.ts';
import type { Grid, Stretch } from './grid.ts';

/** How one quantity went through the span, over all runs: each list by moment, null where nothing is to be told. */
export interface Course {
  readonly low: readonly (number | null)[];
  readonly middle: readonly (number | null)[];
  readonly high: readonly (number | null)[];
}

/** Null where the quantity means nothing. */
export type Quantity = (moment: Moment) => number | null;

/** Of the runs in which there is a figure; null where that is not even half of them, and no middle could be told. */
const bandWhereTold = (values: readonly (number | null)[]): Band | null => {
  const told = values.filter((value) => value !== null);
  return told.length === 0 || told.length * 2 < values.length ? null : bandOf(told);
};

export const courseOf = ({ atMillis, runs }: Grid, quantity: Quantity): Course => {
  const bands = atMillis.map((_, place) =>
    bandWhereTold(
      runs.map((moments) => {
        const moment = moments[place];
        return moment === undefined ? null : quantity(moment);
      }),
    ),
  );
  return {
    low: bands.map((band) => band?.low ?? null),
    middle: bands.map((band) => band?.middle ?? null),
    high: bands.map((band) => band?.high ?? null),
  };
};

/** The rows of a table as a course, one point each. */
export const courseOfRows = (rows: readonly CourseRow[]): Course => ({
  low: rows.map(({ band }) => band?.low ?? null),
  middle: rows.map(({ band }) => band?.middle ?? null),
  high: rows.map(({ band }) => band?.high ?? null),
});

/** Which end of a quantity is the one to mind. */
export type Mind = 'lowest' | 'highest';

export interface CourseRow {
  readonly text: string;
  readonly band: Band | null;
}

const extremeOf = (values: readonly (number | null)[], mind: Mind): number | null =>
  values
    .filter((value) => value !== null)
    .reduce<number | null>(
      (found, value) =>
        found === null ? value : mind === 'lowest' ? Math.min(found, value) : Math.max(found, value),
      null,
    );

/** Of each stretch the extreme of every run, as a band over the runs; a stretch without a look has no row. */
export const rowsOf = (
  { atMillis, runs }: Grid,
  stretches: readonly Stretch[],
  quantity: Quantity,
  mind: Mind,
): readonly CourseRow[] =>
  stretches.flatMap(({ fromMillis, untilMillis, text }) => {
    const within = (at: number): boolean => at >= fromMillis && at < untilMillis;
    if (!atMillis.some(within)) return [];
    const extremes = runs.map((moments) =>
      extremeOf(moments.filter((_, place) => within(atMillis[place] ?? NaN)).map(quantity), mind),
    );
    return [{ text, band: bandWhereTold(extremes) }];
  });
