import { describe, expect, it } from 'vitest';
import { seededDice } from '../../sim/dice.ts';
import { lowestTheta, restsOf, runShed, timesRaised, told, type RunAsked, type ShedRun } from './shed-run.ts';
import { broken, clock, DAY, FARM } from './sheds.ts';

const MINUTE = 60_000;
const BOUNDS = FARM.bounds.restMinutesByDay;
const DAYLONG: RunAsked = { farm: FARM, fromMillis: DAY.start, untilMillis: DAY.end };

/** Moments from 06:00 to 20:00, so many minutes apart on average and never closer than the absence. */
const momentsApart = (minutes: number, awayMinutes: number, seed: number): readonly number[] => {
  const dice = seededDice(seed);
  const moments: number[] = [];
  let at = clock(6);
  while (at < clock(20)) {
    at += Math.ceil((awayMinutes + 1 - Math.log(1 - dice()) * minutes) * MINUTE);
    moments.push(at);
  }
  return moments;
};

/** Rests that followed a whole flood and were shorter than the shortest by day, minutes. */
const tooShort = (run: ShedRun): readonly number[] =>
  restsOf(run).flatMap(({ minutes, endMillis }, place) => {
    const { fromMillis, untilMillis } = run.tally.pumpRuns[place]!;
    const whole = untilMillis - fromMillis >= 10 * MINUTE;
    return whole && endMillis > clock(8) && endMillis < clock(20) && minutes < BOUNDS.shortest - 0.1
      ? [minutes]
      : [];
  });

const judgedTwice = (run: ShedRun): readonly number[] => {
  const judged = told(run, 'verdict').map(({ flood }) => flood);
  return judged.filter((flood, place) => judged.indexOf(flood) !== place);
};

/** A stock board: the pump goes on as it was asked while nobody is there, for no longer than it was asked. */
describe('a host on a stock board that is ended and goes on from what it kept', () => {
  it.each([
    [60, 0, 1],
    [20, 0, 2],
    [20, 1 / 6, 3],
    [60, 5, 4],
    [120, 30, 5],
  ])(
    'about every %d min, back after %f min: no false alarm, no rest too short, benches wet (seed %d)',
    (apart, awayMinutes, seed) => {
      const restartsAt = momentsApart(apart, awayMinutes, seed);
      const run = runShed({ ...DAYLONG, restartsAt, resumes: { awayMinutes }, seed });
      expect(restartsAt.length).toBeGreaterThanOrEqual(5);
      expect(timesRaised(run)).toEqual({});
      expect(tooShort(run)).toEqual([]);
      expect(judgedTwice(run)).toEqual([]);
      expect(lowestTheta(run)).toBeGreaterThan(FARM.floors.stress);
      const byDay = restsOf(run).filter(({ endMillis }) => endMillis > clock(8) && endMillis < clock(20));
      expect(Math.max(...byDay.map(({ minutes }) => minutes))).toBeLessThanOrEqual(
        BOUNDS.longest + awayMinutes + 1,
      );
      const ids = told(run, 'flood-started').map(({ flood }) => flood);
      expect(new Set(ids).size).toBe(ids.length);
    },
  );

  it('about every 10 min while its pump is dead raises the alarm of the missed flood once, and it never returns', () => {
    const faults = broken('pump-dead', 13);
    const restartsAt = momentsApart(10, 0, 6);
    const run = runShed({
      ...DAYLONG,
      untilMillis: clock(20),
      faults,
      restartsAt,
      resumes: { awayMinutes: 0 },
    });
    const plain = runShed({ ...DAYLONG, untilMillis: clock(20), faults });
    expect(restartsAt.filter((at) => at > clock(13)).length).toBeGreaterThan(20);
    expect(timesRaised(run)['missed-flood']).toBe(1);
    expect(told(run, 'alarm-returned')).toEqual([]);
    const raisedAt = (one: ShedRun): number =>
      one.alarms.find(({ entry }) => entry.alarm === 'missed-flood')!.entry.at;
    expect(raisedAt(run) - raisedAt(plain)).toBeLessThanOrEqual(20 * MINUTE);
  });

  it.each([2, 6, 7, 12])(
    'every %d min while its pump is dead: the missed flood is told within 60 min all the same',
    (apart) => {
      const faults = broken('pump-dead', 13);
      const restartsAt = Array.from(
        { length: Math.floor(420 / apart) },
        (_, place) => clock(13) + place * apart * MINUTE,
      );
      const run = runShed({
        ...DAYLONG,
        untilMillis: clock(20),
        faults,
        restartsAt,
        resumes: { awayMinutes: 0 },
      });
      expect(timesRaised(run)['missed-flood']).toBe(1);
      expect(told(run, 'alarm-returned')).toEqual([]);
      const missedAt = run.alarms.find(({ entry }) => entry.alarm === 'missed-flood')!.entry.at;
      expect(missedAt - clock(13)).toBeLessThanOrEqual(60 * MINUTE);
    },
  );

  it('every day through 20 days of a filter that clogs is not fooled: what was usual is not forgotten', () => {
    const span = { farm: FARM, fromMillis: DAY.start, untilMillis: DAY.start + 20 * 24 * 60 * MINUTE };
    const faults = broken('filter-clogging', 0);
    const restartsAt = Array.from({ length: 19 }, (_, day) => DAY.start + (day + 1) * 24 * 60 * MINUTE);
    const plain = runShed({ ...span, faults });
    const run = runShed({ ...span, faults, restartsAt, resumes: { awayMinutes: 1 } });
    const first = (one: ShedRun): number =>
      one.alarms.find(({ entry }) => entry.alarm === 'weak-flow')!.entry.at;
    expect(Math.abs(first(run) - first(plain))).toBeLessThanOrEqual(24 * 60 * MINUTE);
  });
});
