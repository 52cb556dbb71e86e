import type { Farm } from '../../src/farm/farm.ts';
import { hasPlants } from '../../src/farm/standing.ts';
import type { Rehearsal } from '../cli/rehearsal.ts';
import { OXYGEN_HARMS } from '../simulated-shed.ts';
import { courseOf, courseOfRows, rowsOf, type Course, type Mind, type Quantity } from './course.ts';
import { drawnByDay, stretchesOf, type Grid, type Span } from './grid.ts';

/** A level with a name, drawn across a plot. What is below one with a `harm` is marked. */
export interface Level {
  readonly at: number;
  readonly text: string;
  /** What is said of a run that goes below it. */
  readonly below: string;
  readonly harm: 'danger' | 'caution' | null;
}

/** One plot: a bench or the tank, one quantity. */
export interface Plot {
  readonly title: string;
  readonly unit: string;
  readonly digits: number;
  readonly mind: Mind;
  readonly quantity: Quantity;
  readonly course: Course;
  /** The middle of the tank's own course, beside that of a bench. */
  readonly tank: Course['middle'] | null;
  readonly levels: readonly Level[];
  readonly least: number;
  readonly most: number;
}

/** Plots that are read side by side, on one scale. */
export interface PlotGroup {
  readonly title: string;
  readonly says: string;
  readonly plots: readonly Plot[];
}

/** A quantity as it is plotted, whoever it is of. */
export interface Measure {
  readonly title: string;
  readonly says: string;
  readonly unit: string;
  readonly digits: number;
  readonly mind: Mind;
  readonly levels: readonly Level[];
  /** The scale holds at least these. */
  readonly holds: readonly number[];
  /** The scale ends at a multiple of this. */
  readonly step: number;
}

/** Whose quantity a plot shows. */
export interface Subject {
  readonly title: string;
  readonly quantity: Quantity;
}

interface Asked extends Measure {
  readonly ofBench: ((moment: Parameters<Quantity>[0], place: number) => number | null) | null;
  readonly ofTank: Quantity | null;
}

const extent = (lists: readonly Course['low'][]): { readonly least: number; readonly most: number } =>
  lists
    .flat()
    .filter((value) => value !== null)
    .reduce(({ least, most }, value) => ({ least: Math.min(least, value), most: Math.max(most, value) }), {
      least: Infinity,
      most: -Infinity,
    });

/** One plot for each subject, on one scale. */
export const plotsOf = (
  span: Span,
  grid: Grid,
  { unit, digits, mind, levels, holds, step }: Measure,
  { subjects, besideThem }: { readonly subjects: readonly Subject[]; readonly besideThem: Subject | null },
): readonly Plot[] => {
  const drawnCourse = ({ quantity }: Subject): Course =>
    drawnByDay(span)
      ? courseOfRows(rowsOf(grid, stretchesOf(span), quantity, mind))
      : courseOf(grid, quantity);
  const tank = besideThem === null ? null : drawnCourse(besideThem).middle;
  const all = subjects.map((subject) => ({
    ...subject,
    course: drawnCourse(subject),
    tank: subject === besideThem ? null : tank,
  }));
  const { least, most } = extent([holds, ...all.flatMap(({ course }) => [course.low, course.high])]);
  return all.map((each) => ({
    ...each,
    unit,
    digits,
    mind,
    levels,
    least: Math.floor(least / step) * step,
    most: Math.ceil(most / step) * step,
  }));
};

const groupOf = (rehearsal: Rehearsal, grid: Grid, asked: Asked): PlotGroup => {
  const { title, says, mind, ofBench, ofTank } = asked;
  const benches =
    ofBench === null
      ? []
      : rehearsal.farm.benches.flatMap((bench, place): readonly Subject[] =>
          // Nothing is at stake where nothing grows.
          !hasPlants(bench) ? [] : [{ title: bench.name, quantity: (moment) => ofBench(moment, place) }],
        );
  const tank = ofTank === null ? null : { title: 'Tank', quantity: ofTank };
  return {
    title,
    says: drawnByDay(rehearsal) ? `${says} Drawn is the ${mind} of each day.` : says,
    plots: plotsOf(rehearsal, grid, asked, {
      subjects: tank === null ? benches : [...benches, tank],
      besideThem: tank,
    }),
  };
};

export const heldWater = ({ stress, wilt }: Farm['floors']): Measure => ({
  title: 'Held water',
  says: 'Water that the roots hold back, in % of what they can hold. Below the stress floor growth slows; below the wilt floor plants begin to wilt.',
  unit: '%',
  digits: 1,
  mind: 'lowest',
  levels: [
    { at: stress * 100, text: 'stress floor', below: 'Below its stress floor', harm: 'caution' },
    { at: wilt * 100, text: 'wilt floor', below: 'Below its wilt floor', harm: 'danger' },
  ],
  holds: [0, 100],
  step: 10,
});

export const OXYGEN: Measure = {
  title: 'Oxygen',
  says: `Oxygen in the water about the roots, in mg/L. Down to ${OXYGEN_HARMS.unharmed} mg/L growth is known to be unharmed; below it nobody can promise that.`,
  unit: 'mg/L',
  digits: 2,
  mind: 'lowest',
  levels: [
    {
      at: OXYGEN_HARMS.unharmed,
      text: `${OXYGEN_HARMS.unharmed} mg/L`,
      below: `Below ${OXYGEN_HARMS.unharmed} mg/L`,
      harm: 'caution',
    },
  ],
  holds: [0, 8],
  step: 2,
};

/** Everything that is plotted, in the order in which a grower asks for it. */
export const plotGroups = (rehearsal: Rehearsal, grid: Grid): readonly PlotGroup[] => {
  const { wilt } = rehearsal.farm.floors;
  const { litres, dryLitres } = rehearsal.farm.tank;
  const asked: readonly Asked[] = [
    {
      ...heldWater(rehearsal.farm.floors),
      ofBench: ({ thetas }, place) => (thetas[place] ?? 0) * 100,
      ofTank: null,
    },
    {
      title: 'Water temperature',
      says: 'Of the water about the roots and in the tank, in °C.',
      unit: '°C',
      digits: 1,
      mind: 'highest',
      ofBench: ({ waterCelsius }, place) => waterCelsius[place] ?? 0,
      ofTank: ({ tankCelsius }) => tankCelsius,
      levels: [],
      holds: [],
      step: 5,
    },
    {
      ...OXYGEN,
      ofBench: (moment, place) => moment.oxygenMilligramsPerLitre[place] ?? 0,
      ofTank: null,
    },
    {
      title: 'Strength',
      says: 'Strength (EC) of the water about the roots and in the tank, in mS/cm at 25 °C. Not told of a bench below its wilt floor: next to no water is left there.',
      unit: 'mS/cm',
      digits: 2,
      mind: 'highest',
      ofBench: ({ strengths, thetas }, place) =>
        (thetas[place] ?? 0) > wilt ? (strengths[place] ?? null) : null,
      ofTank: ({ tankStrength }) => tankStrength,
      levels: [],
      holds: [0],
      step: 0.5,
    },
    {
      title: 'Tank',
      says: 'Water in the tank, in L. It falls while a flood fills the channels and comes back as they drain.',
      unit: 'L',
      digits: 0,
      mind: 'lowest',
      ofBench: null,
      ofTank: ({ tankLitres }) => tankLitres,
      levels: [{ at: dryLitres, text: 'pump runs dry', below: 'Too low for the pump', harm: 'danger' }],
      holds: [0, litres],
      step: 100,
    },
  ];
  return asked.map((each) => groupOf(rehearsal, grid, each));
};
