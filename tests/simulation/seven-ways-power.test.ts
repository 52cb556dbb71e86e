import { describe, it } from 'vitest';
import { METER_SHED, METER_WIRING } from './seven-sheds.ts';
import { holds, IN_REST, type Expected, type Site } from './seven-ways.ts';

/** A rest later, and half of the next. */
const ENDS_IN_REST = 12.5;
const CURRENT: Site = {
  part: 'pumpCurrent',
  reads: ['pump-current'],
  farm: METER_SHED,
  wiring: METER_WIRING,
  ends: ENDS_IN_REST,
};
const CONTACT: Site = { ...CURRENT, part: 'relayReadBack', reads: ['relay-read-back'] };

const OUTWEIGHED =
  'water that comes back outweighs a current or a contact that is not seen, and nothing says so';
const TIMER =
  'beside this board a plain timer may run the pump for 45 min, and no rest of a hot day is that long';
const LOOSE = 'a contact that is in and out for 10 s each changes less than 8 times in most minutes';
const WELDED = {
  alarms: ['pump-runs-on'],
  because: 'a relay seen closed in a rest may be welded; it is told from a bad contact only by looking at it',
} as const;
const AS_TOLD = 'it is told as the relay that it speaks of';

const CURRENT_WAYS: readonly Expected[] = [
  { way: 'off', says: null, falseBecause: OUTWEIGHED },
  {
    way: 'stuck',
    says: /it has drawn current past its open relay since 11:34/,
    high: { alarms: ['pump-runs-on'], because: 'a plain timer that was left on looks the same' },
    falseBecause: AS_TOLD,
  },
  { way: 'stuck', from: IN_REST, says: null, falseBecause: OUTWEIGHED },
  { way: 'garbage', says: /pump-current: it chatters/ },
  { way: 'wrong', says: null, falseBecause: OUTWEIGHED },
  { way: 'slow', says: null, falseBecause: OUTWEIGHED },
  { way: 'delayed', says: null, falseBecause: TIMER },
  { way: 'intermittent', says: /pump-current: it chatters/, falseBecause: LOOSE },
];

const CONTACT_WAYS: readonly Expected[] = [
  { way: 'off', says: null, falseBecause: OUTWEIGHED },
  { way: 'stuck', says: /its relay has been closed since 11:3\d/, high: WELDED, falseBecause: AS_TOLD },
  { way: 'stuck', from: IN_REST, says: null, falseBecause: OUTWEIGHED },
  { way: 'garbage', says: /relay-read-back: it chatters/ },
  { way: 'wrong', says: /its relay has been closed since 11:3\d/, high: WELDED, falseBecause: AS_TOLD },
  { way: 'slow', says: /its relay has been closed since/, high: WELDED, falseBecause: AS_TOLD },
  { way: 'delayed', says: /its relay has been closed since/, high: WELDED, falseBecause: AS_TOLD },
  { way: 'intermittent', says: /relay-read-back: it chatters/, falseBecause: LOOSE },
];

const title = ({ way, from }: Expected): string => `${way}${from === IN_REST ? ', from a rest on' : ''}`;

describe('the current of the pump, from 11:20 on a hot day', () => {
  it.each(CURRENT_WAYS.map((way) => [title(way), way] as const))('%s', (_, way) => holds(CURRENT, way));
});

describe('the read-back of the relay, from 11:20 on a hot day', () => {
  it.each(CONTACT_WAYS.map((way) => [title(way), way] as const))('%s', (_, way) => holds(CONTACT, way));
});
