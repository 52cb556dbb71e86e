import { describe, expect, it } from 'vitest';
import { monotonicMillis } from '../../../src/time/instant.ts';
import type { Sample } from '../../../src/ports/sample.ts';
import { absorbed, NO_SENSES } from '../../../src/sense/senses.ts';
import { sighting, type Sighting } from '../../../src/verify/sighting.ts';
import { farmWith } from '../farm/example.ts';

const NOW = monotonicMillis(10_000_000);
type Said = Sample extends infer One ? (One extends Sample ? Omit<One, 'at'> : never) : never;

const look = (
  evidence: object,
  said: readonly Said[],
  { secondsAgo = 0, returns = 'proves' }: { secondsAgo?: number; returns?: 'proves' | 'stuck' } = {},
): Sighting => {
  const at = monotonicMillis(NOW - secondsAgo * 1000);
  const senses = absorbed(
    NO_SENSES,
    said.map((one) => ({ ...one, at })),
    NOW,
  );
  return sighting(farmWith([['evidence'], evidence]), senses, 40, returns, NOW);
};

const METER = { returnFlow: 'meter' };
const SWITCH = { returnFlow: 'switch' };
const ALL = {
  returnFlow: 'meter',
  pumpCurrent: true,
  relayReadBack: true,
  tankLevel: true,
};
const flow = (litresPerMinute: number): Said => ({ channel: 'return-flow', litresPerMinute });
const switched = (flowing: boolean): Said => ({ channel: 'return-switch', flowing });

describe('sighting: each piece of evidence', () => {
  it.each<readonly [says: string, evidence: object, said: readonly Said[], seen: Partial<Sighting>]>([
    ['a meter at 10 of the usual 40 L/min sees water', METER, [flow(10)], { water: 'seen' }],
    ['a meter at 9.9 L/min sees none', METER, [flow(9.9)], { water: 'not-seen', returnLitresPerMinute: 9.9 }],
    [
      'a meter that reads NaN sees nothing',
      METER,
      [flow(NaN)],
      { water: 'unknown', returnLitresPerMinute: null },
    ],
    ['a meter that reads −1 sees nothing', METER, [flow(-1)], { water: 'unknown' }],
    ['a meter that has not spoken sees nothing', METER, [], { water: 'unknown', returnShows: 'unknown' }],
    [
      'a closed switch sees water but no flow',
      SWITCH,
      [switched(true)],
      { water: 'seen', returnLitresPerMinute: null },
    ],
    ['an open switch sees none', SWITCH, [switched(false)], { water: 'not-seen' }],
    [
      'a meter is not asked where a switch is fitted',
      SWITCH,
      [flow(40)],
      { water: 'unknown', returnLitresPerMinute: null },
    ],
    [
      'nothing fitted sees nothing, whatever is said',
      { returnFlow: 'none' },
      [flow(40), switched(true)],
      { water: 'unknown' },
    ],
    ['current that is drawn is seen', ALL, [{ channel: 'pump-current', drawing: true }], { current: 'seen' }],
    [
      'current that is not drawn is not',
      ALL,
      [{ channel: 'pump-current', drawing: false }],
      { current: 'not-seen' },
    ],
    [
      'current is not asked where it is not fitted',
      METER,
      [{ channel: 'pump-current', drawing: true }],
      { current: 'unknown' },
    ],
    ['a closed contact is seen', ALL, [{ channel: 'relay-read-back', closed: true }], { contact: 'seen' }],
    ['an open contact is not', ALL, [{ channel: 'relay-read-back', closed: false }], { contact: 'not-seen' }],
    [
      'a contact is not asked where it is not fitted',
      METER,
      [{ channel: 'relay-read-back', closed: true }],
      { contact: 'unknown' },
    ],
    ['the tank is read in litres', ALL, [{ channel: 'tank-level', litres: 480 }], { tankLitres: 480 }],
    ['a tank of NaN litres is not read', ALL, [{ channel: 'tank-level', litres: NaN }], { tankLitres: null }],
    [
      'a tank is not read where no level sensor is fitted',
      METER,
      [{ channel: 'tank-level', litres: 480 }],
      { tankLitres: null },
    ],
  ])('%s', (_, evidence, said, seen) => {
    expect(look(evidence, said)).toMatchObject(seen);
  });

  it.each([
    [90, { water: 'seen', current: 'seen', contact: 'seen', tankLitres: 480 }],
    [91, { water: 'unknown', current: 'unknown', contact: 'unknown', tankLitres: null }],
  ])('believes what was said %d s ago as %o', (secondsAgo, seen) => {
    const said: readonly Said[] = [
      flow(40),
      { channel: 'pump-current', drawing: true },
      { channel: 'relay-read-back', closed: true },
      { channel: 'tank-level', litres: 480 },
    ];
    expect(look(ALL, said, { secondsAgo })).toMatchObject(seen);
  });
});

describe('sighting: a return sensor known to be stuck', () => {
  it.each([
    ['meter', METER, flow(40)],
    ['switch', SWITCH, switched(true)],
  ] as const)('a stuck %s that shows water proves nothing, and still shows it', (_, evidence, said) => {
    expect(look(evidence, [said], { returns: 'stuck' })).toMatchObject({
      water: 'unknown',
      returnShows: 'seen',
    });
  });

  it.each([
    ['meter', METER, flow(0)],
    ['switch', SWITCH, switched(false)],
  ] as const)('a %s that shows none is believed again', (_, evidence, said) => {
    expect(look(evidence, [said], { returns: 'stuck' })).toMatchObject({
      water: 'not-seen',
      returnShows: 'not-seen',
    });
  });
});
