import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dried, dryEdgeLossPerMinute, lossPerMinute, type Belief } from '../../../src/estimate/belief.ts';
import type { BenchFacts } from '../../../src/estimate/bench-facts.ts';
import { hotDayUptake, referenceDay } from '../../../src/estimate/reference-day.ts';
import { driestWithin, minutesLeftOf, timeLeft, type Outlook } from '../../../src/estimate/time-left.ts';
import { wallMillis, type WallMillis } from '../../../src/time/instant.ts';
import { localDayOn } from '../../../src/time/local-day.ts';
import { exampleFarm } from '../../support/farm.ts';
import { minute, utc } from '../../support/moments.ts';
import { between } from '../../support/between.ts';

const { stress, wilt } = exampleFarm.floors;
const DAY = referenceDay(exampleFarm, localDayOn('2026-07-14', 'Europe/Lisbon').start);
const NOON = utc('2026-07-14T12:30Z');

const bench = (name: string, litresPerMillimetre: number, planted = true): BenchFacts => ({
  name,
  planted,
  ageDays: 40,
  capacityLitres: 22,
  litresPerMillimetre,
});
const THREE = [bench('young', 5), bench('grown', 15), bench('middle', 9)];

const outlook = (facts: readonly BenchFacts[], hotterShare = 1): Outlook => ({
  facts,
  day: DAY,
  hotterShare,
});

/** All benches alike, the dry edge `doubt` below the likely value. */
const beliefOf = (facts: readonly BenchFacts[], theta: number, doubt = 0): Belief => ({
  at: minute(0),
  benches: facts.map(() => ({ theta, thetaLow: theta - doubt })),
  wet: null,
});

interface Given {
  readonly doubt?: number;
  readonly hotter?: number;
  readonly wall?: WallMillis | 'unknown';
}

const left = (
  facts: readonly BenchFacts[],
  theta: number,
  { doubt = 0, hotter = 1, wall = NOON }: Given = {},
): number => timeLeft(exampleFarm, beliefOf(facts, theta, doubt), outlook(facts, hotter), wall).minutes;

describe('time left', () => {
  // Straight down to the stress floor, then an exponential to the wilt floor, all at the dry edge of the doubt.
  it('at an unknown time is the closed form with the noon figure', () => {
    const loss = dryEdgeLossPerMinute(THREE[1]!, DAY.noonMillimetresPerHour);
    const expected = (0.9 - stress) / loss + (stress / loss) * Math.log(stress / wilt);
    // Inside one step of 5 min the curve is read as a straight line.
    expect(Math.abs(left(THREE, 0.9, { wall: 'unknown' }) - expected)).toBeLessThan(0.5);
  });

  it('names the bench that gets there first', () => {
    expect(timeLeft(exampleFarm, beliefOf(THREE, 0.9), outlook(THREE), NOON).bench).toBe('grown');
  });

  it('is told for each bench, in their order', () => {
    const [young, grown, middle] = minutesLeftOf(exampleFarm, beliefOf(THREE, 0.9), outlook(THREE), NOON);
    expect(grown!).toBeLessThan(middle!);
    expect(middle!).toBeLessThan(young!);
  });

  it('counts from the dry edge: the likely value plays no part', () => {
    expect(left(THREE, 0.9, { doubt: 0.3 })).toBeCloseTo(left(THREE, 0.6), 9);
    expect(left(THREE, 0.9, { doubt: 0.3 })).toBeLessThan(left(THREE, 0.9));
  });

  it('is earlier than the likely uptake would have it: at 1.25/0.75 of it', () => {
    let theta = 0.9;
    for (let gone = 0; gone < left(THREE, 0.9); gone += 1) {
      const uptake = hotDayUptake(DAY, wallMillis(NOON + gone * 60_000));
      theta = dried(theta, lossPerMinute(THREE[1]!, uptake), stress, 1);
    }
    expect(theta).toBeGreaterThan(wilt);
  });

  it('is 0 at the wilt floor and below it', () => {
    expect(left(THREE, wilt)).toBe(0);
    expect(left(THREE, 0.05)).toBe(0);
  });

  it('is 1440 min and no bench where nothing dries within a day', () => {
    const resting = [bench('cress', 0.1)];
    expect(timeLeft(exampleFarm, beliefOf(resting, 0.95), outlook(resting), NOON)).toEqual({
      minutes: 1440,
      bench: null,
    });
  });

  it('a bench without plants is never first, however dry', () => {
    const empty = bench('empty', 30, false);
    const facts = [empty, bench('grown', 15)];
    const belief: Belief = {
      ...beliefOf(facts, 0.9),
      benches: [
        { theta: 0, thetaLow: 0 },
        { theta: 0.9, thetaLow: 0.9 },
      ],
    };
    expect(timeLeft(exampleFarm, belief, outlook(facts), NOON).bench).toBe('grown');
    expect(timeLeft(exampleFarm, beliefOf([empty], 0), outlook([empty]), NOON)).toEqual({
      minutes: 1440,
      bench: null,
    });
  });

  it('names the driest of several that may be wilting, of those as dry the one that dries fastest, and how many more may', () => {
    const facts = [bench('slow', 15), bench('dry', 15), bench('fast', 30)];
    const held = (...shares: readonly number[]): Belief => ({
      ...beliefOf(facts, 0.9),
      benches: shares.map((share) => ({ theta: share, thetaLow: share })),
    });
    const told = (belief: Belief): unknown => timeLeft(exampleFarm, belief, outlook(facts), NOON);
    expect(told(held(0.1, 0.02, 0.08))).toEqual({ minutes: 0, bench: 'dry', others: 2 });
    expect(told(held(0.1, 0.1, 0.1))).toEqual({ minutes: 0, bench: 'fast', others: 2 });
    expect(told(held(0.1, 0.9, 0.9))).toEqual({ minutes: 0, bench: 'slow' });
  });

  it('is never longer with less water held, whatever the hour', () => {
    const share = between(0, 1);
    fc.assert(
      fc.property(share, share, fc.nat({ max: 1440 }), (one, other, clock) => {
        const wall = wallMillis(DAY.startMillis + clock * 60_000);
        const [drier, wetter] = [Math.min(one, other), Math.max(one, other)];
        expect(left(THREE, drier, { wall })).toBeLessThanOrEqual(left(THREE, wetter, { wall }) + 1e-9);
      }),
    );
  });

  it('is never longer in hotter weather; cooler air than the hot day’s buys no time, and twice it is the most', () => {
    const hotter = between(0, 4);
    fc.assert(
      fc.property(hotter, hotter, between(0.2, 1), (one, other, theta) => {
        const [cooler, warmer] = [Math.min(one, other), Math.max(one, other)];
        const minutes = left(THREE, theta, { hotter: warmer });
        expect(minutes).toBeLessThanOrEqual(left(THREE, theta, { hotter: cooler }) + 1e-9);
      }),
    );
    expect(left(THREE, 0.9, { hotter: 0.4 })).toBe(left(THREE, 0.9));
    expect(left(THREE, 0.9, { hotter: 3 })).toBe(left(THREE, 0.9, { hotter: 2 }));
    expect(left(THREE, 0.9, { hotter: 1.5 })).toBeLessThan(left(THREE, 0.9));
  });

  it('an unknown time never leaves longer than the true one would', () => {
    for (let clock = 0; clock < 1440; clock += 30) {
      const wall = wallMillis(DAY.startMillis + clock * 60_000);
      expect(left(THREE, 0.9, { wall: 'unknown' })).toBeLessThanOrEqual(left(THREE, 0.9, { wall }));
    }
  });

  it('looks ahead: at dusk the night is counted as a night', () => {
    expect(left(THREE, 0.9, { wall: utc('2026-07-14T19:30Z') })).toBeGreaterThan(2 * left(THREE, 0.9));
  });
});

describe('the driest within a span', () => {
  const driest = (minutes: number, hotter = 1): readonly { theta: number; thetaLow: number }[] =>
    driestWithin(exampleFarm, beliefOf(THREE, 0.9, 0.1), outlook(THREE, hotter), NOON, minutes);

  it('of 0 min is the belief as it stands', () => {
    expect(driest(0)).toEqual(beliefOf(THREE, 0.9, 0.1).benches);
  });

  it('of 7 min is more than of 5 and less than of 10: spans need not be whole steps', () => {
    const [five, seven, ten] = [5, 7, 10].map((minutes) => driest(minutes)[1]!.theta);
    expect(seven!).toBeLessThan(five!);
    expect(ten!).toBeLessThan(seven!);
    const uptake = hotDayUptake(DAY, NOON);
    expect(0.9 - seven!).toBeCloseTo(7 * lossPerMinute(THREE[1]!, uptake), 2);
  });

  it('the dry edge loses 1.4/0.75 as much as the likely value, and what 0.045 mm/h in the dark takes', () => {
    const [, grown] = driest(10);
    const dark = (10 * lossPerMinute(THREE[1]!, 0.045)) / 0.75;
    expect(0.8 - grown!.thetaLow).toBeCloseTo((0.9 - grown!.theta) * (1.4 / 0.75) + dark, 9);
  });

  it('is less dry in cooler weather, and no drier than at twice the hot day', () => {
    expect(driest(60, 0.5)[1]!.theta).toBeGreaterThan(driest(60)[1]!.theta);
    expect(driest(60, 3)).toEqual(driest(60, 2));
  });

  it('does not reach the wilt floor before time left says so', () => {
    const facts = [THREE[1]!];
    const belief = beliefOf(facts, 0.9);
    const minutes = timeLeft(exampleFarm, belief, outlook(facts), NOON).minutes;
    const at = (span: number): number =>
      driestWithin(exampleFarm, belief, outlook(facts), NOON, span)[0]!.thetaLow;
    expect(at(minutes - 1)).toBeGreaterThan(wilt);
    expect(at(minutes + 1)).toBeLessThan(wilt);
  });
});
