import { describe, expect, it } from 'vitest';
import { METER_SHED, METER_WIRING, SWITCH_SHED, SWITCH_WIRING } from './seven-sheds.ts';
import { calm, holds, IN_REST, type Expected, type Site } from './seven-ways.ts';

const METER: Site = { part: 'returnFlow', reads: ['flow'], farm: METER_SHED, wiring: METER_WIRING };
const SWITCH: Site = {
  part: 'returnFlow',
  reads: ['return-switch'],
  farm: SWITCH_SHED,
  wiring: SWITCH_WIRING,
};

const LOST_WATER = {
  alarms: ['missed-flood'],
  because: 'a return that shows nothing is what a pipe that came off shows; only a look can tell',
} as const;
const ALONE =
  'nothing else sees the return: what it shows is disbelieved by its consequences, not as a number';

const METER_WAYS: readonly Expected[] = [
  { way: 'off', says: /The tank fell but no water came back/, high: LOST_WATER, falseBecause: ALONE },
  { way: 'stuck', says: /shows water since 11:\d\d, though the pump rests/, falseBecause: ALONE },
  { way: 'stuck', from: IN_REST, says: /no water came back/, high: LOST_WATER, falseBecause: ALONE },
  { way: 'garbage', says: /shows water since 11:\d\d, though the pump rests/, falseBecause: ALONE },
  { way: 'wrong', says: /Weak flood: return flow 2\d L\/min, usually 40/, falseBecause: ALONE },
  { way: 'slow', says: /shows water since 11:\d\d, though the pump rests/, falseBecause: ALONE },
  { way: 'delayed', says: /though the pump rests/, high: LOST_WATER, falseBecause: ALONE },
  { way: 'intermittent', says: /Weak flood: return flow/, falseBecause: ALONE },
];

const SWITCH_WAYS: readonly Expected[] = [
  { way: 'off', says: /The tank fell but no water came back/, high: LOST_WATER, falseBecause: ALONE },
  { way: 'stuck', says: /shows water since 11:\d\d, though the pump rests/, falseBecause: ALONE },
  { way: 'stuck', from: IN_REST, says: /no water came back/, high: LOST_WATER, falseBecause: ALONE },
  { way: 'garbage', says: /it chatters: a loose or wet contact/ },
  { way: 'wrong', says: /The tank fell but no water came back/, high: LOST_WATER, falseBecause: ALONE },
  { way: 'slow', says: /shows water since 11:\d\d, though the pump rests/, falseBecause: ALONE },
  { way: 'delayed', says: /though the pump rests/, high: LOST_WATER, falseBecause: ALONE },
  {
    way: 'intermittent',
    says: /it chatters: a loose or wet contact/,
    falseBecause: 'a contact that is in and out for 10 s each changes less than 8 times in most minutes',
  },
];

const title = ({ way, from }: Expected): string => `${way}${from === IN_REST ? ', from a rest on' : ''}`;

describe('a hot noon with nothing broken', () => {
  it.each([METER, SWITCH])('confirms every flood and raises no alarm', async (site) => {
    const { run, after, held } = await calm(site);
    expect(after.filter(({ kind }) => kind === 'alarm-raised')).toEqual([]);
    expect(after.filter((entry) => entry.kind === 'verdict' && entry.verdict.kind !== 'confirmed')).toEqual(
      [],
    );
    expect(run.lowestTheta).toBeGreaterThan(site.farm.floors.stress);
    expect(held.falseSeconds).toEqual({});
  });
});

describe('a meter on the return, from 11:20 on a hot day', () => {
  it.each(METER_WAYS.map((way) => [title(way), way] as const))('%s', (_, way) => holds(METER, way));
});

describe('a switch on the return, from 11:20 on a hot day', () => {
  it.each(SWITCH_WAYS.map((way) => [title(way), way] as const))('%s', (_, way) => holds(SWITCH, way));
});
