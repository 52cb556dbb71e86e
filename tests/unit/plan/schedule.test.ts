import { describe, expect, it } from 'vitest';
import type { Pace } from '../../../src/plan/pace.ts';
import {
  earliestStart,
  floodEnded,
  floodHad,
  floodStarted,
  owing,
  plannedStart,
  restedMinutes,
  scheduleAtStart,
  turned,
  withheld,
  type Schedule,
} from '../../../src/plan/schedule.ts';
import { minute } from '../../support/moments.ts';

const paceOf = (change: Partial<Pace> = {}): Pace => ({
  part: 'noon',
  restMinutes: 40,
  floodMinutes: 20,
  shortestRestMinutes: 10,
  longestRestMinutes: 75,
  partLeftMinutes: null,
  why: 'the plan',
  ...change,
});
const PACE = paceOf();

/** A flood from 0 to 20 min, and nothing owed. */
const flooded = (): Schedule => {
  const started = floodStarted(scheduleAtStart(minute(0)), minute(0));
  return floodEnded(turned(started, PACE, minute(20)), minute(20));
};

describe('the turn', () => {
  it('runs from 0 to 1 over 40 min of rest and 20 of flood, however often it is looked at', () => {
    const once = turned(flooded(), PACE, minute(50));
    expect(once.turn).toBeCloseTo(50 / 60, 12);
    let often = flooded();
    for (let now = 20; now <= 50; now += 1) often = turned(often, PACE, minute(now));
    expect(often.turn).toBeCloseTo(once.turn, 12);
  });

  it('stops at 1: a late look owes one flood, not two', () => {
    expect(turned(flooded(), PACE, minute(600)).turn).toBe(1);
  });

  it('runs at the pace of each stretch: half a rest in the heat counts for what is left', () => {
    const half = turned(flooded(), PACE, minute(30));
    const hot = paceOf({ restMinutes: 10 });
    // Half of a turn is left at 30 min; at 10 + 20 min for a whole turn that is 15 min.
    expect(plannedStart(half, hot, minute(30))).toBe(minute(45));
    // Five minutes later a third of that has gone, whatever the pace is from then on.
    expect(turned(turned(half, hot, minute(30)), PACE, minute(35)).turn).toBeCloseTo(0.5 + 5 / 30, 12);
  });

  it('begins anew when a flood starts', () => {
    expect(floodStarted(turned(flooded(), PACE, minute(60)), minute(60)).turn).toBe(0);
  });

  it('a flood shortened from 20 to 10 min is followed by the same rest of 40 min, not by 50', () => {
    const started = floodStarted(turned(flooded(), PACE, minute(60)), minute(60), 10);
    const ended = floodEnded(turned(started, PACE, minute(70)), minute(70));
    expect(plannedStart(ended, PACE, minute(70))).toBeCloseTo(minute(70 + 40), 6);
  });
});

describe('when the next flood is due', () => {
  it('40 min after the end of one of 20 min', () => {
    expect(plannedStart(flooded(), PACE, minute(20))).toBeCloseTo(minute(60), 6);
    expect(plannedStart(turned(flooded(), PACE, minute(50)), PACE, minute(50))).toBeCloseTo(minute(60), 6);
  });

  it('at the longest rest where the plan would go past it', () => {
    const slow = paceOf({ restMinutes: 200 });
    expect(plannedStart(floodEnded(flooded(), minute(20)), slow, minute(20))).toBe(minute(20 + 75));
  });

  it('at once where the longest rest has passed, as at sunrise after a night of longer rests', () => {
    const asleep = turned(flooded(), paceOf({ restMinutes: 200, longestRestMinutes: 210 }), minute(120));
    expect(plannedStart(asleep, PACE, minute(120))).toBe(minute(120));
  });

  it('never before the shortest rest is over, though the turn is', () => {
    const fast = paceOf({ restMinutes: 1, floodMinutes: 1 });
    const done = turned(turned(flooded(), fast, minute(20)), fast, minute(22));
    expect(done.turn).toBe(1);
    expect(earliestStart(done, fast, minute(22))).toBe(minute(30));
    expect(plannedStart(done, fast, minute(22))).toBe(minute(30));
  });

  it('is no earlier than now', () => {
    const late = turned(flooded(), PACE, minute(500));
    expect(earliestStart(late, PACE, minute(500))).toBe(minute(500));
    expect(plannedStart(late, PACE, minute(500))).toBe(minute(500));
  });
});

describe('what is owed', () => {
  it('after a start one flood, which may come at once', () => {
    const schedule = scheduleAtStart(minute(3));
    expect(schedule.owed).toBe('first flood after the start');
    expect(earliestStart(schedule, PACE, minute(3))).toBe(minute(3));
    expect(restedMinutes(schedule, minute(3))).toBeNull();
  });

  it('is paid by a flood that starts', () => {
    expect(floodStarted(owing(flooded(), 'the last one was missed'), minute(60)).owed).toBeNull();
  });

  it('a withheld flood has had its turn and is owed', () => {
    const schedule = withheld(turned(flooded(), PACE, minute(60)), 'held by Ana');
    expect([schedule.turn, schedule.owed]).toEqual([0, 'held by Ana']);
  });

  it('rest is counted from the end of the last flood: 40 min at 60', () => {
    expect(restedMinutes(flooded(), minute(60))).toBe(40);
  });
});

describe('a flood that the board gave by itself', () => {
  const OWED = owing(scheduleAtStart(minute(0)), 'first flood');
  const had = (start: number, end: number): Schedule =>
    floodHad(OWED, { start: minute(start), end: minute(end), until: minute(end) }, PACE.floodMinutes);

  it.each([
    ['as long as the plan’s', 100, 120],
    ['of 15 min', 105, 120],
    ['of 35 min', 85, 120],
  ])('%s is followed by the plan’s 40 min, told 10 min later, and nothing is owed', (_, start, end) => {
    const schedule = turned(had(start, end), PACE, minute(130));
    expect(plannedStart(schedule, PACE, minute(130))).toBe(minute(160));
    expect(schedule).toMatchObject({ owed: null, lastStart: minute(start), lastEnd: minute(end) });
  });

  it('5 h ago has the next one due now, for the longest rest of 75 min is over', () => {
    const schedule = turned(had(0, 20), PACE, minute(320));
    expect(plannedStart(schedule, PACE, minute(320))).toBe(minute(320));
  });

  it('and still gives to 120 min leaves the end of the one before as it was, and its own rest whole', () => {
    const runs = floodHad(
      flooded(),
      { start: minute(100), end: null, until: minute(120) },
      PACE.floodMinutes,
    );
    expect(runs.lastEnd).toBe(minute(20));
    const ended = floodEnded(turned(turned(runs, PACE, minute(110)), PACE, minute(120)), minute(120));
    expect(plannedStart(ended, PACE, minute(120))).toBe(minute(160));
  });
});
