import { describe, expect, it } from 'vitest';
import {
  courseAcross,
  NO_COURSE,
  type TankCourse,
  type TankSlope,
} from '../../../src/estimate/tank-course.ts';
import { farmWith } from '../../support/farm.ts';
import { minute } from '../../support/moments.ts';

/** 600 L: a leak is 15 L/h or more, and one that is known is over below 7.5. */
const farm = farmWith([['evidence'], { returnFlow: 'none', tankFloat: false, tankLevel: true }]);
const slope = (at: number, beyondLitresPerHour: number): TankSlope => ({
  at: minute(at),
  beyondLitresPerHour,
  drunkLitresPerHour: 5,
  fellLitresPerHour: beyondLitresPerHour + 5,
});
const course = (is: TankCourse['course'], beyond: readonly number[], litres = 580): TankCourse => ({
  ...NO_COURSE,
  course: is,
  slopes: beyond.map((one, place) => slope(60 * place, one)),
  last: { at: minute(60 * beyond.length), litres },
});
const LEAKS = course('falls', [30, 30, 30]);
const across = (before: TankCourse, ours: TankCourse): TankCourse => courseAcross(farm, before, ours);

describe('the course of the tank over two hosts, of which the later learns late of the earlier', () => {
  it('is the earlier one’s where the later one saw no moment, with its last', () => {
    expect(across({ ...LEAKS, unfilledLitres: 210 }, NO_COURSE)).toEqual({ ...LEAKS, unfilledLitres: 210 });
  });

  it.each([
    ['one slope without a leak', [0], 'falls'],
    ['two', [0, 0], 'well'],
    ['three', [0, 0, 0], 'well'],
    ['three of a leak that is slower and known', [10, 10, 10], 'falls'],
    ['two of one that is as it was', [30, 30], 'falls'],
  ] as const)('after a leak and %s of its own (%j L/h) it is %s', (_, beyond, is) => {
    expect(across(LEAKS, course('well', beyond)).course).toBe(is);
  });

  it('is told by slopes of both, where neither had enough', () => {
    expect(across(course('well', [30, 30]), course('well', [30])).course).toBe('falls');
    expect(across(course('well', [30, 30]), course('well', [])).course).toBe('well');
  });

  it('is the later one’s where that has seen a leak', () => {
    expect(across(course('well', [0, 0, 0]), LEAKS).course).toBe('falls');
    expect(across(course('well', [0, 0, 0]), LEAKS).slopes).toEqual(LEAKS.slopes);
  });

  it('keeps a tank that is not topped up so until it has been filled', () => {
    const low = { ...course('well', [0, 0, 0], 200), unfilledLitres: 205 };
    expect(across(low, course('well', [0], 230)).unfilledLitres).toBe(205);
    expect(across(low, course('well', [0], 180)).unfilledLitres).toBe(180);
    expect(across(low, course('well', [0], 500)).unfilledLitres).toBeNull();
    expect(across(course('well', [0]), low).unfilledLitres).toBe(205);
  });
});
