import { describe, expect, it } from 'vitest';
import { FAULTS, type FaultKind } from '../../sim/faults/fault.ts';
import { HOUR, runShed, told, type ShedRun } from './shed-run.ts';
import { broken, clock, DAY, shedWith } from './sheds.ts';

/** Everything fitted, so that one fault has the most ways to be seen. */
const FITTED = shedWith([
  ['evidence'],
  {
    returnFlow: 'meter',
    pumpCurrent: true,
    relayReadBack: true,
    mainsPresent: true,
    tankFloat: true,
    tankLevel: true,
    leakSensor: true,
    overflowFloat: true,
  },
]);
const FROM = 12;
const HOURS = 4;

const faulty = (kind: FaultKind): ShedRun =>
  runShed({
    farm: FITTED,
    fromMillis: DAY.start,
    untilMillis: clock(FROM + HOURS),
    faults: broken(kind, FROM),
  });

/** Kinds that a single fault raises in 4 h of the hot day, and the calls that begin with them. */
const counted = (run: ShedRun): { readonly kinds: readonly string[]; readonly calls: readonly string[] } => ({
  kinds: [...new Set(told(run, 'alarm-raised').map(({ alarm }) => alarm))],
  calls: told(run, 'alarm-called').flatMap(({ call, alarm }) => (call === 'raised' ? [alarm ?? '-'] : [])),
});

describe('a single fault on a hot day, with everything fitted', () => {
  const found = (Object.keys(FAULTS) as FaultKind[]).map((kind) => [kind, counted(faulty(kind))] as const);
  // A clogged filter gives floods that are missed, weak, and missed again: each of them is news.
  const callsMax = (kind: FaultKind): number => (kind === 'filter-clogged' ? 3 : 2);
  it.each(found)(
    '%s raises at most 2 kinds of alarm, and 2 first calls (a clogged filter 3) in 4 h',
    (kind, { kinds, calls }) => {
      expect(kinds.length).toBeLessThanOrEqual(2);
      expect(calls.length).toBeLessThanOrEqual(callsMax(kind));
    },
  );

  it('is called about at all where it raises anything: no alarm is only a line on a page', () => {
    for (const [, { kinds, calls }] of found) expect(calls.length > 0).toBe(kinds.length > 0);
  });
});

/** No alarm but what the calls say: nothing of the controller’s state. */
describe('lost mains on a hot day', () => {
  const run = runShed({
    farm: FITTED,
    fromMillis: DAY.start,
    untilMillis: clock(FROM + 1.5) + 2 * HOUR,
    faults: broken('mains-lost', FROM, FROM + 1.5),
  });

  it('are one group: the floods missed meanwhile are raised, and have no call of their own', () => {
    const raised = told(run, 'alarm-raised').map(({ alarm }) => alarm);
    expect([...new Set(raised)]).toEqual(['mains-lost', 'missed-flood']);
    const during = told(run, 'alarm-called').filter(({ at }) => at >= clock(FROM) && at < clock(FROM + 1.5));
    expect(new Set(during.map(({ alarm }) => alarm))).toEqual(new Set(['mains-lost']));
    expect(during.at(-1)!.also).toEqual(['missed-flood']);
  });

  it('say with their end that the missed flood still stands, and call for it when 10 min later it does', () => {
    const after = told(run, 'alarm-called').filter(({ at }) => at >= clock(FROM + 1.5));
    const over = after.find(({ call }) => call === 'returned');
    expect(over).toMatchObject({ alarm: 'mains-lost', also: ['missed-flood'] });
    const own = after.filter(({ alarm }) => alarm === 'missed-flood');
    expect(own[0]!.at - over!.at).toBeGreaterThanOrEqual(9 * 60_000);
    expect(own.at(-1)!.call).toBe('returned');
  });

  it('bring at most 10 calls in any 10 min, though no time is left', () => {
    const at = told(run, 'alarm-called').map((entry) => entry.at);
    for (const from of at) {
      expect(at.filter((one) => one >= from && one < from + 10 * 60_000).length).toBeLessThanOrEqual(10);
    }
  });

  it('are called at once, to the next person within 10 min each, and their end is called once', () => {
    const calls = told(run, 'alarm-called').filter(({ alarm }) => alarm === 'mains-lost');
    const [raised] = told(run, 'alarm-raised').filter(({ alarm }) => alarm === 'mains-lost');
    expect(calls[0]).toMatchObject({ call: 'raised', rung: 0, at: raised!.at });
    const during = calls.filter(({ call }) => call !== 'returned');
    expect(during.map(({ rung }) => rung)).toEqual(during.map((_, place) => place));
    for (const [place, { at }] of during.slice(1).entries()) {
      expect(at - during[place]!.at).toBeLessThanOrEqual(10 * 60_000 + 1000);
    }
    expect(calls.filter(({ call }) => call === 'returned')).toHaveLength(1);
  });
});
