import { hasPlants } from '../../src/farm/standing.ts';
import { dayView } from '../../src/plan/day-view.ts';
import { MILLIS_PER_MINUTE } from '../../src/time/instant.ts';
import { itemAt } from '../../src/units/assertion.ts';
import { points as pointsText, type ChoiceRow } from '../cli/tune-table.ts';
import type { Judged } from '../tune/choices.ts';
import type { PlanSetting } from '../tune/setting.ts';
import { openTrials, type TuneJob } from '../tune/trials.ts';
import type { Quantity } from './course.ts';
import { daysOf, drawnByDay, gridOf, type Grid, type Span } from './grid.ts';
import { heldWater, OXYGEN, plotsOf, type Plot, type PlotGroup } from './plot.ts';

/** One choice as it is drawn: a band of its margin over the runs, and a mark at the driest. */
export interface ChoicePoint {
  /** Floods a day, moved aside where another choice has as many. */
  readonly x: number;
  readonly low: number;
  readonly middle: number;
  readonly high: number;
  readonly driest: number;
  readonly mark: 'smallest' | 'fails' | 'holds';
  /** Words above the band and below its mark. */
  readonly above: string;
  readonly below: string;
  readonly says: string;
}

/** What the plot of margin against number of floods is made of. */
export interface ChoicePlot {
  readonly points: readonly ChoicePoint[];
  readonly least: number;
  readonly most: number;
  readonly xLeast: number;
  readonly xMost: number;
}

const STEP_POINTS = 10;
/** So many bands fit side by side into the narrowest page. */
const BANDS_WIDE = 16;

/** Moved apart where two lie closer than a band is wide; each heap stays about its middle. */
const apart = (rising: readonly number[], gap: number): readonly number[] => {
  const heaps: number[][] = [];
  for (const value of rising) {
    const heap = heaps.at(-1);
    if (heap !== undefined && value - (heap.at(-1) ?? value) < gap) heap.push(value);
    else heaps.push([value]);
  }
  return heaps.flatMap((heap) => {
    const middle = heap.reduce((sum, value) => sum + value, 0) / heap.length;
    return heap.map((_, place) => middle + (place - (heap.length - 1) / 2) * gap);
  });
};

const percent = (share: number): number => Number((share * 100).toFixed(1));

const pointOf = ({ isSmallest, isPresent, cells }: ChoiceRow, judged: Judged, x: number): ChoicePoint => {
  const { margin, marginLeast, isSafe, failing, trials } = judged;
  const [plan = ''] = cells;
  const short = isSafe ? '' : `, short in ${failing} of ${trials.length} runs`;
  return {
    x: Number(x.toFixed(3)),
    low: percent(margin.low),
    middle: percent(margin.middle),
    high: percent(margin.high),
    driest: percent(marginLeast),
    mark: isSmallest ? 'smallest' : isSafe ? 'holds' : 'fails',
    above: isSmallest ? '→ fewest safe' : '',
    below: isPresent ? '○ farm file' : '',
    says: `${plan}: ${pointsText(marginLeast)} in the driest run, middle ${pointsText(margin.middle)}${short}`,
  };
};

/** Margin against number of floods, of every choice that the whole model has run; null where there is none. */
export const choicePlot = (rows: readonly ChoiceRow[]): ChoicePlot | null => {
  const drawn = rows
    .flatMap((row) => {
      const { judged, candidate } = row.choice;
      return judged === null || !Number.isFinite(judged.marginLeast)
        ? []
        : [{ row, judged, floods: candidate.cost.floods }];
    })
    .toSorted((a, b) => a.floods - b.floods);
  const floods = drawn.map((each) => each.floods);
  const [fewest] = floods;
  if (fewest === undefined) return null;
  const width = Math.max(1, (floods.at(-1) ?? fewest) - fewest);
  const gap = width / BANDS_WIDE;
  const xs = apart(floods, gap);
  const points = drawn.map(({ row, judged }, place) => pointOf(row, judged, xs[place] ?? NaN));
  const room = width / 8;
  return {
    points,
    // Room for the words above and below, and for the wilt floor.
    least: Math.floor(Math.min(0, ...points.map(({ driest }) => driest)) / STEP_POINTS - 0.5) * STEP_POINTS,
    most: Math.ceil(Math.max(0, ...points.map(({ high }) => high)) / STEP_POINTS + 1) * STEP_POINTS,
    xLeast: Math.min(...xs) - room,
    xMost: Math.max(...xs) + room,
  };
};

/** The worst of the planted benches; null where there is none. */
const worstOf =
  ({ farm }: Span, values: (moment: Parameters<Quantity>[0]) => readonly number[]): Quantity =>
  (moment) => {
    const planted = values(moment).filter((_, place) => hasPlants(itemAt(farm.benches, place)));
    return planted.length === 0 ? null : Math.min(...planted);
  };

/** Water and oxygen of the worst bench through the days, under the smallest safe plan; null where its runs were not watched. */
export const smallestPlots = (
  span: Span,
  { trials }: Judged,
): { readonly grid: Grid; readonly group: PlotGroup } | null => {
  const grid = gridOf(trials);
  if (grid.atMillis.length === 0) return null;
  const one = (title: string, quantity: Quantity, measure: typeof OXYGEN): readonly Plot[] =>
    plotsOf(span, grid, measure, { subjects: [{ title, quantity }], besideThem: null });
  const held = heldWater(span.farm.floors);
  return {
    grid,
    group: {
      title: 'Water and oxygen of the worst bench',
      says: `Of all planted benches the worst at each moment, on the whole ${span.days > 1 ? 'days' : 'day'}, no flood missed; what falls outside the tuned parts shows here too. ${held.says} ${OXYGEN.says}${drawnByDay(span) ? ' Drawn is the lowest of each day.' : ''}`,
      plots: [
        ...one(
          'Held water of the driest bench',
          worstOf(span, ({ thetas }) => thetas.map((theta) => theta * 100)),
          held,
        ),
        ...one(
          'Oxygen of the worst bench',
          worstOf(span, (moment) => moment.oxygenMilligramsPerLitre),
          OXYGEN,
        ),
      ],
    },
  };
};

/** Stretches in minutes from the beginning of the first day. */
export type Stretches = readonly (readonly [from: number, until: number])[];

/** From sunset to sunrise. */
export const nightsOf = (span: Span): Stretches => {
  const minute = (atMillis: number): number => Math.round((atMillis - span.day.start) / MILLIS_PER_MINUTE);
  const dark = daysOf(span).flatMap(({ start, end }) => {
    const { sunrise, sunset } = dayView(span.farm, start);
    return [
      [minute(start), minute(Math.max(start, sunrise))],
      [minute(Math.min(end, sunset)), minute(end)],
    ] as const;
  });
  // An evening and the morning after are one night.
  return dark
    .flatMap(([from, until], place) => {
      const next = place % 2 === 1 ? dark[place + 1] : undefined;
      if (place > 0 && place % 2 === 0) return [];
      return [[from, next === undefined ? until : next[1]] as const];
    })
    .filter(([from, until]) => until > from);
};

/** Floods of a plan that begin in the span, in the weather of the central run. */
export const floodsIn = (job: TuneJob, setting: PlanSetting): Stretches => {
  const { stretch, centralFloods } = openTrials(job);
  const { begins, ends } = centralFloods(setting);
  return Array.from(begins, (begin, place): readonly [number, number] => [begin, ends[place] ?? begin])
    .filter(([begin]) => begin >= stretch.fromMinute && begin < stretch.untilMinute)
    .map(([begin, end]) => [begin - stretch.fromMinute, end - stretch.fromMinute]);
};
