import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Farm } from '../../../src/farm/farm.ts';
import { dayView, isByDay } from '../../../src/plan/day-view.ts';
import { paceNow, type Pace } from '../../../src/plan/pace.ts';
import type { Reading } from '../../../src/sense/reading.ts';
import { wallMillis } from '../../../src/time/instant.ts';
import { exampleFarm } from '../../support/farm.ts';
import { absent, good, stale, suspect, utc } from '../../support/moments.ts';
import { between } from '../../support/between.ts';

const VIEW = dayView(exampleFarm, utc('2026-07-14T12:00Z'));
const celsius = between(-20, 60);
const wall = fc.option(
  fc.integer({ min: VIEW.day.start, max: VIEW.day.end - 1 }).map((instant) => wallMillis(instant)),
  { nil: 'unknown' as const },
);
const air: fc.Arbitrary<Reading<number>> = fc.oneof(
  celsius.map((value) => good(value)),
  celsius.map((value) => stale(value)),
  celsius.map((value) => suspect(value)),
  fc.constant(absent),
);

const farmRuledBy = (restPercentPerDegree: number, floodPercentPerDegree: number): Farm => ({
  ...exampleFarm,
  temperatureRule: { ...exampleFarm.temperatureRule, restPercentPerDegree, floodPercentPerDegree },
});
const percent = fc.integer({ min: -20, max: 20 });

const pace = (farm: Farm, moment: Parameters<typeof paceNow>[2], reading: Reading<number>): Pace =>
  paceNow(farm, VIEW, moment, reading);

describe('at any hour, temperature and rule', () => {
  it('rest and flood stay inside the bounds of the hour', () => {
    fc.assert(
      fc.property(percent, percent, wall, air, (rest, flood, moment, reading) => {
        const { restMinutes, floodMinutes } = pace(farmRuledBy(rest, flood), moment, reading);
        const { bounds } = exampleFarm;
        const byDay = moment === 'unknown' || isByDay(VIEW, moment);
        const { shortest, longest } = byDay ? bounds.restMinutesByDay : bounds.restMinutesByNight;
        expect(restMinutes).toBeGreaterThanOrEqual(shortest);
        expect(restMinutes).toBeLessThanOrEqual(longest);
        expect(floodMinutes).toBeGreaterThanOrEqual(bounds.floodMinutes.shortest);
        expect(floodMinutes).toBeLessThanOrEqual(bounds.floodMinutes.longest);
      }),
      { numRuns: 1000 },
    );
  });

  it('hotter air never lengthens a rest whose rule is a minus, nor shortens a flood whose rule is a plus', () => {
    const minus = fc.integer({ min: -20, max: 0 });
    const plus = fc.integer({ min: 0, max: 20 });
    fc.assert(
      fc.property(minus, plus, wall, celsius, celsius, (rest, flood, moment, one, other) => {
        const farm = farmRuledBy(rest, flood);
        const cooler = pace(farm, moment, good(Math.min(one, other)));
        const hotter = pace(farm, moment, good(Math.max(one, other)));
        expect(hotter.restMinutes).toBeLessThanOrEqual(cooler.restMinutes);
        expect(hotter.floodMinutes).toBeGreaterThanOrEqual(cooler.floodMinutes);
      }),
      { numRuns: 500 },
    );
  });

  it('a reading that is not good never gives a longer rest or a shorter flood than any good one', () => {
    const ruled = percent.filter((value) => value !== 0);
    fc.assert(
      fc.property(ruled, percent, wall, celsius, (rest, flood, moment, value) => {
        const farm = farmRuledBy(rest, flood);
        const known = pace(farm, moment, good(value));
        for (const reading of [absent, stale(value), suspect(value)]) {
          const blind = pace(farm, moment, reading);
          expect(blind.restMinutes).toBeLessThanOrEqual(known.restMinutes);
          expect(blind.floodMinutes).toBeGreaterThanOrEqual(known.floodMinutes);
        }
      }),
      { numRuns: 500 },
    );
  });

  it('every reason is words with numbers that can be: never below 0 and never “NaN”', () => {
    fc.assert(
      fc.property(percent, wall, air, (rest, moment, reading) => {
        const { why } = pace(farmRuledBy(rest, 0), moment, reading);
        expect(why).toMatch(/\d min/);
        expect(why.replace(/-[\d.]+ °C/, '')).not.toMatch(/NaN|undefined|Infinity|-\d/);
      }),
    );
  });
});
