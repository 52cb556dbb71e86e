import { describe, expect, it } from 'vitest';
import { floorSigns, interlock, wetSigns, type FloorSigns } from '../../../src/command/interlock.ts';
import { held, NO_ORDERS } from '../../../src/command/orders.ts';
import type { TankRule } from '../../../src/command/tank-rule.ts';
import type { Farm } from '../../../src/farm/farm.ts';
import type { Link } from '../../../src/ports/board.ts';
import type { Reading } from '../../../src/sense/reading.ts';
import { absorbed, NO_SENSES } from '../../../src/sense/senses.ts';
import { exampleFarm } from '../../support/farm.ts';
import { absent, good, minute, second, stale } from '../../support/moments.ts';

const fitted = (leakSensor: boolean, overflowFloat: boolean): Farm => ({
  ...exampleFarm,
  evidence: { ...exampleFarm.evidence, leakSensor, overflowFloat },
});

const DRY: FloorSigns = { leak: good(false), overflow: good(false) };
const LEAK: FloorSigns = { ...DRY, leak: good(true) };
const OVERFLOW: FloorSigns = { ...DRY, overflow: good(true) };
const BOTH: FloorSigns = { leak: good(true), overflow: good(true) };

const WELL: TankRule = { kind: 'well' };
const LOW: TankRule = { kind: 'low', since: minute(5), lowAt: minute(7) };
const SUSPECT: TankRule = { kind: 'float-suspect', since: minute(5) };
const RETURNING: TankRule = { kind: 'returning', since: minute(5) };
const PROVEN: TankRule = { ...RETURNING, shortFlood: 'kept-still' };

const HELD = held(NO_ORDERS, 'Ana', 30, minute(0));

const UP: Link = { kind: 'up' };
const DOWN: Link = { kind: 'down', why: 'unplugged' };
const OPEN = { kind: 'open' };
const SHUT = { kind: 'shut', reason: 'held by Ana', by: 'person' };
const SILENT = { kind: 'shut', reason: 'the board does not answer', by: 'board' };
const LAST_SIP = { kind: 'sips', reason: 'leak sensor and overflow float are both wet', since: null };
const TANK_SIPS = { kind: 'sips', reason: 'the tank float reads low', since: minute(7) };
const shortened = (reason: string): object => ({ kind: 'shortened', reason });
const CONTRADICTED = shortened('the tank float reads low but is contradicted');
const LET_GO = shortened('the tank float has just let go');

describe('who wins: a hold, two wet signs, a low tank, one wet sign', () => {
  const table: readonly (readonly [floor: string, tank: string, FloorSigns, TankRule, object])[] = [
    ['dry', 'well', DRY, WELL, OPEN],
    ['leak', 'well', LEAK, WELL, shortened('the leak sensor is wet')],
    ['overflow', 'well', OVERFLOW, WELL, shortened('the overflow float is wet')],
    ['both wet', 'well', BOTH, WELL, LAST_SIP],
    ['dry', 'low', DRY, LOW, TANK_SIPS],
    ['leak', 'low', LEAK, LOW, TANK_SIPS],
    ['overflow', 'low', OVERFLOW, LOW, TANK_SIPS],
    ['both wet', 'low', BOTH, LOW, LAST_SIP],
    ['dry', 'float suspect', DRY, SUSPECT, CONTRADICTED],
    ['leak', 'float suspect', LEAK, SUSPECT, CONTRADICTED],
    ['overflow', 'float suspect', OVERFLOW, SUSPECT, CONTRADICTED],
    ['both wet', 'float suspect', BOTH, SUSPECT, LAST_SIP],
    ['dry', 'returning', DRY, RETURNING, LET_GO],
    ['leak', 'returning', LEAK, RETURNING, LET_GO],
    ['overflow', 'returning', OVERFLOW, RETURNING, LET_GO],
    ['dry', 'returning, still over a short flood', DRY, PROVEN, OPEN],
    ['leak', 'returning, still over a short flood', LEAK, PROVEN, shortened('the leak sensor is wet')],
    ['both wet', 'returning', BOTH, RETURNING, LAST_SIP],
  ];

  it.each(table)('floor %s, tank %s', (_floor, _tank, signs, tank, expected) => {
    expect(interlock(fitted(true, true), NO_ORDERS, UP, signs, tank)).toEqual(expected);
  });

  it.each(table)('floor %s, tank %s: a hold wins over it', (_floor, _tank, signs, tank) => {
    expect(interlock(fitted(true, true), HELD, UP, signs, tank)).toEqual(SHUT);
    expect(interlock(fitted(true, true), HELD, DOWN, signs, tank)).toEqual(SHUT);
  });

  it.each(table)('floor %s, tank %s: a silent board wins over it', (_floor, _tank, signs, tank) => {
    expect(interlock(fitted(true, true), NO_ORDERS, DOWN, signs, tank)).toEqual(SILENT);
  });
});

describe('a sign that cannot be believed', () => {
  const noSigns: readonly (readonly [string, Reading<boolean>])[] = [
    ['absent', absent],
    ['stale and dry', stale(false)],
    ['dry', good(false)],
  ];

  it.each(noSigns)('%s is no sign: nothing is shortened by it', (_, reading) => {
    const signs = { leak: reading, overflow: reading };
    expect(interlock(fitted(true, true), NO_ORDERS, UP, signs, WELL)).toEqual(OPEN);
  });

  it.each(noSigns)('%s beside a wet one makes no second sign', (_, reading) => {
    const lock = interlock(fitted(true, true), NO_ORDERS, UP, { leak: good(true), overflow: reading }, WELL);
    expect(lock).toEqual(shortened('the leak sensor is wet'));
  });

  it('from a sensor that the farm does not have counts for nothing', () => {
    expect(interlock(fitted(false, false), NO_ORDERS, UP, BOTH, WELL)).toEqual(OPEN);
    expect(interlock(fitted(true, false), NO_ORDERS, UP, BOTH, WELL)).toEqual(
      shortened('the leak sensor is wet'),
    );
    expect(interlock(fitted(false, true), NO_ORDERS, UP, BOTH, WELL)).toEqual(
      shortened('the overflow float is wet'),
    );
  });

  it('stays wet an hour after it fell silent wet, and is dry again only when it says so', () => {
    const wetAt = absorbed(
      NO_SENSES,
      [
        { channel: 'leak', wet: true, at: second(0) },
        { channel: 'overflow', wet: true, at: second(30) },
      ],
      second(30),
    );
    const farm = fitted(true, true);
    const both = 'leak sensor and overflow float are both wet';
    expect(wetSigns(farm, floorSigns(wetAt, second(90)))).toBe(both);
    expect(wetSigns(farm, floorSigns(wetAt, second(3600)))).toBe(both);
    const dried = absorbed(wetAt, [{ channel: 'leak', wet: false, at: second(3600) }], second(3600));
    expect(wetSigns(farm, floorSigns(dried, second(3600)))).toBe('the overflow float is wet');
  });
});
