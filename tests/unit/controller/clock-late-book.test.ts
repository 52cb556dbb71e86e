import { describe, expect, it } from 'vitest';
import { begin, keptState, step, type ControllerState, type Event } from '../../../src/controller.ts';
import {
  asUnset,
  believedNow,
  confirmed,
  doubtedSince,
  inDoubt,
  resumedTrust,
  type ClockTrust,
} from '../../../src/time/clock-trust.ts';
import { wallMillis, type Now } from '../../../src/time/instant.ts';
import { exampleFarm } from '../../support/farm.ts';
import { minute } from '../../support/moments.ts';
import { at } from './noon.ts';

const UP = { kind: 'up' } as const;
const RIGHT: Event = { kind: 'clock-right', who: 'rui at the host' };
const SET: Event = { kind: 'clock-set' };
const AWAITED: Event = { kind: 'past', past: { kind: 'awaited' } };

const told = (from: ControllerState, ...events: readonly (readonly [Now, Event])[]): ControllerState =>
  events.reduce((state, [now, event]) => step(exampleFarm, state, event, now).state, from);
const withClock = (state: ControllerState, change: (clock: ClockTrust) => ClockTrust): ControllerState => ({
  ...state,
  clock: change(state.clock),
});

/** What a host of the same start of the machine kept at −5 min, that had begun an hour before. */
const BEGUN = begin(exampleFarm, at(-65), UP);
const aheadOf = (minutes: number): Now => ({
  monotonic: minute(minutes),
  wall: wallMillis(Number(at(minutes).wall) + 12 * 60 * 60_000),
});
const TIME: Event = { kind: 'time' };
const KEPT = {
  unset: told(withClock(BEGUN, asUnset), [at(-65), TIME], [at(-5), TIME]),
  jumped: told(BEGUN, [at(-65), TIME], [aheadOf(-5), TIME]),
} as const;

/** The next host, whose book opens at `opens`; by then it has given a flood where that is after its hold of 10 min. */
const after = (kept: keyof typeof KEPT, opens: number, ...said: readonly Event[]): ControllerState => {
  const now = kept === 'jumped' ? aheadOf : at;
  const begun = told(withClock(begin(exampleFarm, now(0), UP), asUnset), [now(0), AWAITED]);
  const spoken = told(begun, ...said.map((event) => [now(1), event] as const));
  const waits = Array.from({ length: opens - 2 }, (_, one) => [now(one + 2), TIME] as const);
  const past = { kind: 'read', kept: keptState(KEPT[kept], now(-5)), away: opens + 5, boot: 'same' } as const;
  const read = told(spoken, ...waits);
  expect(read.floodCount > 0).toBe(opens > 10);
  return told(read, [now(opens), { kind: 'past', past }], [now(opens + 1), TIME]);
};

describe.each([
  ['before any flood', 3],
  ['after a flood of this start', 14],
])('a book that opens late, %s', (_, opens) => {
  it.each(['unset', 'jumped'] as const)(
    'takes nothing back of a person’s word that the clock is right (kept in doubt as %s)',
    (kept) => {
      const { clock } = after(kept, opens, RIGHT);
      const now = kept === 'jumped' ? aheadOf(opens + 1) : at(opens + 1);
      expect([inDoubt(clock), believedNow(clock, now).wall]).toEqual([false, now.wall]);
    },
  );

  it('nor of the network’s, where nothing had set the clock', () => {
    expect(inDoubt(after('unset', opens, SET).clock)).toBe(false);
  });

  it('brings a jump back to mind that the network does not end', () => {
    const { clock } = after('jumped', opens, SET);
    expect([clock.isUnset, clock.steppedAt]).toEqual([false, minute(-5)]);
  });

  it.each(['unset', 'jumped'] as const)('leaves a doubt as %s where nobody has spoken', (kept) => {
    expect(inDoubt(after(kept, opens).clock)).toBe(true);
  });
});

describe('a jump of the clock while no host was there', () => {
  it('comes to light with a book that opens late, though something had set the clock before this start', () => {
    const kept = told(withClock(KEPT.unset, confirmed), [at(-5), TIME]);
    const begun = told(begin(exampleFarm, aheadOf(0), UP), [aheadOf(0), AWAITED]);
    const past = { kind: 'read', kept: keptState(kept, at(-5)), away: 7, boot: 'same' } as const;
    const { clock } = told(begun, [aheadOf(2), { kind: 'past', past }], [aheadOf(3), TIME]);
    expect(inDoubt(clock)).toBe(true);
  });
});

describe('a book that opens late and is of a version that did not ask what had set the clock', () => {
  it('holds nothing against the network, though that version believed a clock 12 h ahead', () => {
    const before = keptState(told(BEGUN, [aheadOf(-65), TIME], [aheadOf(-5), TIME]), aheadOf(-5));
    const { isUnset, ...clock } = before.clock;
    expect([isUnset, clock.goodOffset]).toEqual([false, Number(aheadOf(0).wall)]);
    const begun = told(withClock(begin(exampleFarm, aheadOf(0), UP), asUnset), [aheadOf(0), AWAITED]);
    const kept = { ...before, clock };
    const past = { kind: 'read', kept, away: 7, boot: 'same' } as const;
    const read = told(begun, [at(1), SET], [at(2), { kind: 'past', past }], [at(3), TIME]);
    expect(believedNow(read.clock, at(3)).wall).toBe(at(3).wall);
  });
});

describe('a late book of another start of the machine', () => {
  /** The host after it, whose book comes at minute 25; `sets` says whether something is known to have set its clock. */
  const next = (kept: ControllerState, sets: 'set' | 'unset', jumpsAt: number): ControllerState => {
    const now = (minutes: number): Now => (minutes < jumpsAt ? at(minutes) : aheadOf(minutes));
    const begun = withClock(begin(exampleFarm, at(0), UP), sets === 'set' ? (clock) => clock : asUnset);
    const waits = Array.from({ length: 24 }, (_, one) => [now(one + 1), TIME] as const);
    const past = { kind: 'read', kept: keptState(kept, at(-5)), away: 'unknown', boot: 'another' } as const;
    return told(begun, [at(0), AWAITED], ...waits, [now(25), { kind: 'past', past }], [now(26), TIME]);
  };
  const WELL = told(BEGUN, [at(-65), TIME], [at(-5), TIME]);

  it('takes nothing back of a jump that this host has seen of its own clock', () => {
    const { clock, alarms } = next(WELL, 'set', 20);
    expect([clock.steppedAt, inDoubt(clock)]).toEqual([minute(20), true]);
    expect(alarms.map(({ card, state }) => [card.kind, state])).toContainEqual([
      'clock-stepped',
      'active-unacknowledged',
    ]);
  });

  it('begins the wait for the network anew for no clock that has been unset for 25 min', () => {
    const { clock, alarms } = next(WELL, 'unset', Infinity);
    expect([clock.isUnset, clock.startedAt]).toEqual([true, minute(0)]);
    expect(alarms.map(({ card, state }) => [card.kind, state])).toContainEqual([
      'clock-stepped',
      'active-unacknowledged',
    ]);
  });

  it('brings a jump back to mind, which this clock does not end by going right', () => {
    const { clock } = next(KEPT.jumped, 'set', Infinity);
    expect([clock.steppedAt !== null, clock.goodOffset, inDoubt(clock)]).toEqual([true, null, true]);
  });
});

it('a version that did not ask what had set the clock leaves the network its 15 min after an update', () => {
  const kept = told(BEGUN, [at(-65), TIME], [at(-5), TIME]);
  const { isUnset, ...clock } = keptState(kept, at(-5)).clock;
  expect(isUnset).toBe(false);
  const trust = asUnset(resumedTrust(clock, 0, 'same', at(0)));
  expect(doubtedSince(trust, at(1).monotonic)).toBeNull();
  expect(doubtedSince(trust, at(16).monotonic)).toBe(minute(0));
});
