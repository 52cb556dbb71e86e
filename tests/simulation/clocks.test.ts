import { describe, expect, it } from 'vitest';
import type { Farm } from '../../src/farm/farm.ts';
import { dayAfter, dayBefore, localDayOn } from '../../src/time/local-day.ts';
import { wallMillis } from '../../src/time/instant.ts';
import type { Change } from '../support/farm.ts';
import { HOUR, lowestTheta, restsOf, runShed, timesRaised, told } from './shed-run.ts';
import { clock, DAY, FARM, shedWith } from './sheds.ts';

const { bounds } = FARM;

/** The four benches at the ages that they have on the hot day. */
const farmOn = (today: string, sown: readonly string[], ...changes: readonly Change[]): Farm =>
  shedWith(
    [['invented', 'today'], today],
    ...sown.map((date, bench): Change => [['benches', bench, 'sown'], date]),
    ...changes,
  );
/** Neither air nor bounds move a rest: the plan alone decides how many floods each part gets. */
const PLAN_ALONE: readonly Change[] = [
  [['temperatureRule', 'restPercentPerDegree'], 0],
  [['bounds', 'restMinutesByNight'], { shortest: 10, longest: 300 }],
];

/** Invariant I9 and fault F23: the night of the plan holds the hour that is skipped or comes twice. */
describe.each([
  ['23 hours on 2026-03-29', '2026-03-29', 23, ['2026-03-11', '2026-02-17', '2026-02-21', '2026-02-27']],
  ['25 hours on 2026-10-25', '2026-10-25', 25, ['2026-10-07', '2026-09-15', '2026-09-19', '2026-09-25']],
] as const)('a local day of %s in Lisbon', (_, date, hours, sown) => {
  const day = localDayOn(date, 'Europe/Lisbon');
  const span = { fromMillis: dayBefore(day).start, untilMillis: dayAfter(day).end };

  it('gives each part the floods of the plan, also the night across the change', () => {
    expect((day.end - day.start) / HOUR).toBe(hours);
    const run = runShed({ farm: farmOn(date, sown, ...PLAN_ALONE), ...span });
    const floods = (part: string, from: number, to: number): number =>
      told(run, 'flood-started').filter((one) => one.part === part && one.at >= from && one.at < to).length;
    expect(floods('night', clock(12, dayBefore(day)), clock(12, day))).toBe(3);
    expect(floods('early morning', day.start, day.end)).toBe(2);
    expect(floods('late afternoon', day.start, day.end)).toBe(4);
    expect(floods('night', clock(12, day), clock(12, dayAfter(day)))).toBe(3);
    // Eight hours in turns of 25 min rest and 20 min flood are 10.7.
    expect([10, 11]).toContain(floods('heat of the day', day.start, day.end));
  });

  it('has no rest beyond the longest of 210 min by night, none inside the shortest of 10 by day', () => {
    const farm = farmOn(date, sown);
    const run = runShed({ farm, ...span });
    const rests = restsOf(run).map(({ minutes }) => minutes);
    expect(Math.max(...rests)).toBeLessThanOrEqual(bounds.restMinutesByNight.longest + 0.1);
    expect(Math.min(...rests)).toBeGreaterThanOrEqual(bounds.restMinutesByDay.shortest - 0.1);
    expect(timesRaised(run)).toEqual({});
    expect(lowestTheta(run)).toBeGreaterThan(farm.floors.stress);
  });
});

describe('a wall clock that steps at noon of a hot day and stays wrong for two days more', () => {
  it.each([12, -12, 6, -3])(
    'by %d h: benches stay wet, no rest by day is beyond 75 min, and it is told once',
    (step) => {
      const noon = clock(12);
      const run = runShed({
        farm: FARM,
        fromMillis: DAY.start,
        untilMillis: DAY.start + 72 * HOUR,
        wall: (at) => wallMillis(at < noon ? at : at + step * HOUR),
      });
      expect(timesRaised(run)).toEqual({ 'clock-stepped': 1 });
      expect(told(run, 'alarm-returned')).toEqual([]);
      expect(lowestTheta(run)).toBeGreaterThan(FARM.floors.stress);
      const after = restsOf(run).filter(({ endMillis }) => endMillis > noon);
      expect(Math.max(...after.map(({ minutes }) => minutes))).toBeLessThanOrEqual(
        bounds.restMinutesByDay.longest,
      );
      expect(Math.min(...after.map(({ minutes }) => minutes))).toBeGreaterThanOrEqual(
        bounds.restMinutesByDay.shortest - 0.1,
      );
    },
  );

  it('by 12 h, and somebody acknowledges its alarm by text: benches stay wet all the same', () => {
    const noon = clock(12);
    const run = runShed({
      farm: FARM,
      fromMillis: DAY.start,
      untilMillis: DAY.end,
      wall: (at) => wallMillis(at < noon ? at : at + 12 * HOUR),
      tells: {
        millis: noon + HOUR / 6,
        event: { kind: 'acknowledge', alarm: 'clock-stepped', who: 'Ana' },
      },
    });
    expect(told(run, 'alarm-acknowledged')).toHaveLength(1);
    expect(told(run, 'alarm-returned')).toEqual([]);
    expect(lowestTheta(run)).toBeGreaterThan(FARM.floors.stress);
  });

  it('and back after 3 h is believed again, and its alarm returns', () => {
    const run = runShed({
      farm: FARM,
      fromMillis: DAY.start,
      untilMillis: DAY.end,
      wall: (at) => wallMillis(at < clock(12) || at >= clock(15) ? at : at + 12 * HOUR),
    });
    const [returned] = told(run, 'alarm-returned');
    expect(returned?.alarm).toBe('clock-stepped');
    expect(returned!.at - clock(15)).toBeLessThanOrEqual(5 * 60_000);
    expect(told(run, 'flood-started').at(-1)!.reason).not.toMatch(/time of day unknown/);
  });
});

/** Fault F22, its usual form: a small computer without a battery clock goes on from the last time on its disk. */
describe('a clock that goes on from the last time on the disk, and that nothing has set since', () => {
  const behind = (hours: number) => (at: number) => wallMillis(at - hours * HOUR);
  const span = { fromMillis: clock(9), untilMillis: clock(21) };

  it.each([3, 6, 9, 10, 12, 15, 24 * 130])(
    '%d h behind: benches stay wet, and it is told once, within 45 min',
    (hours) => {
      const run = runShed({ farm: FARM, ...span, wall: behind(hours), isClockUnset: true });
      expect(lowestTheta(run)).toBeGreaterThan(FARM.floors.stress);
      expect(timesRaised(run)).toEqual({ 'clock-stepped': 1 });
      expect(told(run, 'alarm-raised')[0]!.at - clock(9)).toBeLessThanOrEqual(45 * 60_000);
    },
  );

  it('9 h behind and believed a bench wilts: what the doubt is for', () => {
    const run = runShed({ farm: FARM, ...span, wall: behind(9) });
    expect(lowestTheta(run)).toBeLessThan(FARM.floors.wilt);
  });

  it('is believed once the network has set it, and its alarm returns', () => {
    const set = clock(12);
    const run = runShed({
      farm: FARM,
      ...span,
      wall: (at) => (at < set ? behind(9)(at) : wallMillis(at)),
      isClockUnset: true,
      tells: { millis: set, event: { kind: 'clock-set' } },
    });
    expect(told(run, 'alarm-returned').map(({ alarm }) => alarm)).toEqual(['clock-stepped']);
    expect(told(run, 'flood-started').at(-1)!.reason).not.toMatch(/time of day unknown/);
    expect(lowestTheta(run)).toBeGreaterThan(FARM.floors.stress);
  });
});

describe('a host that does not know the time', () => {
  it.each([
    ['that wakes in 1970', (at: number) => wallMillis(at - DAY.start)],
    ['without any clock', () => 'unknown' as const],
  ])('%s keeps every bench above its stress floor for two hot days', (_, wall) => {
    const run = runShed({ farm: FARM, fromMillis: DAY.start, untilMillis: DAY.start + 48 * HOUR, wall });
    expect(lowestTheta(run)).toBeGreaterThan(FARM.floors.stress);
    // The part with the shortest rest counts throughout: 25 min, give or take the temperature rule.
    expect(Math.max(...restsOf(run).map(({ minutes }) => minutes))).toBeLessThanOrEqual(25.1);
    expect(timesRaised(run)).toEqual({});
    expect(told(run, 'flood-started').at(-1)!.reason).toMatch(/time of day unknown/);
  });
});
