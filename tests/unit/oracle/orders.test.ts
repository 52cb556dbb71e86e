import { describe, expect, it } from 'vitest';
import { badInput } from '../../../sim/oracle/invariants/bad-input.ts';
import { holdKept } from '../../../sim/oracle/invariants/hold.ts';
import type { OrderGiven, RunRecord } from '../../../sim/oracle/record.ts';
import type { Happening } from '../../../src/journal/entry.ts';
import { MINUTE, order, quietRecord, rows } from './quiet-record.ts';

const WHO = 'a bad request';
const said = (says: string, kind: 'hold' | 'release' | 'flood-now' = 'hold', who = WHO): Happening => ({
  kind: 'order',
  order: kind,
  who,
  says,
});
const withheld = (who: string): Happening => ({
  kind: 'verdict',
  flood: 1,
  part: 'day',
  verdict: { kind: 'withheld', says: `held by ${who}` },
});
const NOTHING = order(100, { order: 'hold', who: WHO, minutes: 0 });
const HOLD = order(90, { order: 'hold', who: 'somebody', minutes: 30 });
const RAISED: Happening = { kind: 'alarm-raised', alarm: 'weak-flow', priority: 'low', text: 'weak' };
const RETURNED: Happening = { kind: 'alarm-returned', alarm: 'weak-flow' };
const ACKNOWLEDGED: Happening = { kind: 'alarm-acknowledged', alarm: 'weak-flow', who: WHO };
const OK = order(100, { order: 'acknowledge', who: WHO, alarm: 'weak-flow' });

type Case = readonly [
  says: string,
  orders: readonly OrderGiven[],
  written: readonly (readonly [number, Happening])[],
  breaches: number,
];

describe('orders that mean nothing, to the judge', () => {
  it.each<Case>([
    [
      'a hold of 0 min that is refused changes nothing',
      [NOTHING],
      [[100, said('refused: a hold of no length')]],
      0,
    ],
    ['one that is taken does', [NOTHING], [[100, said('hold for 30 min')]], 1],
    [
      'one for which a flood is withheld does, with nothing of it written',
      [NOTHING],
      [[110, withheld(WHO)]],
      1,
    ],
    [
      'a hold of 30 min is taken, and a flood withheld for it',
      [HOLD],
      [
        [90, said('hold for 30 min', 'hold', 'somebody')],
        [110, withheld('somebody')],
      ],
      0,
    ],
    ['an order that nobody gave is a breach', [], [[100, said('flood now', 'flood-now')]], 1],
    [
      'so is one that comes 3 s after it was given',
      [order(99.95, { order: 'flood-now', who: WHO })],
      [[100, said('flood now', 'flood-now')]],
      1,
    ],
    [
      'a release with nothing held is to be refused',
      [order(100, { order: 'release', who: 'nobody' })],
      [[100, said('hold ended', 'release', 'nobody')]],
      1,
    ],
    [
      'a release 10 min after a hold of 30 min ends it',
      [HOLD, order(100, { order: 'release', who: 'nobody' })],
      [
        [90, said('hold for 30 min', 'hold', 'somebody')],
        [100, said('hold ended', 'release', 'nobody')],
      ],
      0,
    ],
    [
      'a release 31 min after it ends nothing',
      [HOLD, order(121, { order: 'release', who: 'nobody' })],
      [
        [90, said('hold for 30 min', 'hold', 'somebody')],
        [121, said('hold ended', 'release', 'nobody')],
      ],
      1,
    ],
    [
      'an alarm that stands is acknowledged by whoever asks',
      [OK],
      [
        [50, RAISED],
        [100, ACKNOWLEDGED],
      ],
      0,
    ],
    [
      'one that nobody acknowledged is not',
      [],
      [
        [50, RAISED],
        [100, ACKNOWLEDGED],
      ],
      1,
    ],
    [
      'one that has returned is still to be acknowledged',
      [OK],
      [
        [50, RAISED],
        [60, RETURNED],
        [100, ACKNOWLEDGED],
      ],
      0,
    ],
    [
      'once',
      [{ ...OK, atMillis: 70 * MINUTE }, OK],
      [
        [50, RAISED],
        [60, RETURNED],
        [70, ACKNOWLEDGED],
        [100, ACKNOWLEDGED],
      ],
      1,
    ],
    [
      'one that was acknowledged and has returned is not',
      [{ ...OK, atMillis: 55 * MINUTE }, OK],
      [
        [50, RAISED],
        [55, ACKNOWLEDGED],
        [60, RETURNED],
        [100, ACKNOWLEDGED],
      ],
      1,
    ],
  ])('%s', (_, orders, written, breaches) => {
    expect(badInput(quietRecord({ orders, rows: rows(...written) }))).toHaveLength(breaches);
  });
});

describe('a hold of 30 min from minute 90 on, with a pump that runs at minute 105, to the judge', () => {
  const ran = (...others: readonly OrderGiven[]): RunRecord => {
    const quiet = quietRecord({ orders: [HOLD, ...others] });
    const runs = [{ fromMillis: 105 * MINUTE, untilMillis: 125 * MINUTE }];
    return { ...quiet, truth: { ...quiet.truth, runs } };
  };
  it.each([
    ['is broken', ran(), 1],
    ['is broken where a hold of 0 min came between', ran(NOTHING), 1],
    ['is over where somebody released it', ran(order(100, { order: 'release', who: 'somebody' })), 0],
  ])('%s', (_, record, breaches) => {
    expect(holdKept(record)).toHaveLength(breaches);
  });
});
