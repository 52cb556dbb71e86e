import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { DayPart, Farm } from '../../../src/farm/farm.ts';
import { dayView, isByDay } from '../../../src/plan/day-view.ts';
import {
  keeperTable,
  readTable,
  tableBytes,
  type KeeperPart,
  type KeeperTable,
} from '../../../src/plan/keeper-table.ts';
import { paceNow } from '../../../src/plan/pace.ts';
import { wallMillis, type WallMillis } from '../../../src/time/instant.ts';
import { localDayOn } from '../../../src/time/local-day.ts';
import { clockChanges } from '../../support/clock-changes.ts';
import { exampleFarm, movedTo } from '../../support/farm.ts';
import { good } from '../../support/moments.ts';
import { between } from '../../support/between.ts';

const MINUTE = 60_000;

const pace = fc.oneof(
  fc.integer({ min: 6, max: 720 }).map((halves) => ({ kind: 'rest' as const, restMinutes: halves / 2 })),
  fc.integer({ min: 1, max: 12 }).map((floods) => ({ kind: 'number' as const, floods })),
);
/** A day of 1 to 14 parts by the clock. */
const clockPlan: fc.Arbitrary<readonly DayPart[]> = fc
  .uniqueArray(fc.integer({ min: 0, max: 1439 }), { minLength: 1, maxLength: 14 })
  .chain((starts) => {
    const froms = [...starts]
      .sort((a, b) => a - b)
      .map((minuteOfDay) => ({ kind: 'clock' as const, minuteOfDay }));
    return fc.tuple(
      ...froms.map((from, place) =>
        fc.record({ pace, floodMinutes: between(0.5, 60) }).map((part) => ({
          name: `part ${place}`,
          from,
          to: froms[(place + 1) % froms.length]!,
          ...part,
        })),
      ),
    );
  });
const bounds = (
  least: number,
  most: number,
): fc.Arbitrary<{ readonly shortest: number; readonly longest: number }> =>
  fc
    .tuple(between(least, most), between(least, most))
    .filter(([a, b]) => a !== b)
    .map(([a, b]) => ({ shortest: Math.min(a, b), longest: Math.max(a, b) }));

const changes = clockChanges(2026);
/** Farms whose numbers keep to the limits of the farm file and to nothing else. */
const farms: fc.Arbitrary<Farm> = fc
  .record({
    dayPlan: fc.oneof(clockPlan, fc.constant(exampleFarm.dayPlan)),
    byDay: bounds(3, 360),
    byNight: bounds(3, 360),
    flood: bounds(0.5, 60),
    longestOnMinutes: between(1, 90),
    referenceCelsius: between(0, 45),
    restPercentPerDegree: between(-20, 0),
    floodPercentPerDegree: between(-20, 20),
    min: fc.integer({ min: -10, max: 39 }),
    span: fc.integer({ min: 1, max: 16 }),
    change: fc.constantFrom(...changes),
  })
  .map((made): Farm => {
    const { temperatureRule, bounds: old, hotDay, pump } = exampleFarm;
    const { referenceCelsius, restPercentPerDegree, floodPercentPerDegree } = made;
    return movedTo(
      {
        ...exampleFarm,
        dayPlan: made.dayPlan,
        pump: { ...pump, longestOnMinutes: made.longestOnMinutes },
        temperatureRule: {
          ...temperatureRule,
          referenceCelsius,
          restPercentPerDegree,
          floodPercentPerDegree,
        },
        bounds: {
          ...old,
          restMinutesByDay: made.byDay,
          restMinutesByNight: made.byNight,
          floodMinutes: made.flood,
        },
        hotDay: { ...hotDay, minCelsius: made.min, maxCelsius: made.min + made.span },
      },
      made.change,
    );
  });

/** Any day of the year; those on which the clocks of the farm change come often. */
const farmDays: fc.Arbitrary<readonly [Farm, string]> = farms.chain((farm) => {
  const format = new Intl.DateTimeFormat('sv-SE', { timeZone: farm.place.timeZone });
  const own = changes
    .filter(({ timeZone }) => timeZone === farm.place.timeZone)
    .map(({ at }) => format.format(at));
  const anyDay = fc
    .integer({ min: 0, max: 364 })
    .map((day) => new Date(Date.UTC(2026, 0, 1 + day)).toISOString().slice(0, 10));
  return fc.tuple(fc.constant(farm), own.length === 0 ? anyDay : fc.oneof(anyDay, fc.constantFrom(...own)));
});

const tableOf = (farm: Farm, date: string): KeeperTable => {
  const plan = keeperTable(farm, date);
  if (plan.kind === 'impossible') throw new Error(plan.why);
  return plan.table;
};
/** As the page says: the last part that has begun, or the last of all. */
const partAt = ({ parts }: KeeperTable, minute: number): KeeperPart =>
  parts.findLast(({ fromMinute }) => fromMinute <= minute) ?? parts.at(-1)!;

/** Instants of a day, with what the local clock shows by `Intl`. */
const moments = (
  farm: Farm,
  date: string,
  everyMillis: number,
): readonly (readonly [WallMillis, number])[] => {
  const { start, end } = localDayOn(date, farm.place.timeZone);
  const format = new Intl.DateTimeFormat('en-GB', {
    timeZone: farm.place.timeZone,
    hourCycle: 'h23',
    hour: '2-digit',
    minute: '2-digit',
  });
  const found: (readonly [WallMillis, number])[] = [];
  for (let at = start as number; at < end; at += everyMillis) {
    const [hour, minute] = format.format(at).split(':').map(Number);
    found.push([wallMillis(at), hour! * 60 + minute!]);
  }
  return found;
};

describe('the keeper table of any farm on any day', () => {
  it('at no minute rests longer, or floods shorter, than the plan itself does on its hot day', () => {
    fc.assert(
      fc.property(farmDays, ([farm, date]) => {
        const table = tableOf(farm, date);
        const view = dayView(farm, localDayOn(date, farm.place.timeZone).start);
        const { minCelsius, maxCelsius } = farm.hotDay;
        for (const [wall, minute] of moments(farm, date, 61_000)) {
          const celsius = isByDay(view, wall) ? maxCelsius : (minCelsius + maxCelsius) / 2;
          const plan = paceNow(farm, view, wall, good(celsius));
          const part = partAt(table, minute);
          expect(part.restSeconds).toBeLessThanOrEqual(plan.restMinutes * 60 + 1e-6);
          // Longest-on may be no whole second; the board has the seconds.
          const most = Math.floor(farm.pump.longestOnMinutes * 60);
          expect(part.floodSeconds).toBeGreaterThanOrEqual(Math.min(plan.floodMinutes * 60 - 1e-6, most));
        }
      }),
      { numRuns: 60 },
    );
  });

  it('in the cool never rests longer than the plan does at any temperature up to the reference', () => {
    const cooler = between(-20, 0);
    fc.assert(
      fc.property(farmDays, cooler, ([farm, date], degrees) => {
        const table = tableOf(farm, date);
        const view = dayView(farm, localDayOn(date, farm.place.timeZone).start);
        const air = good(farm.temperatureRule.referenceCelsius + degrees);
        for (const [wall, minute] of moments(farm, date, 7 * MINUTE)) {
          const plan = paceNow(farm, view, wall, air);
          expect(partAt(table, minute).coolRestSeconds).toBeLessThanOrEqual(plan.restMinutes * 60 + 1e-6);
        }
      }),
      { numRuns: 60 },
    );
  });

  it('begins its parts on whole five minutes, has at most 8, and reads back from its bytes', () => {
    fc.assert(
      fc.property(farmDays, ([farm, date]) => {
        const table = tableOf(farm, date);
        for (const { fromMinute } of table.parts) expect(fromMinute % 5).toBe(0);
        expect(table.parts.length).toBeLessThanOrEqual(8);
        const longestOn = Math.floor(farm.pump.longestOnMinutes * 60);
        expect(readTable(tableBytes(table), longestOn)).toEqual({ kind: 'table', table });
      }),
      { numRuns: 60 },
    );
  });
});

describe('the keeper table of the example farm', () => {
  it('on each of 365 days keeps to its plan at every quarter of an hour', () => {
    const { maxCelsius } = exampleFarm.hotDay;
    for (let day = 0; day < 365; day += 1) {
      const date = new Date(Date.UTC(2026, 0, 1 + day)).toISOString().slice(0, 10);
      const table = tableOf(exampleFarm, date);
      const view = dayView(exampleFarm, localDayOn(date, exampleFarm.place.timeZone).start);
      for (const [wall, minute] of moments(exampleFarm, date, 15 * MINUTE)) {
        if (!isByDay(view, wall)) continue;
        const { restMinutes } = paceNow(exampleFarm, view, wall, good(maxCelsius));
        const { restSeconds } = partAt(table, minute);
        expect(restSeconds).toBeLessThanOrEqual(restMinutes * 60 + 1e-6);
      }
    }
  });
});
