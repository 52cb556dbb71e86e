import { describe, expect, it } from 'vitest';
import { courseOf, rowsOf, type Course } from '../../../firmware-host/report/course.ts';
import { gridOf, stretchesOf, ticksOf } from '../../../firmware-host/report/grid.ts';
import type { Rehearsal } from '../../../firmware-host/cli/rehearsal.ts';
import { plotGroups } from '../../../firmware-host/report/plot.ts';
import type { Moment } from '../../../firmware-host/simulated-shed.ts';
import { localDayOn } from '../../../src/time/local-day.ts';
import { day, rehearsalOf } from '../cli/made-rehearsal.ts';

const MINUTE = 60_000;

/** A moment so many minutes after midnight, with a tank of so many litres. */
const moment = (minutes: number, tankLitres: number): Moment => ({
  atMillis: day.start + minutes * MINUTE,
  thetas: [],
  waterCelsius: [],
  oxygenMilligramsPerLitre: [],
  strengths: [],
  tankLitres,
  tankCelsius: 20,
  tankStrength: 1.5,
});

const withMoments = (...runs: readonly (readonly Moment[])[]): Rehearsal => {
  const made = rehearsalOf(runs.map(() => ({})));
  return {
    ...made,
    outcomes: made.outcomes.map((outcome, run) => ({ ...outcome, moments: runs[run] ?? [] })),
  };
};
const litres = ({ tankLitres }: Moment): number => tankLitres;

describe('the courses of all runs', () => {
  it('are 5, 50 and 95 % of the runs: of 0, 10 … 100 they are 5, 50 and 95', () => {
    const runs = Array.from({ length: 11 }, (_, run) => [moment(0, run * 10)]);
    const { low, middle, high } = courseOf(gridOf(withMoments(...runs).outcomes), litres);
    expect([low, middle, high]).toEqual([[5], [50], [95]]);
  });

  it('are told of the runs that have a figure, unless fewer than half of them have one', () => {
    const grid = gridOf(
      withMoments([moment(0, 1), moment(5, 1)], [moment(0, 2), moment(5, 9)], [moment(0, 9), moment(5, 9)])
        .outcomes,
    );
    const { middle } = courseOf(grid, ({ tankLitres }) => (tankLitres > 5 ? null : tankLitres));
    expect(middle).toEqual([1.5, null]);
  });
});

describe('the rows of a table', () => {
  it('tell of each hour the lowest or highest of every run', () => {
    const rehearsal = withMoments([moment(0, 100), moment(30, 40), moment(60, 70)]);
    const grid = gridOf(rehearsal.outcomes);
    const told = (mind: 'lowest' | 'highest'): readonly unknown[] =>
      rowsOf(grid, stretchesOf(rehearsal), litres, mind).map(({ text, band }) => [text, band?.middle]);
    expect(told('lowest')).toEqual([
      ['00:00', 40],
      ['01:00', 70],
    ]);
    expect(told('highest')).toEqual([
      ['00:00', 100],
      ['01:00', 70],
    ]);
  });

  it.each([
    ['2026-03-29', 23, '02:00'],
    ['2026-07-15', 24, '01:00'],
    ['2026-10-25', 25, '01:00'],
  ])('of %s are %d hours of the local clock, the second from %s', (date, hours, second) => {
    const changed = localDayOn(date, 'Europe/Lisbon');
    const rehearsal = { ...rehearsalOf([{}]), day: changed, endMillis: changed.end };
    const stretches = stretchesOf(rehearsal);
    expect(stretches).toHaveLength(hours);
    expect(stretches[1]?.text).toBe(second);
    expect(stretches.at(-1)).toMatchObject({ untilMillis: changed.end, text: '23:00' });
    expect(ticksOf(rehearsal).map(({ text }) => text)).toContain('12:00');
  });

  it('are days where the rehearsal goes over several', () => {
    const rehearsal = { ...rehearsalOf([{}]), days: 3 };
    expect(stretchesOf(rehearsal).map(({ text }) => text)).toEqual(['15 July', '16 July', '17 July']);
    expect(ticksOf(rehearsal).map(({ text }) => text)).toEqual(['15', '16', '17']);
  });
});

describe('the points of a plot', () => {
  const looks = Array.from({ length: 9 * 24 }, (_, hour) => moment(hour * 60, hour % 24 === 15 ? 300 : 500));
  const tankOf = (days: number): Course => {
    const rehearsal = { ...withMoments(looks), days };
    const groups = plotGroups(rehearsal, gridOf(rehearsal.outcomes));
    return groups.at(-1)!.plots[0]!.course;
  };

  it('are every look over up to 7 days: 216 of them', () => {
    expect(tankOf(7).middle).toHaveLength(9 * 24);
  });

  it('are one a day over 8 and more, the lowest litres of the tank', () => {
    expect(tankOf(9).middle).toEqual(Array.from({ length: 9 }, () => 300));
  });
});
