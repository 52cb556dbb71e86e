import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { courseDoubt, courseWith, type Course, type CourseLimits } from '../../../src/sense/course.ts';
import { second } from '../../support/moments.ts';
import { between } from '../../support/between.ts';

/** At most 3 a minute; must move by more than 0.1 in two hours. */
const LIMITS: CourseLimits = { perMinuteMax: 3, still: { within: 0.1, minutes: 120 } };
type Point = readonly [seconds: number, value: number];

const courseOf = (points: readonly Point[], plausible: (value: number) => boolean): Course => {
  const [first, ...rest] = points.map(([at, value]) => ({ value, at: second(at) }));
  return rest.reduce(
    (course, point) => courseWith(course, point, LIMITS, plausible),
    courseWith(undefined, first!, LIMITS, plausible),
  );
};
const doubtAt = (
  seconds: number,
  points: readonly Point[],
  plausible: (value: number) => boolean = Number.isFinite,
): string | undefined => courseDoubt(courseOf(points, plausible), LIMITS, second(seconds));

/** Every half minute, from 0 to `seconds`. */
const steady = (seconds: number, valueAt: (second: number) => number): readonly Point[] =>
  Array.from({ length: seconds / 30 + 1 }, (_, step): Point => [30 * step, valueAt(30 * step)]);

describe('a jump', () => {
  it('is none at 3 a minute for an hour, up or down', () => {
    expect(
      doubtAt(
        3600,
        steady(3600, (at) => (3 * at) / 60),
      ),
    ).toBeUndefined();
    expect(
      doubtAt(
        3600,
        steady(3600, (at) => (-3 * at) / 60),
      ),
    ).toBeUndefined();
  });

  it('is seen at 3.1 a minute although no two readings of a second are far apart', () => {
    const points = Array.from({ length: 61 }, (_, at): Point => [at, (3.1 * at) / 60]);
    expect(doubtAt(60, points)).toBe('jumped');
  });

  it('there and back again within a second is one, and over 5 min later', () => {
    const points: readonly Point[] = [...steady(60, () => 20), [61, 30], [62, 20], [361, 20]];
    expect(doubtAt(361, points)).toBe('jumped');
    expect(doubtAt(362, points)).toBeUndefined();
  });

  it('from 20 to 30, wandering there, is held against the 20: over after half a day, or 5 min after 20 is back', () => {
    const there: readonly Point[] = [
      [0, 20],
      [1, 30],
      // A rate is taken over half a minute, so the jump is seen until then.
      [31, 30],
    ];
    const away = Array.from({ length: 30 }, (_, step): Point => [61 + 60 * step, 30 + (step % 2)]);
    expect(doubtAt(1801, [...there, ...away])).toBe('jumped');
    expect(doubtAt(43_230, [...there, ...away])).toBe('jumped');
    expect(doubtAt(43_231, [...there, ...away])).not.toBe('jumped');
    const back: readonly Point[] = [[1860, 20]];
    expect(doubtAt(1860 + 299, [...there, ...away, ...back])).toBe('jumped');
    expect(doubtAt(1860 + 300, [...there, ...away, ...back])).toBeUndefined();
  });

  it('of 1.6 by noise is over after 5 min for good, though the day warms by 5 degrees in the hours after', () => {
    const noise: readonly Point[] = [
      [0, 20],
      [30, 21.6],
      [60, 20],
    ];
    const warming = steady(7200, (at) => 20 + at / 1440).slice(3);
    expect(doubtAt(330, [...noise, ...warming.slice(0, 8)])).toBe('jumped');
    expect(doubtAt(7200, [...noise, ...warming])).toBeUndefined();
  });

  it('a second one while the first stands begins the half day anew and is held against the first start', () => {
    const points: readonly Point[] = [
      [0, 20],
      [1, 30],
      [1800, 30],
      [1801, 50],
    ];
    const ends = 1801 + 43_200;
    expect(doubtAt(ends - 1, points)).toBe('jumped');
    const back: readonly Point[] = [...points, [1900, 21]];
    expect(doubtAt(1900 + 300, back)).toBeUndefined();
  });

  it('to or from what is no number is one as well', () => {
    expect(doubtAt(2, [...steady(0, () => 20), [1, NaN], [2, 20]])).toBe('jumped');
    expect(doubtAt(1, [...steady(0, () => NaN), [1, 20]])).toBe('jumped');
  });
});

describe('stillness', () => {
  it('of 0.09 is told after 2 h, not before, and of 0.11 never', () => {
    const flicker = (by: number): readonly Point[] => steady(14_400, (at) => 20 + ((at / 30) % 2) * by);
    expect(doubtAt(7200, flicker(0.09))).toBeUndefined();
    expect(doubtAt(7201, flicker(0.09))).toBe('has not moved for 2 hours');
    expect(doubtAt(14_400, flicker(0.11))).toBeUndefined();
  });

  it('is not ended by a reading that cannot be one', () => {
    const points: readonly Point[] = [...steady(3600, () => 20), [3630, -273], ...steady(0, () => 20)];
    const ordered = [...points.slice(0, -1), [3660, 20] as const];
    const plausible = (value: number): boolean => value > -50;
    expect(doubtAt(7201, ordered, plausible)).toBe('has not moved for 2 hours');
    expect(doubtAt(7201, ordered)).toBeUndefined();
  });
});

describe('whatever a sensor says', () => {
  it('one step of more than 3 within half a minute is doubted for the next 5 min', () => {
    fc.assert(
      fc.property(
        fc.array(between(-50, 100), { minLength: 1, maxLength: 10 }),
        between(3.01, 100),
        fc.integer({ min: 0, max: 299 }),
        (values, step, later) => {
          const points = values.map((value, place): Point => [place, value]);
          const last = points.length - 1;
          const end: Point = [last + 1, points[last]![1] + step];
          expect(doubtAt(last + 1 + later, [...points, end])).toBe('jumped');
        },
      ),
    );
  });
});
