import { describe, expect, it } from 'vitest';
import { begin, keptState, type ControllerState, type Event } from '../../../src/controller.ts';
import type { Kept, Link } from '../../../src/ports/board.ts';
import { farmWith } from '../../support/farm.ts';
import { NOTHING_KEPT } from '../verify/kept.ts';
import { cut } from './cut.ts';
import { at, linkIs, toldFrom, type Said, type Told } from './noon.ts';

const FARM = farmWith([
  ['evidence'],
  { returnFlow: 'meter', tankFloat: true, tankLevel: true, pumpCurrent: true, relayReadBack: true },
]);
const isOn = (told: Told): boolean => told.state().guard.asked.kind === 'on';
const KEEPS: Link = { kind: 'up', kept: NOTHING_KEPT };

/** What the board sees while its pump runs as asked, unless told otherwise; null is a sensor that says nothing. */
const shed =
  (told: Told, other: { flow?: number | null; low?: boolean; litres?: (minutes: number) => number } = {}) =>
  (minutes: number): readonly Said[] => {
    const flow = other.flow === undefined ? (isOn(told) ? 40 : 0) : other.flow;
    return [
      ...(flow === null ? [] : [{ channel: 'return-flow', litresPerMinute: flow } as const]),
      ...(other.litres === undefined
        ? []
        : [{ channel: 'tank-level', litres: other.litres(minutes) } as const]),
      { channel: 'pump-current', drawing: isOn(told) },
      { channel: 'relay-read-back', closed: isOn(told) },
      { channel: 'tank-float', low: other.low === true },
      { channel: 'air-temperature', celsius: 33 + Math.sin(minutes / 7) },
    ];
  };

/** A host that begins at noon and is told at once that its past has not opened yet. */
const waiting = (link: Link): Told => {
  const told = toldFrom(FARM, 0, link, begin(FARM, at(0), link));
  told.tell(0, { kind: 'past', past: { kind: 'awaited' } });
  return told;
};
const read = (state: ControllerState, minutes: number): Event => ({
  kind: 'past',
  past: { kind: 'read', kept: keptState(state, at(-5)), away: minutes + 5, boot: 'same' },
});

describe('a past that is read late takes no alarm away', () => {
  it('of the tank that was low, and that falls', () => {
    const before = toldFrom(FARM, -200, KEEPS);
    const litres = (minutes: number): number => 500 - (minutes + 200) * 1.5;
    before.lookOn(-12, shed(before, { litres }));
    before.lookOn(-9, shed(before, { litres, low: true }));
    before.lookOn(-5, shed(before, { litres }));
    const told = waiting(KEEPS);
    told.lookOn(0.5, shed(told, { litres }));
    told.tell(0.6, read(before.state(), 0.6));
    told.lookOn(4, shed(told, { litres }));
    expect(told.state().alarms.map(({ card, state }) => `${card.kind} ${state}`)).toEqual(
      expect.arrayContaining(['tank-low active-unacknowledged', 'tank-falls active-unacknowledged']),
    );
    expect(told.state().tank.kind).toBe('returning');
  });

  it('of a flood that this host has missed since', () => {
    const before = toldFrom(FARM, -60);
    before.tell(-60, { kind: 'time' });
    const told = waiting({ kind: 'up' });
    told.lookOn(26, shed(told, { flow: 0 }));
    expect(told.raised('missed-flood')).toEqual([25]);
    told.tell(26.1, read(before.state(), 26.1));
    told.lookOn(60, shed(told, { flow: 0 }));
    expect(told.returned('missed-flood')).toEqual([]);
  });

  it('of a flood that the board has told to be missed', () => {
    const before = toldFrom(FARM, -60, KEEPS);
    before.tell(-60, { kind: 'time' });
    const told = waiting({ kind: 'down', why: 'opening', keeper: 'keeps' });
    const run = { startedAt: at(-30).monotonic, seconds: 1200, begunBy: 'board', endedBy: 'board' } as const;
    const kept: Kept = { ...NOTHING_KEPT, runs: [{ ...run, verdict: 'missed' }] };
    told.tell(0.2, linkIs({ kind: 'up', kept }));
    told.lookOn(1, shed(told, { flow: 0 }));
    expect(told.raised('missed-flood')).toEqual([0.2]);
    told.tell(1.1, read(before.state(), 1.1));
    told.lookOn(3, shed(told, { flow: 0 }));
    expect(told.returned('missed-flood')).toEqual([]);
  });
});

describe('a missed flood', () => {
  /** No water comes back until the meter falls silent at 22 min. */
  const silenced = (drawing: boolean): Told => {
    const told = toldFrom(FARM);
    const dead = (minutes: number): readonly Said[] =>
      shed(told, { flow: 0 })(minutes).map((one) =>
        one.channel === 'pump-current' ? { ...one, drawing: drawing && one.drawing } : one,
      );
    told.lookOn(22, dead);
    expect(told.raised('missed-flood')).toHaveLength(1);
    told.lookOn(120, shed(told, { flow: null }));
    return told;
  };

  it('is not over with one that nobody saw, by a meter that has fallen silent since', () => {
    const told = silenced(true);
    expect(
      told.entries().some((entry) => entry.kind === 'verdict' && entry.verdict.kind === 'unproven'),
    ).toBe(true);
    expect(told.returned('missed-flood')).toEqual([]);
  });

  it('is over when the pump that drew no current then draws it now', () => {
    expect(silenced(false).returned('missed-flood')).toHaveLength(1);
  });
});

describe('the alarm of a low tank', () => {
  it('is not taken away by a whole flood of which nobody saw the end', () => {
    const told = toldFrom(FARM);
    told.lookOn(5, shed(told, { low: true }));
    let minutes = 5.25;
    const isProving = (): boolean => {
      const { tank, flood } = told.state();
      const ran = flood === null ? 0 : minutes - flood.startedAt / 60_000;
      return tank.kind === 'returning' && tank.shortFlood !== undefined && ran > 11;
    };
    for (; minutes < 120 && !isProving(); minutes += 0.25) told.lookOn(minutes, shed(told));
    expect(isProving()).toBe(true);
    const state = cut({ farm: FARM, state: told.state(), at: at(minutes), now: at(minutes + 1), away: 1 });
    const next = toldFrom(FARM, minutes + 1, { kind: 'up' }, state);
    next.tell(minutes + 1, { kind: 'time' });
    expect(next.state().tank.kind).toBe('returning');
    expect(next.returned('tank-low')).toEqual([]);
  });
});

describe('a flood asked for', () => {
  it('while one is under way is refused, and brings no second one', () => {
    const told = toldFrom(FARM);
    told.lookOn(15, shed(told));
    const asked = told.tell(15.1, { kind: 'flood-now', who: 'Ana' });
    expect(asked.entries[0]).toMatchObject({ order: 'flood-now', says: 'refused: a flood is under way' });
    told.lookOn(40, shed(told));
    expect(told.commands().filter((command) => command.startsWith('pump-on'))).toHaveLength(1);
  });
});
