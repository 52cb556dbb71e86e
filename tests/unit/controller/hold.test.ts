import { describe, expect, it } from 'vitest';
import { begin, step, type ControllerState, type Event, type Step } from '../../../src/controller.ts';
import type { Sample } from '../../../src/ports/sample.ts';
import { afterMinutes, wallMillis, type Now } from '../../../src/time/instant.ts';
import { exampleFarm, farmWith } from '../../support/farm.ts';
import { minute, utc } from '../../support/moments.ts';
import { begun } from './noon-kept.ts';

const NOON = utc('2026-07-14T11:00Z');
const at = (minutes: number): Now => ({
  monotonic: minute(minutes),
  wall: wallMillis(NOON + minutes * 60_000),
});

/** Looks every half minute from a start at noon; the return meter shows nothing, leak and overflow as told. */
const runTo = (minutes: number, farm = exampleFarm, wetFrom = Infinity): ControllerState => {
  let state = begin(farm, at(0), { kind: 'up' });
  for (let now = 0; now <= minutes; now += 0.5)
    state = step(farm, state, seen(now, now >= wetFrom), at(now)).state;
  return state;
};
const seen = (minutes: number, wet = false): Event => {
  const { monotonic } = at(minutes);
  const samples: readonly Sample[] = [
    { at: monotonic, channel: 'return-flow', litresPerMinute: 0 },
    { at: monotonic, channel: 'leak', wet },
    { at: monotonic, channel: 'overflow', wet },
  ];
  return { kind: 'samples', samples };
};
const hold = (minutes: number): Event => ({ kind: 'hold', minutes, who: 'Ana' });
const commandsOf = (next: Step): readonly string[] => next.commands.map((command) => command.kind);

describe('a hold', () => {
  it('starts the pump not even for an instant when it comes as the pause before a retry ends', () => {
    // The first flood starts at 0.5 min; without water it is stopped at 8.5 and would be tried again at 9.
    const pausing = runTo(8.5);
    expect(pausing.flood?.phase.kind).toBe('pausing');
    expect(commandsOf(step(exampleFarm, pausing, seen(9), at(9)))).toEqual(['pump-on']);
    const held = step(exampleFarm, pausing, hold(30), at(9));
    expect(commandsOf(held)).toEqual([]);
    expect(held.state.flood).toBeNull();
    expect(held.entries.find((entry) => entry.kind === 'verdict')?.verdict).toMatchObject({
      kind: 'withheld',
    });
  });

  it('stops a flood under way in the same step, and the flood is owed at its end', () => {
    const running = runTo(3);
    const held = step(exampleFarm, running, hold(30), at(3.25));
    expect(commandsOf(held)).toEqual(['pump-off']);
    const early = step(exampleFarm, held.state, seen(33), at(33));
    expect(commandsOf(early)).toEqual([]);
    expect(commandsOf(step(exampleFarm, early.state, seen(33.25), at(33.25)))).toEqual(['pump-on']);
  });

  it('ends after 240 min however long was asked, and says so', () => {
    for (const minutes of [1e9, Infinity, NaN]) {
      const held = step(exampleFarm, runTo(3), hold(minutes), at(3.25));
      expect(held.state.orders.hold?.until).toBe(afterMinutes(at(3.25).monotonic, 240));
      expect(held.entries.find((entry) => entry.kind === 'order')?.says).toBe('hold for 4 h');
    }
  });

  it('is not cut short by a shorter one of somebody else, who is told', () => {
    const held = step(exampleFarm, runTo(3), hold(60), at(3.25));
    const button: Event = { kind: 'hold', minutes: 30, who: 'the button' };
    const both = step(exampleFarm, held.state, button, at(10));
    expect(both.state.orders.hold).toEqual(held.state.orders.hold);
    expect(both.entries[0]).toMatchObject({
      kind: 'order',
      who: 'the button',
      says: 'hold for 30 min; that by Ana ends later',
    });
    const longer = step(exampleFarm, both.state, hold(90), at(11));
    expect(longer.state.orders.hold?.until).toBe(afterMinutes(at(11).monotonic, 90));
    expect(longer.entries[0]).toMatchObject({ says: 'hold for 1 h 30 min' });
  });

  it('of one person ends without that of another: the pump rests until the last hands are out', () => {
    const anas = step(exampleFarm, runTo(3), hold(60), at(3.25)).state;
    const both = step(exampleFarm, anas, { kind: 'hold', minutes: 30, who: 'Rui' }, at(5)).state;
    const anaOut = step(exampleFarm, both, { kind: 'release', who: 'Ana' }, at(8));
    expect(anaOut.entries[0]).toMatchObject({
      who: 'Ana',
      says: 'hold ended; hold for 27 min by Rui goes on',
    });
    expect(commandsOf(anaOut)).toEqual([]);
    const ruiOut = step(exampleFarm, anaOut.state, { kind: 'release', who: 'Rui' }, at(20));
    expect(ruiOut.entries[0]).toMatchObject({ who: 'Rui', says: 'hold ended' });
    expect(commandsOf(ruiOut)).toEqual(['pump-on']);
    const nobody = step(exampleFarm, anaOut.state, { kind: 'release', who: 'Eva' }, at(20));
    expect(commandsOf(nobody)).toEqual(['pump-on']);
  });

  it.each([0, -30, -Infinity])('of %d min is refused, and leaves one that stands as it is', (minutes) => {
    const nobody: Event = { kind: 'hold', minutes, who: 'Rui' };
    const free = step(exampleFarm, runTo(3), nobody, at(3.25));
    expect(commandsOf(free)).toEqual([]);
    expect(free.state.orders.hold).toBeNull();
    expect(free.entries).toMatchObject([{ kind: 'order', who: 'Rui', says: 'refused: a hold of no length' }]);
    const held = step(exampleFarm, runTo(3), hold(30), at(3.25));
    const still = step(exampleFarm, held.state, nobody, at(4));
    expect(still.state.orders.hold).toEqual(held.state.orders.hold);
    expect(commandsOf(still)).toEqual([]);
  });

  it('of 0 min tells a board that keeps the plants nothing: what its button holds stays held', () => {
    const told = begun();
    told.tell(0.25, { kind: 'time' });
    told.tell(0.3, { kind: 'hold', minutes: 0, who: 'Rui' });
    expect(told.commands()).toEqual([]);
    told.tell(0.4, { kind: 'release', who: 'Ana' });
    expect(told.commands()).toEqual(['release at 0.4']);
  });

  it('that does not stand is not taken back: that is refused, and says so', () => {
    const released = step(exampleFarm, runTo(3), { kind: 'release', who: 'Ana' }, at(3.25));
    expect(released.entries).toMatchObject([{ kind: 'order', says: 'refused: nothing is held' }]);
    const held = step(exampleFarm, runTo(3), hold(30), at(3.25));
    const freed = step(exampleFarm, held.state, { kind: 'release', who: 'Ana' }, at(4));
    expect(freed.entries.find(({ kind }) => kind === 'order')).toMatchObject({ says: 'hold ended' });
  });

  it('of 30 min raises its own alarm when half of the time left has gone', () => {
    let next = step(exampleFarm, runTo(3), hold(120), at(3.25));
    const halfGone = 3.25 + next.left().minutes / 2;
    const raised: number[] = [];
    for (let now = 3.5; now < 123; now += 0.5) {
      next = step(exampleFarm, next.state, seen(now), at(now));
      if (next.entries.some((entry) => entry.kind === 'alarm-raised' && entry.alarm === 'hold-is-long')) {
        raised.push(now);
      }
    }
    expect(raised).toHaveLength(1);
    expect(raised[0]! - halfGone).toBeGreaterThanOrEqual(0);
    expect(raised[0]! - halfGone).toBeLessThan(1);
  });

  it('refuses a flood asked for meanwhile', () => {
    const held = step(exampleFarm, runTo(3), hold(30), at(3.25));
    const asked = step(exampleFarm, held.state, { kind: 'flood-now', who: 'Rui' }, at(4));
    expect(commandsOf(asked)).toEqual([]);
    expect(asked.entries.find((entry) => entry.kind === 'order')?.says).toMatch(/^refused/);
  });

  it('taken back with a flood asked for lets it start 30 s after the stop, and not before', () => {
    let next = step(exampleFarm, runTo(3), hold(30), at(3.25));
    next = step(exampleFarm, next.state, { kind: 'release', who: 'Ana' }, at(3.5));
    next = step(exampleFarm, next.state, { kind: 'flood-now', who: 'Ana' }, at(3.6));
    expect(commandsOf(next)).toEqual([]);
    next = step(exampleFarm, next.state, seen(3.74), at(3.74));
    expect(commandsOf(next)).toEqual([]);
    next = step(exampleFarm, next.state, seen(3.75), at(3.75));
    expect(commandsOf(next)).toEqual(['pump-on']);
  });

  it('taken back at once leaves the owed flood the shortest rest of 10 min, not the plan’s 25', () => {
    let next = step(exampleFarm, runTo(3), hold(30), at(3.25));
    next = step(exampleFarm, next.state, { kind: 'release', who: 'Ana' }, at(3.5));
    const started: number[] = [];
    for (let now = 3.75; now < 20; now += 0.25) {
      next = step(exampleFarm, next.state, seen(now), at(now));
      if (commandsOf(next).includes('pump-on')) started.push(now);
    }
    expect(started[0]).toBe(13.25);
  });
});

describe('two signs of water on the floor', () => {
  const farm = farmWith([['evidence'], { returnFlow: 'meter', leakSensor: true, overflowFloat: true }]);
  it('start the pump not even for an instant when they come as the pause before a retry ends', () => {
    const pausing = runTo(8.5, farm);
    expect(commandsOf(step(farm, pausing, seen(9), at(9)))).toEqual(['pump-on']);
    expect(commandsOf(step(farm, pausing, seen(9, true), at(9)))).toEqual([]);
  });
});
