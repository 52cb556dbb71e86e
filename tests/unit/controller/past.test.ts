import { describe, expect, it } from 'vitest';
import { begin, keptState, type ControllerState, type Event } from '../../../src/controller.ts';
import { exampleFarm, farmWith } from '../../support/farm.ts';
import { NOTHING_KEPT } from '../verify/kept.ts';
import { at, linkIs, toldFrom, type Said, type Told } from './noon.ts';

const AWAITED: Event = { kind: 'past', past: { kind: 'awaited' } };
const NONE: Event = { kind: 'past', past: { kind: 'none' } };
const nothing = (): [] => [];

/** What a host kept that was killed at −5 min, after so much had happened. */
const keptAfter = (happened: (before: Told) => void): ControllerState => {
  const before = toldFrom(exampleFarm, -60);
  before.tell(-60, { kind: 'time' });
  happened(before);
  return before.state();
};
const heldByAna = (minutes: number): ControllerState =>
  keptAfter((before) => {
    before.tell(-5, { kind: 'hold', minutes, who: 'Ana' });
  });
/** The same, read at a later moment of the next host. */
const read = (state: ControllerState, minutes: number, killed = -5): Event => ({
  kind: 'past',
  past: { kind: 'read', kept: keptState(state, at(killed)), away: minutes - killed, boot: 'same' },
});
/** A host that begins at noon while its book has not opened. */
const waiting = (): Told => {
  const told = toldFrom(exampleFarm, 0, { kind: 'up' }, begin(exampleFarm, at(0), { kind: 'up' }));
  told.tell(0, AWAITED);
  return told;
};
const starts = (told: Told): readonly string[] =>
  told.commands().filter((command) => command.startsWith('pump-on'));

describe('a host whose past has not been read', () => {
  it('tells the pump off and gives no flood for 10 min, then floods: a disk that never opens costs no crop', () => {
    const told = waiting();
    expect(told.commands()).toEqual(['pump-off at 0']);
    told.lookOn(9.75, nothing);
    expect(starts(told)).toEqual([]);
    told.lookOn(12, nothing);
    expect(starts(told)).toEqual(['pump-on at 10']);
  });

  it('says who holds the pump, for how long and why', () => {
    expect(waiting().entries()).toContainEqual(
      expect.objectContaining({
        kind: 'order',
        order: 'hold',
        who: 'the host',
        says: 'hold for 10 min: what was known before this start has not been read yet, and a person may hold the pump',
      }),
    );
  });

  it('goes on with a hold of 30 min that Ana ordered 5 min before its start, to its end at 25 min', () => {
    const told = waiting();
    told.tell(1, read(heldByAna(30), 1));
    expect(told.state().orders.hold).toMatchObject({ who: 'Ana', until: at(25).monotonic });
    told.lookOn(26, nothing);
    expect(starts(told)).toEqual(['pump-on at 25']);
  });

  it('that had floods since stops one at once where Ana’s hold of 60 min comes to light at 12 min', () => {
    const told = waiting();
    told.lookOn(11.75, nothing);
    expect(starts(told)).toEqual(['pump-on at 10']);
    told.tell(12, read(heldByAna(60), 12));
    expect(told.commands().at(-1)).toBe('pump-off at 12');
    expect(told.state().orders.hold).toMatchObject({ who: 'Ana', until: at(55).monotonic });
  });

  it('floods at once where nobody held the pump, or nothing had been kept', () => {
    for (const event of [read(keptAfter(nothing), 2), NONE]) {
      const told = waiting();
      told.lookOn(1.75, nothing);
      told.tell(2, event);
      told.lookOn(3, nothing);
      expect(starts(told)).toHaveLength(1);
    }
  });

  it.each<[string, Event]>([
    ['nothing had been kept', NONE],
    [
      'nobody held the pump before',
      read(
        keptAfter(() => undefined),
        1,
      ),
    ],
    [
      'Rui held it for less before',
      read(
        keptAfter((before) => {
          before.tell(-5, { kind: 'hold', minutes: 8, who: 'Rui' });
        }),
        1,
      ),
    ],
  ])('leaves a hold of 8 min that Ana orders meanwhile to its end, where %s', (_, past) => {
    const told = waiting();
    told.tell(0.5, { kind: 'hold', minutes: 8, who: 'Ana' });
    told.tell(1, past);
    told.lookOn(9, nothing);
    expect(starts(told)).toEqual(['pump-on at 8.5']);
  });

  it('leaves a hold of 8 min of the board’s button to its end', () => {
    const down = { kind: 'down', why: 'opening' } as const;
    const told = toldFrom(exampleFarm, 0, down, begin(exampleFarm, at(0), down));
    told.tell(0, AWAITED);
    told.tell(0.2, linkIs({ kind: 'up', kept: { ...NOTHING_KEPT, holdUntil: at(8.2).monotonic } }));
    told.tell(1, NONE);
    told.lookOn(9, nothing);
    expect(told.commands().filter((command) => command.startsWith('release'))).toEqual([]);
    expect(starts(told)).toEqual(['pump-on at 8.25']);
  });

  it('keeps the longer of a hold of 40 min pressed meanwhile and one from before', () => {
    const told = waiting();
    told.tell(1, { kind: 'hold', minutes: 40, who: 'the button' });
    told.tell(2, read(heldByAna(30), 2));
    expect(told.state().orders.hold).toMatchObject({ who: 'the button', until: at(41).monotonic });
  });

  it('does not shorten a hold of 40 min that it learns of while the past is lost', () => {
    const told = toldFrom(exampleFarm);
    told.tell(0, { kind: 'hold', minutes: 40, who: 'the button' });
    told.tell(1, { kind: 'past', past: { kind: 'lost' } });
    expect(told.state().orders.hold).toMatchObject({ who: 'the button', until: at(40).monotonic });
  });

  it('has the alarms from before beside its own, one of each kind, and counts floods on', () => {
    const before = keptAfter((host) => {
      host.lookOn(-20, nothing);
      host.tell(-19, linkIs({ kind: 'down', why: 'unplugged' }));
      host.lookOn(-5, nothing);
    });
    const kinds = before.alarms.map(({ card }) => card.kind);
    expect(kinds).toContain('board-silent');
    expect(before.floodCount).toBeGreaterThan(0);
    const told = toldFrom(exampleFarm, 0, { kind: 'down', why: 'unplugged' });
    told.tell(0, AWAITED);
    told.lookOn(2, nothing);
    told.tell(3, read(before, 3));
    const now = told.state().alarms.map(({ card }) => card.kind);
    expect(now).toEqual([...new Set(now)]);
    expect(now).toEqual(expect.arrayContaining([...kinds]));
    expect(told.state().floodCount).toBe(before.floodCount);
    const raised = told.state().alarms.find(({ card }) => card.kind === 'board-silent');
    expect(raised?.raisedAt).toBeLessThan(at(0).monotonic);
  });

  it('gives the flood in which the host before ended its one verdict', () => {
    const flooding = keptAfter((host) => {
      host.lookOn(-55, nothing);
    });
    expect(flooding.flood).not.toBeNull();
    for (const minutes of [2, 12]) {
      const told = waiting();
      told.lookOn(minutes - 0.25, nothing);
      told.tell(minutes, read(flooding, minutes, -55));
      told.lookOn(minutes + 1, nothing);
      const verdicts = told
        .entries()
        .filter((entry) => entry.kind === 'verdict' && entry.flood === flooding.flood?.id);
      expect({ minutes, verdicts: verdicts.length }).toEqual({ minutes, verdicts: 1 });
    }
  });

  it('goes on doubting a return sensor that stuck before, also where that has shown the water of a flood since', () => {
    const wet = (minutes: number): readonly Said[] => [
      { channel: 'return-flow', litresPerMinute: 40 },
      { channel: 'air-temperature', celsius: 24 + 0.1 * Math.sin(minutes) },
    ];
    const before = keptAfter((host) => {
      host.lookOn(-5, wet);
    });
    const doubted = before.memory.returnTrust.stuckSince ?? 0;
    expect(doubted).toBeLessThan(at(-5).monotonic);
    const told = waiting();
    told.lookOn(15, wet);
    expect(told.state().memory.lastWaterAt).not.toBeNull();
    expect(told.state().memory.returnTrust.stuckSince).toBeNull();
    told.tell(15, read(before, 15));
    expect(told.state().memory.returnTrust.stuckSince).toBe(doubted);
    told.lookOn(60, wet);
    expect(told.returned('flow-sensor-stuck')).toEqual([]);
    // The flood under way has shown its water before the book was read; the next has nothing to prove it.
    told.lookOn(110, wet);
    const verdicts = told
      .entries()
      .flatMap((entry) => (entry.kind === 'verdict' ? [entry.verdict.kind] : []));
    expect(verdicts).toEqual(['withheld', 'confirmed', 'unproven']);
  });

  describe('of a tank that leaked before', () => {
    const farm = farmWith(
      [['evidence'], { returnFlow: 'none', tankFloat: false, tankLevel: true }],
      [['tank'], { litres: 1200, usualLitres: 1000, dryLitres: 60, topUp: 'by-hand' }],
    );
    /** 1,000 L at −245 min, and down by 80 L/h until the host ended at −5, and by `since` from then on. */
    const level =
      (since: number) =>
      (minutes: number): readonly Said[] => [
        {
          channel: 'tank-level',
          litres: 1000 - (80 * Math.min(240, minutes + 245) + since * Math.max(0, minutes + 5)) / 60,
        },
        { channel: 'air-temperature', celsius: 20 },
      ];
    /** A host whose book comes after so many minutes. */
    const lateBook = (minutes: number, since: number): Told => {
      const before = toldFrom(farm, -245);
      before.lookOn(-5, level(80));
      expect(before.state().tankTrend.course).not.toBe('well');
      const told = toldFrom(farm, 0, { kind: 'up' }, begin(farm, at(0), { kind: 'up' }));
      told.tell(0, AWAITED);
      told.lookOn(minutes, level(since));
      told.tell(minutes, read(before.state(), minutes));
      return told;
    };

    it.each([2, 60, 120, 180])('has its alarm stand on where the book comes after %d min', (minutes) => {
      const told = lateBook(minutes, 80);
      told.lookOn(240, level(80));
      expect(told.returned('tank-falls')).toEqual([]);
      expect(told.state().alarms.map(({ card }) => card.kind)).toContain('tank-falls');
    });

    it('is over by three slopes of its own that say so', () => {
      const told = lateBook(180, 0);
      told.lookOn(240, level(0));
      expect(told.state().tankTrend.course).toBe('well');
      expect(told.returned('tank-falls')).toHaveLength(1);
    });
  });
});
