import { describe, expect, it } from 'vitest';
import {
  allowsWhole,
  nextSipAt,
  NO_SIPS,
  sipSeconds,
  tankDenied,
  tankProven,
  tankRule,
  type Sips,
  type TankRule,
  type TankSigns,
} from '../../../src/command/tank-rule.ts';
import type { Farm } from '../../../src/farm/farm.ts';
import { exampleFarm } from '../../support/farm.ts';
import { absent, good, minute, stale } from '../../support/moments.ts';

const fitted = (evidence: Partial<Farm['evidence']>): Farm => ({
  ...exampleFarm,
  evidence: { ...exampleFarm.evidence, returnFlow: 'none', tankLevel: false, tankFloat: true, ...evidence },
});
const METER = fitted({ returnFlow: 'meter' });

const signs = (change: Partial<TankSigns>): TankSigns => ({
  float: good(true),
  water: 'unknown',
  current: 'unknown',
  litres: absent,
  ...change,
});

const LOW: TankRule = { kind: 'low', since: minute(5), lowAt: minute(5) };
const SUSPECT: TankRule = { kind: 'float-suspect', since: minute(5) };
const RETURNING: TankRule = { kind: 'returning', since: minute(5) };
const WELL: TankRule = { kind: 'well' };

const NOW = minute(20);
/** A sip at 15 min, ten minutes after the float went low. */
const SIPPED: Sips = { count: 1, lastAt: minute(15) };

describe('the float', () => {
  it('low stops floods from a tank that was well, since that moment', () => {
    expect(tankRule(METER, WELL, signs({}), NO_SIPS, NOW)).toEqual({ kind: 'low', since: NOW, lowAt: NOW });
  });

  it.each([
    ['up', good(false)],
    ['stale and low', stale(true)],
    ['silent', absent],
  ])('%s leaves a well tank well', (_, float) => {
    expect(tankRule(METER, WELL, signs({ float }), NO_SIPS, NOW)).toBe(WELL);
  });

  it('that is not fitted says nothing', () => {
    expect(tankRule(fitted({ tankFloat: false }), WELL, signs({}), NO_SIPS, NOW)).toBe(WELL);
  });

  it.each([
    ['low', LOW],
    ['suspect', SUSPECT],
  ])('that lets go of a %s tank does not make it well yet', (_, before) => {
    expect(tankRule(METER, before, signs({ float: good(false) }), SIPPED, NOW)).toEqual(RETURNING);
  });

  it.each([LOW, SUSPECT, RETURNING, WELL])(
    'that falls silent, or chatters, leaves a tank that is $kind as it is',
    (before) => {
      expect(tankRule(METER, before, signs({ float: stale(true) }), SIPPED, NOW)).toBe(before);
      expect(tankRule(METER, before, signs({ float: stale(false) }), SIPPED, NOW)).toBe(before);
    },
  );

  it('up for hours leaves the tank returning until a whole flood has run its time', () => {
    const up = signs({ float: good(false), water: 'seen' });
    expect(tankRule(METER, RETURNING, up, SIPPED, minute(500))).toBe(RETURNING);
    expect(tankProven(RETURNING, 'whole')).toEqual(WELL);
  });

  it.each([LOW, SUSPECT, WELL])('a flood that ran its time leaves a tank that is $kind as it is', (rule) => {
    expect(tankProven(rule, 'short')).toBe(rule);
    expect(tankProven(rule, 'whole')).toBe(rule);
  });

  it('still over a shortened flood allows whole ones, and only one of them makes the tank well', () => {
    const proven = tankProven(RETURNING, 'short');
    expect([LOW, SUSPECT, RETURNING, proven, WELL].map(allowsWhole)).toEqual([
      false,
      false,
      false,
      true,
      true,
    ]);
    expect(proven).toMatchObject({ kind: 'returning', since: minute(5) });
    expect(tankProven(proven, 'short')).toEqual(proven);
    expect(tankProven(proven, 'whole')).toEqual(WELL);
  });

  it('low again in that whole flood is the same low tank, and takes a shortened one anew', () => {
    const low = tankRule(METER, tankProven(RETURNING, 'short'), signs({}), SIPPED, NOW);
    expect(low).toEqual({ kind: 'low', since: minute(5), lowAt: NOW });
    expect(tankRule(METER, low, signs({ float: good(false) }), SIPPED, NOW)).toEqual(RETURNING);
  });

  it('low again before that is the same low tank as before, low anew from now', () => {
    expect(tankRule(METER, RETURNING, signs({}), SIPPED, NOW)).toEqual({
      kind: 'low',
      since: minute(5),
      lowAt: NOW,
    });
  });
});

describe('what contradicts a low float', () => {
  const { dryLitres } = exampleFarm.tank;
  const level = fitted({ tankLevel: true, returnFlow: 'meter' });
  const nothing = fitted({ pumpCurrent: true });

  const check = (farm: Farm, change: Partial<TankSigns>, expected: TankRule, sips = SIPPED): void => {
    expect(tankRule(farm, LOW, signs(change), sips, NOW)).toEqual(expected);
  };

  it('water that comes back after a sip', () => {
    check(METER, { water: 'seen' }, SUSPECT);
    check(METER, { water: 'not-seen' }, LOW);
    check(METER, { water: 'unknown' }, LOW);
  });

  it('a level of more than twice the dry litres, and then only the level', () => {
    check(level, { litres: good(2 * dryLitres + 1) }, SUSPECT);
    check(level, { litres: good(2 * dryLitres), water: 'seen', current: 'seen' }, LOW);
  });

  it('water, where the level sensor is silent', () => {
    check(level, { litres: absent, water: 'seen' }, SUSPECT);
    check(level, { litres: stale(500), water: 'not-seen' }, LOW);
  });

  it('current, only where neither level nor return is fitted: a pump draws current in air', () => {
    check(nothing, { current: 'seen' }, SUSPECT);
    check(nothing, { current: 'not-seen' }, LOW);
    check(METER, { current: 'seen', water: 'not-seen' }, LOW);
    check(METER, { current: 'seen', water: 'unknown' }, LOW);
  });

  it('nothing before the first sip: the channels of the stopped flood still drain', () => {
    check(METER, { water: 'seen' }, LOW, NO_SIPS);
    check(METER, { water: 'seen' }, LOW, { count: 4, lastAt: minute(4) });
    check(METER, { water: 'seen' }, SUSPECT, { count: 4, lastAt: minute(5) });
  });

  it('nothing from before the float went low again: the flood that drew it down still comes back', () => {
    const again = tankRule(METER, RETURNING, signs({ water: 'seen' }), SIPPED, NOW);
    const next = tankRule(METER, again, signs({ water: 'seen' }), SIPPED, minute(20.5));
    expect(next.kind).toBe('low');
  });

  it('a suspect float stays suspect while it reads low', () => {
    expect(tankRule(METER, SUSPECT, signs({ water: 'not-seen' }), SIPPED, NOW)).toBe(SUSPECT);
  });
});

describe('sips', () => {
  it('the first comes 10 min after the float went low, the next 10 min after the last', () => {
    expect(nextSipAt(NO_SIPS, minute(5))).toBe(minute(15));
    expect(nextSipAt({ count: 1, lastAt: minute(15) }, minute(5))).toBe(minute(25));
  });

  it('a sip of an earlier low tank does not hasten the first', () => {
    expect(nextSipAt({ count: 7, lastAt: minute(2) }, minute(50))).toBe(minute(60));
  });

  it('last 20 s, every third 180 s: long enough for the return to speak', () => {
    const seconds = Array.from({ length: 7 }, (_, count) => sipSeconds({ count, lastAt: null }));
    expect(seconds).toEqual([20, 20, 180, 20, 20, 180, 20]);
  });
});

describe('a suspect float after a missed flood', () => {
  it('is believed again: the tank is low from now on, and its alarm keeps its beginning', () => {
    expect(tankDenied({ kind: 'float-suspect', since: minute(3) }, minute(50))).toEqual({
      kind: 'low',
      since: minute(3),
      lowAt: minute(50),
    });
  });

  it.each([
    { kind: 'well' },
    { kind: 'low', since: minute(3), lowAt: minute(4) },
    { kind: 'returning', since: minute(3) },
  ] as const)('leaves $kind as it is', (rule) => {
    expect(tankDenied(rule, minute(50))).toBe(rule);
  });
});
