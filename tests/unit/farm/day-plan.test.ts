import { describe, expect, it } from 'vitest';
import type { FarmProblem } from '../../../src/farm/parse.ts';
import { placesOf, problemsWith, type Change } from './example.ts';

interface Part {
  readonly part: string;
  readonly from: string;
  readonly to: string;
  readonly floods: number;
  readonly floodMinutes: number;
}

const part = (name: string, from: string, to: string, floods = 1): Part => ({
  part: name,
  from,
  to,
  floods,
  floodMinutes: 20,
});

const withPlan = (parts: readonly Part[], ...changes: readonly Change[]): readonly FarmProblem[] =>
  problemsWith([['dayPlan'], parts], ...changes);

const POLAR: Change = [
  ['place'],
  { latitudeDegrees: 69.6, longitudeDegrees: 18.9, elevationMetres: 10, timeZone: 'Europe/Oslo' },
];

describe('the day plan', () => {
  it('names both parts and their times at a gap of 30 min', () => {
    const problems = withPlan([part('day', '06:00', '18:00'), part('night', '18:30', '06:00')]);
    expect(problems).toMatchObject([
      {
        path: ['dayPlan', 1, 'from'],
        found: '“day” ends at 18:00, “night” begins at 18:30',
        problem: 'Between “day” and “night” there is a gap of 30 min.',
      },
    ]);
  });

  it('names both parts at an overlap of 45 min', () => {
    const problems = withPlan([part('day', '06:00', '18:00'), part('night', '17:15', '06:00')]);
    expect(problems).toMatchObject([{ problem: '“day” and “night” overlap by 45 min.' }]);
  });

  it('points at the end of the last part when it does not meet the first', () => {
    const problems = withPlan([part('day', '06:00', '18:00'), part('night', '18:00', '05:00')]);
    expect(problems).toMatchObject([
      {
        path: ['dayPlan', 1, 'to'],
        found: '“night” ends at 05:00, “day” begins at 06:00',
        problem: 'Between “night” and “day” there is a gap of 60 min.',
      },
    ]);
  });

  it('tells every break at once', () => {
    const problems = withPlan([
      part('a', '06:00', '12:00'),
      part('b', '12:10', 'sunset'),
      part('c', 'sunset+00:10', '05:50'),
    ]);
    expect(placesOf(problems)).toEqual(['dayPlan.2.to', 'dayPlan.1.from', 'dayPlan.2.from']);
  });

  it('finds a break beside a boundary that cannot be read', () => {
    const problems = withPlan([
      part('a', '06:00', 'noon'),
      part('b', '12:00', '18:00'),
      part('c', '18:10', '06:00'),
    ]);
    expect(placesOf(problems)).toEqual(['dayPlan.0.to', 'dayPlan.2.from']);
  });

  it('a single part may cover the whole day; beside others it may not', () => {
    expect(withPlan([part('all day', '06:00', '06:00')])).toEqual([]);
    expect(withPlan([part('all day', '00:00', '24:00')])).toEqual([]);
    const problems = withPlan([part('a', '06:00', '06:00'), part('b', '06:00', '06:00')]);
    expect(placesOf(problems)).toEqual(['dayPlan.0.to', 'dayPlan.1.to']);
  });

  it('refuses parts that go twice round the day', () => {
    const problems = withPlan([
      part('a', '06:00', '12:00'),
      part('b', '12:00', '10:00'),
      part('c', '10:00', '06:00'),
    ]);
    expect(problems).toHaveLength(1);
    expect(problems[0]!.problem).toMatch(/more than once round the day/);
  });

  it('refuses sunset-00:30 after 17:30 in Ribeira: out of order on 97 winter days, at worst on 6 December', () => {
    const problems = withPlan([
      part('day', '06:00', '17:30'),
      part('evening', '17:30', 'sunset-00:30'),
      part('night', 'sunset-00:30', '06:00'),
    ]);
    expect(problems).toMatchObject([
      {
        path: ['dayPlan', 1, 'to'],
        found: '“evening” from 17:30 to sunset-00:30 (16:44) on 6 December',
        problem: 'As the sun times move, this part would end before it begins on 97 days of the year.',
      },
    ]);
  });

  it.each([
    ['starting at night', [part('night', '22:00', '06:00'), part('day', '06:00', '22:00')]],
    ['sunrise to sunset', [part('day', 'sunrise', 'sunset'), part('night', 'sunset', 'sunrise')]],
    [
      'over midnight in summer',
      [
        part('day', '05:00', 'sunset'),
        part('evening', 'sunset', 'sunset+04:30', 2),
        part('night', 'sunset+04:30', '05:00'),
      ],
    ],
  ])('accepts a plan %s', (_, parts) => {
    expect(withPlan(parts)).toEqual([]);
  });

  it('accepts sunrise to sunset at 69.6° N, where one of the two has no time for weeks', () => {
    expect(withPlan([part('day', 'sunrise', 'sunset'), part('night', 'sunset', 'sunrise')], POLAR)).toEqual(
      [],
    );
  });

  it('refuses an hour before sunrise and after sunset at 69.6° N, where they cross in June', () => {
    const problems = withPlan(
      [part('day', 'sunrise-01:00', 'sunset+01:00'), part('night', 'sunset+01:00', 'sunrise-01:00')],
      POLAR,
    );
    expect(placesOf(problems)).toEqual(['dayPlan.1.to']);
  });

  it('refuses 6 floods of 20 min in a part of 2 h, and takes 5', () => {
    const plan = (floods: number): readonly Part[] => [
      part('early', '06:00', '08:00', floods),
      part('rest', '08:00', '06:00'),
    ];
    expect(withPlan(plan(6))).toMatchObject([
      { path: ['dayPlan', 0, 'floods'], found: '6 floods of 20 min, 120 min together' },
    ]);
    expect(withPlan(plan(5))).toEqual([]);
  });
});
