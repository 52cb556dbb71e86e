import { describe, expect, it } from 'vitest';
import { step, type ControllerState, type Event, type Step } from '../../../src/controller.ts';
import type { Farm } from '../../../src/farm/farm.ts';
import { minutesBetween } from '../../../src/time/instant.ts';
import { farmWith } from '../../support/farm.ts';
import { minute } from '../../support/moments.ts';
import { cut, type CutAsked } from './cut.ts';
import { at, linkIs, seen, toldFrom, type Told } from './noon.ts';

const FARM = farmWith([['evidence'], { returnFlow: 'meter', tankFloat: true, leakSensor: true }]);
type Said = Parameters<typeof seen>[1];

const well = (told: Told) => (): readonly Said[] => [
  { channel: 'air-temperature', celsius: 30 },
  { channel: 'return-flow', litresPerMinute: told.state().guard.asked.kind === 'on' ? 40 : 0 },
  { channel: 'tank-float', low: false },
];
const DRY = (): readonly Said[] => [
  { channel: 'air-temperature', celsius: 30 },
  { channel: 'return-flow', litresPerMinute: 0 },
  { channel: 'tank-float', low: false },
];

/** A controller that has looked on from noon for so many minutes. */
const lookedOn = (minutes: number, said: (told: Told) => () => readonly Said[] = well): Told => {
  const told = toldFrom(FARM);
  told.tell(0, seen(0));
  told.lookOn(minutes, said(told));
  return told;
};
const after = (
  state: ControllerState,
  ended: number,
  away: number,
  more: Partial<CutAsked> = {},
): ControllerState => cut({ farm: FARM, state, at: at(ended), now: at(ended + away), away, ...more });
const next = (state: ControllerState, minutes: number, event: Event, farm: Farm = FARM): Step =>
  step(farm, state, event, at(minutes));
const kinds = ({ alarms }: ControllerState): readonly string[] => alarms.map(({ card }) => card.kind);

describe('what outlives the process of a host', () => {
  it('is what was learned, with the best usual flow, and the number of the last flood', () => {
    const told = lookedOn(250);
    expect(told.state().learned.bestLitresPerMinute).toBe(40);
    const state = after(told.state(), 250, 5);
    expect(state.learned).toEqual(told.state().learned);
    expect(state.floodCount).toBe(told.state().floodCount);
  });

  it('is the rest: a flood that ended 15 min before is followed by the next at the moment of the uncut run', () => {
    const told = lookedOn(35);
    expect(told.commands()).toEqual(['pump-off at 0', 'pump-on at 0.5', 'pump-off at 20.5']);
    const uncut = told.tell(35.25, seen(35.25, ...well(told)())).nextFloodAt;
    const state = after(told.state(), 35.25, 5);
    const first = next(state, 40.25, seen(40.25, ...DRY()));
    expect(Math.abs(minutesBetween(first.nextFloodAt!, uncut!))).toBeLessThan(0.01);
  });

  it('is the rest also where it would be too long by now: a flood is due as soon as the pump has been off for 30 s', () => {
    const state = after(lookedOn(35).state(), 35, 120);
    const first = next(state, 155, seen(155, ...DRY()));
    expect(first.commands.map(({ kind }) => kind)).toEqual(['pump-off']);
    const second = next(first.state, 155.5, seen(155.5, ...DRY()));
    expect(second.commands.map(({ kind }) => kind)).toEqual(['pump-on']);
  });

  it('is a hold, to its end and no further; one that has ended meanwhile is gone', () => {
    const told = lookedOn(35);
    told.tell(35.25, { kind: 'hold', minutes: 60, who: 'Ana' });
    expect(after(told.state(), 36, 10).orders.hold).toEqual({
      from: minute(35.25),
      until: minute(95.25),
      who: 'Ana',
    });
    expect(after(told.state(), 36, 60).orders.hold).toBeNull();
  });

  it('is a hold for the whole of what was left, where nobody knows how long the host was gone', () => {
    const told = lookedOn(35);
    told.tell(35.25, { kind: 'hold', minutes: 60, who: 'Ana' });
    const state = cut({
      farm: FARM,
      state: told.state(),
      at: at(36),
      now: at(500),
      away: 'unknown',
      boot: 'another',
    });
    expect(minutesBetween(minute(500), state.orders.hold!.until)).toBeCloseTo(59.25, 6);
  });

  it('is no order for a flood: nobody expects the water any more', () => {
    const told = lookedOn(20.5);
    told.tell(20.75, { kind: 'flood-now', who: 'Ana' });
    expect(told.state().orders.floodNow?.who).toBe('Ana');
    expect(after(told.state(), 20.75, 1).orders.floodNow).toBeNull();
  });

  it('is the starts of the last hour', () => {
    const told = lookedOn(35);
    expect(after(told.state(), 35, 5).guard.floodStarts).toEqual([minute(0.5)]);
  });

  it('is what was believed of the benches, dried on for the time away as on the hot day', () => {
    const told = lookedOn(35);
    const before = told.state().belief.benches;
    const short = after(told.state(), 35, 1).belief.benches;
    const long = after(told.state(), 35, 90).belief.benches;
    for (const [place, bench] of before.entries()) {
      expect(short[place]!.theta).toBeLessThanOrEqual(bench.theta);
      expect(bench.theta - short[place]!.theta).toBeLessThan(0.02);
      expect(long[place]!.theta).toBeLessThanOrEqual(short[place]!.theta);
      expect(long[place]!.thetaLow).toBeLessThanOrEqual(long[place]!.theta);
    }
    expect(Math.min(...long.map(({ thetaLow }) => thetaLow))).toBeLessThan(
      Math.min(...short.map(({ thetaLow }) => thetaLow)) - 0.1,
    );
  });

  it.each([
    ['after 24 h and a minute', 24 * 60 + 1],
    ['where nobody knows for how long', 'unknown'],
  ] as const)(
    'is nothing of the benches %s: every one half way to its wilt floor, as at a start',
    (_, away) => {
      const told = lookedOn(35);
      const now = at(35 + 24 * 60 + 1);
      const state = cut({ farm: FARM, state: told.state(), at: at(35), now, away, boot: 'another' });
      const half = (FARM.floors.stress + FARM.floors.wilt) / 2;
      for (const { theta } of state.belief.benches) expect(theta).toBeLessThanOrEqual(half);
      if (away === 'unknown') expect(state.schedule.owed).toBe('first flood after the start');
    },
  );

  it('is the belief of each bench under its name, also when the farm file has another order now', () => {
    const told = lookedOn(35);
    const moved: Farm = { ...FARM, benches: FARM.benches.toReversed() };
    const state = cut({ farm: moved, state: told.state(), at: at(35), now: at(35), away: 0 });
    expect(state.belief.benches.toReversed().map(({ theta }) => theta)).toEqual(
      told.state().belief.benches.map(({ theta }) => theta),
    );
  });
});

describe('a flood in which the host of a stock board ended', () => {
  const judged = ({ entries }: Step): readonly string[] =>
    entries.flatMap((entry) => (entry.kind === 'verdict' ? [`${entry.flood} ${entry.verdict.kind}`] : []));

  it('after 15 of 20 min, and back 10 s later, is unproven, and its rest counts: no second flood inside 10 min', () => {
    const state = after(lookedOn(15.5).state(), 15.5, 1 / 6);
    let now = next(state, 15.7, seen(15.7, ...DRY()));
    expect(judged(now)).toEqual(['1 unproven']);
    for (let minutes = 15.7; minutes < 25; minutes += 0.25) {
      now = next(now.state, minutes, seen(minutes, ...DRY()));
      expect(now.commands.filter(({ kind }) => kind === 'pump-on')).toEqual([]);
    }
  });

  it.each([
    ['after 3 of 20 min, and back 10 s later', 3.5, 1 / 6, 'same'],
    ['after 3 of 20 min by a power cut of an hour', 3.5, 60, 'another'],
    ['after 15 of 20 min, and back 3 h later', 15.5, 180, 'same'],
  ] as const)(
    '%s is withheld, and another comes once the pump has been off for 30 s',
    (_, ended, away, boot) => {
      const told = lookedOn(ended);
      const state = after(told.state(), ended, away, { boot });
      const first = next(state, ended + away, seen(ended + away, ...DRY()));
      expect(judged(first)).toEqual(['1 withheld']);
      const second = next(first.state, ended + away + 0.51, seen(ended + away + 0.51, ...DRY()));
      expect(second.commands.map(({ kind }) => kind)).toEqual(['pump-on']);
    },
  );

  it('has its verdict also while no board has been found yet, and none a second time', () => {
    const link = { kind: 'down', why: 'not found yet' } as const;
    const state = after(lookedOn(3.5).state(), 3.5, 1, { link });
    const first = next(state, 4.5, { kind: 'time' });
    expect(judged(first)).toEqual(['1 withheld']);
    expect(judged(next(first.state, 4.6, linkIs({ kind: 'up' })))).toEqual([]);
  });
});

/** Whether an alarm came or went; that somebody is called again about one is no news of it. */
const turned = ({ entries }: Step): readonly string[] =>
  entries.map(({ kind }) => kind).filter((kind) => kind === 'alarm-raised' || kind === 'alarm-returned');

describe('an alarm over a restart', () => {
  it('of a missed flood stands on with its state and its moment, and goes with the next confirmed one', () => {
    const told = lookedOn(40, () => DRY);
    expect(kinds(told.state())).toEqual(['missed-flood']);
    told.tell(40.25, { kind: 'acknowledge', alarm: 'missed-flood', who: 'Ana' });
    const state = after(told.state(), 40.5, 5);
    const first = next(state, 45.5, seen(45.5, ...DRY()));
    expect(turned(first)).toEqual([]);
    expect(first.state.alarms).toMatchObject([
      {
        state: 'active-acknowledged',
        raisedAt: told.state().alarms[0]!.raisedAt,
        card: { kind: 'missed-flood' },
      },
    ]);
  });

  it('that has returned and that nobody has seen is still there', () => {
    const told = lookedOn(40, () => DRY);
    told.lookOn(100, well(told));
    expect(told.state().alarms).toMatchObject([{ state: 'returned-unacknowledged' }]);
    expect(after(told.state(), 100, 5).alarms).toMatchObject([{ state: 'returned-unacknowledged' }]);
  });

  it('of a thermometer without a good reading stands while it is silent after the start, and goes when it has read for 5 min', () => {
    const told = lookedOn(40, () => () => [
      { channel: 'return-flow', litresPerMinute: 40 },
      { channel: 'tank-float', low: false },
    ]);
    expect(kinds(told.state())).toContain('no-good-temperature');
    // The board is not found at first: nobody can say anything of the air.
    const deaf = next(after(told.state(), 40, 1, { link: { kind: 'down', why: 'not found yet' } }), 41, {
      kind: 'time',
    });
    expect(deaf.entries.filter(({ kind }) => kind === 'alarm-returned')).toEqual([]);
    const reads = (before: ControllerState, minutes: number): Step =>
      next(before, minutes, seen(minutes, { channel: 'air-temperature', celsius: 30 }));
    const first = reads(next(deaf.state, 41.1, linkIs({ kind: 'up' })).state, 41.2);
    expect(turned(first)).not.toContain('alarm-returned');
    const heard = reads(first.state, 46.3);
    expect(heard.entries).toContainEqual(
      expect.objectContaining({ kind: 'alarm-returned', alarm: 'no-good-temperature' }),
    );
  });

  it('of a wet floor stands until the sensor has read dry for an hour, and floods are shortened meanwhile', () => {
    const told = lookedOn(40, (one) => () => [...well(one)(), { channel: 'leak', wet: true }]);
    expect(kinds(told.state())).toEqual(['water-on-floor']);
    const first = next(after(told.state(), 40, 5), 45, { kind: 'time' });
    expect([first.lock.kind, kinds(first.state)]).toEqual(['shortened', ['water-on-floor']]);
    const reads = (before: ControllerState, minutes: number): Step =>
      next(before, minutes, seen(minutes, ...DRY(), { channel: 'leak', wet: false }));
    const dry = reads(first.state, 45.1);
    expect([dry.lock.kind, dry.state.alarms[0]!.state]).toEqual(['open', 'active-unacknowledged']);
    const stays = reads(dry.state, 105);
    expect(stays.state.alarms[0]!.state).toBe('active-unacknowledged');
    const over = reads(stays.state, 105.2);
    expect(over.state.alarms.find(({ card }) => card.kind === 'water-on-floor')?.state).toBe(
      'returned-unacknowledged',
    );
  });

  it('of a low tank stands, with sips only, also before the float has spoken', () => {
    const told = lookedOn(40, () => () => [
      { channel: 'air-temperature', celsius: 30 },
      { channel: 'return-flow', litresPerMinute: 0 },
      { channel: 'tank-float', low: true },
    ]);
    expect(kinds(told.state())).toContain('tank-low');
    const first = next(after(told.state(), 40, 5), 45, { kind: 'time' });
    expect([first.lock.kind, first.state.tank.kind]).toEqual(['sips', 'low']);
    expect(turned(first)).toEqual([]);
  });

  it('of a silent board stands with its moment while the board is still not there', () => {
    const told = lookedOn(25);
    told.tell(25.25, linkIs({ kind: 'down', why: 'unplugged' }));
    told.tell(26, { kind: 'time' });
    expect(kinds(told.state())).toEqual(['board-silent']);
    const link = { kind: 'down', why: 'not found yet' } as const;
    const first = next(after(told.state(), 26, 5, { link }), 31, { kind: 'time' });
    expect(first.state.linkDownSince).toBe(minute(25.25));
    expect(first.entries.filter(({ kind }) => kind.startsWith('alarm'))).toEqual([]);
  });
});
