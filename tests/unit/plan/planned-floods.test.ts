import { describe, expect, it } from 'vitest';
import { UNCHANGED, skyForSpan } from '../../../firmware-host/simulated-shed.ts';
import { rehearsedRun } from '../../../sim/run/rehearse.ts';
import type { Farm } from '../../../src/farm/farm.ts';
import { planGround, plannedFloods, type Floods } from '../../../src/plan/planned-floods.ts';
import { wallMillis } from '../../../src/time/instant.ts';
import { localDayOn, type LocalDay } from '../../../src/time/local-day.ts';
import { farmWith, type Change } from '../../support/farm.ts';

const MINUTE = 60_000;
const HOUR = 60;
const NO_RULE: Change = [['temperatureRule'], { referenceCelsius: 25, restPercentPerDegree: 0 }];
const WIDE: readonly Change[] = [
  [['bounds', 'restMinutesByDay'], { shortest: 5, longest: 240 }],
  [['bounds', 'restMinutesByNight'], { shortest: 5, longest: 240 }],
];

/** Floods of a farm from some minute on at one temperature. */
const planned = (farm: Farm, start: number, minutes: number, celsius = 25): Floods => {
  return plannedFloods(
    farm,
    planGround(farm, { start: wallMillis(start), minutes }, () => celsius),
  );
};

/** How many begin between two minutes, of which half a minute is rounding. */
const begun = ({ begins }: Floods, from: number, until: number): number =>
  begins.filter((begin) => begin > from - 0.5 && begin < until - 0.5).length;

const restsOf = ({ begins, ends }: Floods): readonly number[] =>
  Array.from(begins.subarray(1), (begin, place) => begin - ends[place]!);

const day = localDayOn('2026-07-15', 'Europe/Lisbon');
const part = (name: string, from: string, to: string, pace: object): object => ({
  part: name,
  from,
  to,
  floodMinutes: 10,
  ...pace,
});

describe('a part by number', () => {
  it.each([
    ['a number', { floods: 2 }],
    ['a number close to its own', { floods: 11 }],
    ['short rests', { restMinutes: 7 }],
    ['long rests', { restMinutes: 190 }],
  ])(
    'gives its number within one on each of five days, and 5 times it in all, next to %s',
    (_, neighbour) => {
      const farm = farmWith(
        [
          ['dayPlan'],
          [part('one', '06:00', '14:00', { floods: 6 }), part('other', '14:00', '06:00', neighbour)],
        ],
        NO_RULE,
        ...WIDE,
      );
      const floods = planned(farm, day.start, 5 * 24 * HOUR);
      const counts = Array.from({ length: 5 }, (_day, at) =>
        begun(floods, at * 24 * HOUR + 6 * HOUR, at * 24 * HOUR + 14 * HOUR),
      );
      for (const count of counts) expect(Math.abs(count - 6)).toBeLessThanOrEqual(1);
      expect(Math.abs(counts.reduce((sum, count) => sum + count, 0) - 30)).toBeLessThanOrEqual(1);
    },
  );

  it('that is bounded by the sun gives its number, longer apart in July than in December', () => {
    const plan = [
      part('light', 'sunrise', 'sunset', { floods: 6 }),
      part('dark', 'sunset', 'sunrise', { floods: 4 }),
    ];
    const farm = farmWith([['dayPlan'], plan], NO_RULE, ...WIDE);
    const apart = (date: string): number => {
      const { start } = localDayOn(date, 'Europe/Lisbon');
      const floods = planned(farm, start, 4 * 24 * HOUR);
      expect(Math.abs(begun(floods, 0, 4 * 24 * HOUR) - 40)).toBeLessThanOrEqual(1);
      const noon = floods.begins.findIndex((begin) => begin > 12 * HOUR);
      return floods.begins[noon + 1]! - floods.begins[noon]!;
    };
    // The sixth of 14 h 27 min and of 9 h 35 min.
    expect(apart('2026-07-15')).toBeCloseTo(867 / 6, 0);
    expect(apart('2026-12-15')).toBeCloseTo(575 / 6, 0);
  });

  it.each([
    ['2026-03-29', 23],
    ['2026-10-25', 25],
  ])('gives its number in a night of %s, a day of %d h', (date, hours) => {
    const changed = localDayOn(date, 'Europe/Lisbon');
    expect((changed.end - changed.start) / MINUTE / 60).toBe(hours);
    const plan = [
      part('night', '00:00', '06:00', { floods: 5 }),
      part('day', '06:00', '00:00', { floods: 9 }),
    ];
    const farm = farmWith([['dayPlan'], plan], NO_RULE, ...WIDE);
    const floods = planned(farm, changed.start, hours * HOUR);
    expect(begun(floods, 0, (hours - 18) * HOUR)).toBe(5);
    expect(begun(floods, (hours - 18) * HOUR, hours * HOUR)).toBe(9);
  });
});

describe('the bounds of a rest', () => {
  const farmOf = (pace: object, bounds: { shortest: number; longest: number }): Farm =>
    farmWith(
      [['dayPlan'], [part('all day', '00:00', '00:00', pace)]],
      [['temperatureRule'], { referenceCelsius: 25, restPercentPerDegree: -5 }],
      [['bounds', 'restMinutesByDay'], bounds],
      [['bounds', 'restMinutesByNight'], bounds],
    );

  it('hold however hot or cold it is', () => {
    for (const celsius of [-5, 10, 25, 40, 60])
      for (const rest of restsOf(
        planned(farmOf({ restMinutes: 40 }, { shortest: 30, longest: 60 }), day.start, 48 * HOUR, celsius),
      )) {
        expect(rest).toBeGreaterThanOrEqual(30 - 1e-9);
        expect(rest).toBeLessThanOrEqual(60 + 1e-9);
      }
  });

  it('are met to the minute: 12 floods a day where 1 is asked and 110 min is the longest', () => {
    const floods = planned(farmOf({ floods: 1 }, { shortest: 20, longest: 110 }), day.start, 24 * HOUR);
    expect(restsOf(floods).every((rest) => Math.abs(rest - 110) < 1e-6)).toBe(true);
    expect(floods.begins).toHaveLength(12);
  });
});

describe('the temperature rule', () => {
  const farm = farmWith(
    [['dayPlan'], [part('all day', '00:00', '00:00', { restMinutes: 50 })]],
    [['temperatureRule'], { referenceCelsius: 25, restPercentPerDegree: -4 }],
    ...WIDE,
  );

  it.each([
    [25, 50],
    [35, 30],
    [15, 70],
  ])('at %d °C makes rests of %d min of 50', (celsius, rest) => {
    for (const found of restsOf(planned(farm, day.start, 24 * HOUR, celsius)))
      expect(found).toBeCloseTo(rest, 6);
  });

  it('counts for the half of a rest that is left when the air changes: 50 min at 25 °C, then at 35 °C', () => {
    // 25 of 50 min have gone at 25 °C, so 35 of 60 min of the turn; the rest at 40 min a turn.
    const ground = planGround(farm, { start: day.start, minutes: 120 }, (at) =>
      at < day.start + 35 * MINUTE ? 25 : 35,
    );
    expect(plannedFloods(farm, ground).begins[1]).toBeCloseTo(35 + (25 / 60) * 40, 6);
  });
});

describe('the ground of a plan', () => {
  it('serves every plan whose parts begin and end alike: other floods on it are those on a ground of their own', () => {
    const farm = farmWith();
    const other = farmWith([['dayPlan', 3, 'floods'], 5]);
    const stretch = { start: day.start, minutes: 24 * HOUR };
    const shared = plannedFloods(
      other,
      planGround(farm, stretch, () => 30),
    );
    expect(shared).toEqual(
      plannedFloods(
        other,
        planGround(other, stretch, () => 30),
      ),
    );
    expect(shared).not.toEqual(
      plannedFloods(
        farm,
        planGround(farm, stretch, () => 30),
      ),
    );
  });
});

describe('on a calm day, where belief in dry roots has nothing to add', () => {
  const calm = (of: LocalDay): { readonly mine: readonly number[]; readonly theirs: readonly number[] } => {
    const farm = farmWith([['hotDay'], { minCelsius: 12, maxCelsius: 17, humidityPercent: 90 }], NO_RULE, [
      ['tank'],
      { litres: 2000, usualLitres: 1900, dryLitres: 60, topUp: 'by-hand' },
    ]);
    const span = { start: of.start, end: of.end };
    const found = skyForSpan(farm, { kind: 'hot-day' }, span, UNCHANGED);
    if (!found.ok) throw new Error(found.reason);
    const { entries } = rehearsedRun({ farm, span, sky: found.sky, faults: [], seed: 1 }, 'central');
    const theirs = entries.flatMap(({ kind, at }) =>
      kind === 'flood-started' && at >= span.start && at < span.end ? [at] : [],
    );
    // From the first of them on: how the twelve hours before began is another matter.
    const start = theirs[0]!;
    const { begins } = planned(farm, start, Math.floor((span.end - start) / MINUTE));
    return { mine: [...begins], theirs: theirs.map((at) => (at - start) / MINUTE) };
  };

  // Not exactly: the controller looks some minutes apart, so that it sees a day part begin that much later.
  it('they begin within two minutes of those of the controller in the simulated shed', () => {
    const { mine, theirs } = calm(day);
    expect(theirs.length).toBeGreaterThan(15);
    expect(mine).toHaveLength(theirs.length);
    for (const [place, minute] of theirs.entries())
      expect(Math.abs(mine[place]! - minute), `flood ${place}`).toBeLessThan(2);
  });
});
