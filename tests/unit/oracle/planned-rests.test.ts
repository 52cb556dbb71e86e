import { describe, expect, it } from 'vitest';
import { plannedRests } from '../../../sim/oracle/invariants/planned-rests.ts';
import { brokenAtHours, madeDay, type MadeDay } from './made-record.ts';

const NIGHT = 120;
/** The part of the day begins at 6:00 and ends about 21:20; whoever rests at its pace in between is in no doubt about it. */
const isDay = (hour: number): boolean => hour >= 6 && hour < 20;
const asPlanned =
  (day: number, night = NIGHT) =>
  (hour: number): number =>
    isDay(hour) ? day : night;
/** As planned, but for the rest that begins between these hours. */
const onceIn =
  ([from, until]: readonly [number, number], minutes: number) =>
  (hour: number): number =>
    hour >= from && hour < until ? minutes : asPlanned(25)(hour);

const at = (celsius: number) => (): number => celsius;
const breaches = (day: MadeDay): number => plannedRests(madeDay(day)).length;

describe('a rest, to the judge of due floods', () => {
  it.each<readonly [string, MadeDay, number]>([
    ['of 27.9 min by day at 25 °C is planned: 25 and 3 of slack', { rest: onceIn([10, 10.7], 27.9) }, 0],
    ['of 28.1 min is not', { rest: onceIn([10, 10.7], 28.1) }, 1],
    ['of 35 min at 15 °C is, for it is 30 % longer', { rest: asPlanned(35), celsius: at(15) }, 0],
    ['of 36 min at 15 °C is not', { rest: onceIn([10, 10.7], 36), celsius: at(15) }, 1],
    ['of 123.5 min by night is not', { rest: onceIn([2, 4.5], 123.5) }, 1],
    ['of 120 min that ends by day and began by night is', { rest: onceIn([5, 6], 120) }, 0],
    [
      'of 70 min is where the farm file lets rests be stretched',
      { rest: onceIn([10, 10.7], 70), stretch: { oneMissMarginMin: 0.1 } },
      0,
    ],
    ['of 70 min is not where it does not', { rest: onceIn([10, 10.7], 70) }, 1],
    ['that never ends is not: no flood from 10:00 to the end', { rest: onceIn([10, 10.7], 20_000) }, 1],
    ['still open at the end after 85 min by day is not', { rest: onceIn([11, 11.7], 90), endHour: 12.6 }, 1],
    ['still open after 25 min is', { rest: onceIn([11, 11.7], 90), endHour: 11.6 }, 0],
  ])('%s', (_, day, count) => {
    expect(breaches(day)).toBe(count);
  });

  const long = { rest: onceIn([10, 10.7], 60) };
  it.each<readonly [string, MadeDay['broken'], number]>([
    ['is due to a pump that gave nothing', [brokenAtHours('pump-dead', [10.5, 11])], 0],
    ['is due to no pump that worked again at 9:00', [brokenAtHours('pump-dead', [8, 9])], 1],
    ['is due to a slow thermometer', [brokenAtHours('sensor-slow', [9, 12], 'air-temperature')], 0],
    ['is due to no slow humidity sensor', [brokenAtHours('sensor-slow', [9, 12], 'humidity')], 1],
    ['is due to no thermometer in the sun, which reads too hot', [brokenAtHours('air-in-sun', [9, 12])], 1],
    ['is due to no thermometer that is silent', [brokenAtHours('air-silent', [9, 12])], 1],
    ['is due to no clock that jumped while a host lived', [brokenAtHours('clock-ahead', [9, 12])], 1],
    [
      'is due to one that stood wrong when a host began',
      [brokenAtHours('clock-ahead', [7, 12]), brokenAtHours('host-killed', [7.5, 8])],
      0,
    ],
    ['is due to no power cut that was over at 8:00', [brokenAtHours('host-killed', [7.5, 8])], 1],
  ])('of an hour by day %s', (_, broken = [], count) => {
    expect(breaches({ ...long, broken })).toBe(count);
  });
});
