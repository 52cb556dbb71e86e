import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { partSpans } from '../../../src/farm/day-boundaries.ts';
import type { Farm } from '../../../src/farm/farm.ts';
import { LIMITS } from '../../../src/farm/limits.ts';
import { parseFarm } from '../../../src/farm/parse.ts';
import { physicsWarnings } from '../../../src/farm/physics-check.ts';
import { localDayOn } from '../../../src/time/local-day.ts';
import { changed, exampleFile, type Change } from './example.ts';

type Path = readonly (string | number)[];

/** The path of every value in the file, blocks and lists as well. */
const pathsOf = (value: unknown, path: Path = []): readonly Path[] => {
  if (typeof value !== 'object' || value === null) return [path];
  const inner = Array.isArray(value)
    ? value.flatMap((item, place) => pathsOf(item, [...path, place]))
    : Object.entries(value).flatMap(([key, item]) => pathsOf(item, [...path, key]));
  return path.length === 0 ? inner : [path, ...inner];
};

const exampleAt = (path: Path): unknown =>
  path.reduce<unknown>((value, step) => (value as Record<string | number, unknown>)[step], exampleFile());

const PATHS = pathsOf(exampleFile());

const boundary = fc.oneof(
  fc.constantFrom(
    '06:00',
    '08:00',
    '16:00',
    '24:00',
    'sunset+00:30',
    'sunrise-06:00',
    'sunset+05:30',
    '25:00',
  ),
);
/** Values that are near enough to be accepted now and then, and values that never are. */
const value = fc.oneof(
  { weight: 4, arbitrary: fc.double({ min: 0, max: 100 }) },
  { weight: 3, arbitrary: fc.integer({ min: 0, max: 700 }) },
  { weight: 3, arbitrary: boundary },
  {
    weight: 2,
    arbitrary: fc.constantFrom('butterhead', 'basil', 'Bench 1', '2026-06-05', '2026-07-20', 'by-hand'),
  },
  {
    weight: 1,
    arbitrary: fc.constantFrom(undefined, null, NaN, Infinity, -0, '', [], {}, true, '__proto__'),
  },
  { weight: 1, arbitrary: fc.jsonValue() },
);
const replaced: fc.Arbitrary<Change> = fc.tuple(fc.constantFrom(...PATHS), value);
/** Numbers moved up or down by up to a third: often still a farm. */
const scaled: fc.Arbitrary<Change> = fc
  .tuple(
    fc.constantFrom(...PATHS.filter((path) => typeof exampleAt(path) === 'number')),
    fc.integer({ min: 4, max: 8 }),
  )
  .map(([path, sixths]) => [path, (Number(exampleAt(path)) * sixths) / 6]);
const mutation = fc.oneof(replaced, scaled);

const inside = (
  number: number,
  { least, most }: { readonly least: number; readonly most: number },
): boolean => number >= least && number <= most;

/** What everything behind the parser relies on. */
const expectTrusted = (farm: Farm): void => {
  expect(new Set(farm.benches.map(({ name }) => name)).size).toBe(farm.benches.length);
  for (const bench of farm.benches) {
    expect(bench.traits.harvestDays).toBeGreaterThan(0);
    expect(bench.litresPerMinute).toBeGreaterThan(0);
    expect(bench.plants).toBeGreaterThanOrEqual(0);
  }
  for (const { floodMinutes, pace } of farm.dayPlan) {
    expect(inside(floodMinutes, LIMITS.floodMinutes)).toBe(true);
    expect(floodMinutes).toBeLessThanOrEqual(farm.pump.longestOnMinutes);
    expect(floodMinutes).toBeGreaterThanOrEqual(farm.bounds.floodMinutes.shortest);
    if (pace.kind === 'rest') expect(inside(pace.restMinutes, LIMITS.restMinutes)).toBe(true);
    else expect(Number.isInteger(pace.floods) && pace.floods > 0).toBe(true);
  }
  expect(farm.floors.wilt).toBeLessThan(farm.floors.stress);
  expect(farm.tank.dryLitres).toBeLessThan(farm.tank.usualLitres);
  expect(farm.tank.usualLitres).toBeLessThanOrEqual(farm.tank.litres);
  expect(farm.hotDay.minCelsius).toBeLessThan(farm.hotDay.maxCelsius);
  const day = localDayOn('2026-07-14', farm.place.timeZone);
  const spans = partSpans(farm.dayPlan, farm.place, day);
  expect([spans[0]!.start, spans.at(-1)!.end]).toEqual([day.start, day.end]);
  spans.slice(1).forEach((span, place) => {
    expect(span.start).toBe(spans[place]!.end);
  });
};

describe('random changes of a farm file', () => {
  it('never throw, and give either problems or a farm that holds what the rest relies on', () => {
    let accepted = 0;
    fc.assert(
      fc.property(fc.array(mutation, { minLength: 1, maxLength: 3 }), (mutations) => {
        let raw = exampleFile();
        try {
          raw = changed(...mutations);
        } catch {
          // A later change may reach into what an earlier one removed.
          fc.pre(false);
        }
        const parsed = parseFarm(raw);
        if (!parsed.ok) {
          expect(parsed.problems.length).toBeGreaterThan(0);
          for (const { found, allowed, problem } of parsed.problems) {
            expect([found, allowed, problem]).not.toContain('');
          }
          return;
        }
        accepted += 1;
        expectTrusted(parsed.farm);
        expect(Array.isArray(physicsWarnings(parsed.farm, '2026-07-14'))).toBe(true);
      }),
      { numRuns: 300, seed: 20260714 },
    );
    // With this seed; were it none, the second half of the property would have been empty.
    expect(accepted).toBeGreaterThan(40);
  });

  it('any JSON at all is refused with problems', () => {
    fc.assert(
      fc.property(fc.jsonValue(), (raw) => {
        expect(parseFarm(raw).ok).toBe(false);
      }),
      { numRuns: 300, seed: 7 },
    );
  });
});
