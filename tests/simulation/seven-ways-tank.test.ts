import { describe, it } from 'vitest';
import { METER_SHED, METER_WIRING } from './seven-sheds.ts';
import { ENDS_SOON, holds, type Expected, type Site } from './seven-ways.ts';

const LEVEL: Site = { part: 'tankLevel', reads: ['litres'], farm: METER_SHED, wiring: METER_WIRING };
const FLOAT: Site = { ...LEVEL, part: 'tankFloat', reads: ['tank-float'] };
const LEAK: Site = { ...LEVEL, part: 'leakSensor', reads: ['leak'] };
const OVERFLOW: Site = { ...LEVEL, part: 'overflowFloat', reads: ['overflow'] };

const ONLY_EYE = 'nothing holds the level against itself or against the pump; no flood hangs on it alone';

const NONSENSE = /litres: the level sensor reads nonsense/;
const LEVEL_WAYS: readonly Expected[] = [
  { way: 'off', ends: ENDS_SOON, says: NONSENSE },
  {
    way: 'garbage',
    ends: ENDS_SOON,
    says: NONSENSE,
    falseBecause: 'between the ends of the scale any level may be',
  },
  { way: 'intermittent', ends: ENDS_SOON, says: NONSENSE },
  ...(['stuck', 'wrong', 'slow', 'delayed'] as const).map((way): Expected => ({
    way,
    ends: ENDS_SOON,
    says: null,
    falseBecause: ONLY_EYE,
  })),
];

/** A cut cable, a hung or a late contact says what is true in these hours: the tank is not low, the floor dry. */
const SAYS_THE_TRUTH: readonly Expected[] = (
  ['off', 'stuck', 'slow', 'delayed', 'intermittent'] as const
).map((way) => ({ way, ends: ENDS_SOON, says: null }));

/** Floods of 10 min instead of 20 let a bench take up half of what it drank, and the rests do not shorten for it. */
const SHORTENED = {
  by: 0.08,
  because:
    'while a float or the floor speaks against it floods are shortened to 10 min, by the order of who wins',
} as const;

const FLOAT_WAYS: readonly Expected[] = [
  ...SAYS_THE_TRUTH,
  {
    way: 'garbage',
    says: /tank-float: it chatters/,
    high: {
      alarms: ['tank-low', 'drying-out'],
      because: 'the first words are believed, and a tank that was low is well again after a whole flood only',
    },
    dryer: SHORTENED,
  },
  {
    way: 'wrong',
    says: /The tank float reads low since 11:20, but water comes back; shortened floods go on/,
    high: {
      alarms: ['tank-low', 'float-suspect'],
      because: 'until a sip has brought water back nobody can tell it from an empty tank',
    },
    dryer: SHORTENED,
    falseBecause: 'it is the tank rule that disbelieves it, not the reading',
  },
];

const floorWays = (words: RegExp): readonly Expected[] => [
  ...SAYS_THE_TRUTH,
  {
    way: 'garbage',
    says: words,
    high: { alarms: ['water-on-floor'], because: 'a drowned cable chatters as well' },
    dryer: SHORTENED,
  },
  {
    way: 'wrong',
    says: words,
    high: { alarms: ['water-on-floor'], because: 'one sign of water is worth a look' },
    dryer: SHORTENED,
    falseBecause: 'a floor that is wet for an hour looks the same',
  },
];

const named = (ways: readonly Expected[]): (readonly [string, Expected])[] =>
  ways.map((expected) => [expected.way, expected]);

describe('the level sensor of the tank, from 11:20 on a hot day', () => {
  it.each(named(LEVEL_WAYS))('%s', (_, way) => holds(LEVEL, way));
});

describe('the float of the tank, from 11:20 on a hot day', () => {
  it.each(named(FLOAT_WAYS))('%s', (_, way) => holds(FLOAT, way));
});

describe('the leak sensor, from 11:20 on a hot day', () => {
  it.each(named(floorWays(/Water where none should be: the leak sensor is wet/)))('%s', (_, way) =>
    holds(LEAK, way),
  );
});

describe('the overflow float, from 11:20 on a hot day', () => {
  it.each(named(floorWays(/Water where none should be: the overflow float is wet/)))('%s', (_, way) =>
    holds(OVERFLOW, way),
  );
});
