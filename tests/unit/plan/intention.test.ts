import { describe, expect, it } from 'vitest';
import type { Belief } from '../../../src/estimate/belief.ts';
import type { BenchFacts } from '../../../src/estimate/bench-facts.ts';
import type { ReferenceDay } from '../../../src/estimate/reference-day.ts';
import type { Farm } from '../../../src/farm/farm.ts';
import { intention, type Intention } from '../../../src/plan/intention.ts';
import type { Pace } from '../../../src/plan/pace.ts';
import {
  floodEnded,
  floodStarted,
  owing,
  scheduleAtStart,
  turned,
  type Schedule,
} from '../../../src/plan/schedule.ts';
import { exampleFarm } from '../../support/farm.ts';
import { minute, utc } from '../../support/moments.ts';

const PACE: Pace = {
  part: 'noon',
  restMinutes: 40,
  floodMinutes: 20,
  shortestRestMinutes: 10,
  longestRestMinutes: 75,
  partLeftMinutes: null,
  why: 'the plan',
};
const START = utc('2026-07-14T12:00Z');
/** 1 mm/h all day: 20 L that drink 12 L for each lose 0.01 of themselves a minute, 1.445/75 at the dry edge. */
const DAY: ReferenceDay = {
  millimetresPerHour: Array.from({ length: 144 }, () => 1),
  startMillis: START,
  noonMillimetresPerHour: 1,
};
const FACTS: readonly BenchFacts[] = [
  { name: 'Bench 1', planted: true, ageDays: 40, capacityLitres: 20, litresPerMillimetre: 12 },
  { name: 'Bench 2', planted: false, ageDays: 0, capacityLitres: 20, litresPerMillimetre: 0 },
];

interface Case {
  readonly at: number;
  readonly theta?: number;
  readonly thetaLow?: number;
  readonly emptyTheta?: number;
  readonly stretch?: Farm['stretch'];
  readonly owed?: string;
  readonly pace?: Partial<Pace>;
  readonly known?: boolean;
}

/** A flood from 0 to 20 min; the plan’s next is at 60 min. */
const flooded = (pace: Pace, at: number): Schedule => {
  const started = floodStarted(scheduleAtStart(minute(0)), minute(0));
  return turned(floodEnded(turned(started, pace, minute(20)), minute(20)), pace, minute(at));
};

const wish = (one: Case): Intention => {
  const pace = { ...PACE, ...one.pace };
  const theta = one.theta ?? 0.95;
  const belief: Belief = {
    at: minute(one.at),
    benches: [
      { theta, thetaLow: one.thetaLow ?? theta },
      { theta: one.emptyTheta ?? 1, thetaLow: one.emptyTheta ?? 1 },
    ],
    wet: null,
  };
  const schedule = flooded(pace, one.at);
  return intention(
    { ...exampleFarm, stretch: one.stretch ?? 'never' },
    one.owed === undefined ? schedule : owing(schedule, one.owed),
    pace,
    belief,
    { facts: FACTS, day: DAY, hotterShare: 1 },
    { monotonic: minute(one.at), wall: one.known === false ? 'unknown' : START },
  );
};

const flood = (reason: string): Intention => ({ kind: 'flood', minutes: 20, part: 'noon', reason });
const rest = (until: number, why = 'the plan'): Intention => ({
  kind: 'rest',
  until: minute(until),
  reason: `resting: ${why}`,
});
const DRY = flood('flood now: Bench 1 may get too dry before the next planned flood');

describe('the plan', () => {
  it('rests until the planned start at 60 min and floods then, each with its reason', () => {
    expect(wish({ at: 45 })).toEqual(rest(60));
    expect(wish({ at: 60 })).toEqual(flood('flood now: the plan'));
  });

  it('floods what is owed as soon as the shortest rest of 10 min is over', () => {
    expect(wish({ at: 29, owed: 'the last one was missed' })).toEqual(rest(30));
    expect(wish({ at: 30, owed: 'the last one was missed' })).toEqual(
      flood('flood now: the last one was missed'),
    );
  });
});

describe('the belief', () => {
  it('floods before the plan when a bench would pass its stress floor of 0.5', () => {
    // 0.01 a minute: at 45 min, 15 min before the plan, 0.65 just lasts.
    expect(wish({ at: 45, theta: 0.66 })).toEqual(rest(60));
    expect(wish({ at: 45, theta: 0.64 })).toEqual(DRY);
  });

  it('floods before the plan when the dry edge would pass the wilt floor of 0.2', () => {
    // Below the stress floor the dry edge falls as e^(−t/26 min): over 15 min to 0.56 of itself.
    expect(wish({ at: 45, theta: 0.9, thetaLow: 0.37 })).toEqual(rest(60));
    expect(wish({ at: 45, theta: 0.9, thetaLow: 0.35 })).toEqual(DRY);
  });

  it('does not flood inside the shortest rest, however dry', () => {
    expect(wish({ at: 29, theta: 0.1 })).toEqual(rest(30));
    expect(wish({ at: 30, theta: 0.1 })).toEqual(DRY);
  });

  it('never delays a planned flood, however wet, without permission to stretch', () => {
    expect(wish({ at: 60, theta: 1 }).kind).toBe('flood');
  });

  it('of a bench without plants counts for nothing', () => {
    expect(wish({ at: 45, emptyTheta: 0 })).toEqual(rest(60));
  });

  it('at an unknown time takes the noon figure and floods as well', () => {
    expect(wish({ at: 45, theta: 0.64, known: false })).toEqual(DRY);
  });
});

describe('stretching a rest past the plan', () => {
  const permitted = { stretch: { oneMissMarginMin: 0.1 }, pace: { restMinutes: 10 } } as const;

  it('needs permission: without it the flood comes', () => {
    expect(wish({ at: 35, theta: 1, pace: { restMinutes: 10 } }).kind).toBe('flood');
  });

  it('with permission a wet bench goes on resting', () => {
    // One more rest of 10 min and a missed flood of 20: 1 − 30 · 0.0193 is 0.42 at the dry edge, 0.2 + 0.1 is asked for.
    expect(wish({ ...permitted, at: 35, theta: 1 }).kind).toBe('rest');
  });

  it('needs the margin at the dry edge: 0.3 left over 30 min asks for 0.5 · e^0.51 now and more', () => {
    // From 0.6 the dry edge is at 0.5 after 5.2 min and at 0.5 · e^(−24.8/26) = 0.19 after 30.
    expect(wish({ ...permitted, at: 35, theta: 1, thetaLow: 0.6 }).kind).toBe('flood');
    // From 0.84: 0.5 after 17.6 min, 0.5 · e^(−12.4/26) = 0.31 after 30.
    expect(wish({ ...permitted, at: 35, theta: 1, thetaLow: 0.84 }).kind).toBe('rest');
    expect(
      wish({ ...permitted, at: 35, theta: 1, thetaLow: 0.84, stretch: { oneMissMarginMin: 0.15 } }).kind,
    ).toBe('flood');
  });

  it('needs the likely value above the stress floor: 0.79 would pass it in 30 min', () => {
    expect(wish({ ...permitted, at: 35, theta: 0.79, thetaLow: 0.79 }).kind).toBe('flood');
  });

  it('ends at the longest rest of 75 min, however wet', () => {
    expect(wish({ ...permitted, at: 94, theta: 1 }).kind).toBe('rest');
    expect(wish({ ...permitted, at: 95, theta: 1 })).toEqual(
      flood('flood now: the longest rest of 75 min is over (noon)'),
    );
  });

  it('does not put off what is owed', () => {
    expect(wish({ ...permitted, at: 35, theta: 1, owed: 'the last one was missed' }).kind).toBe('flood');
  });
});
