import { describe, expect, it } from 'vitest';
import {
  begin,
  keptState,
  step,
  type Call,
  type ControllerState,
  type Event,
} from '../../../src/controller.ts';
import type { Entry } from '../../../src/journal/entry.ts';
import { asUnset, inDoubt } from '../../../src/time/clock-trust.ts';
import { wallMillis, type Now } from '../../../src/time/instant.ts';
import { exampleFarm } from '../../support/farm.ts';
import { minute, utc } from '../../support/moments.ts';
import { cut } from './cut.ts';

/** 23:30 by the clock of the farm. */
const LATE_EVENING = utc('2026-07-13T22:30Z');
const MORNING = 7.5 * 60;
const at = (minutes: number): Now => ({
  monotonic: minute(minutes),
  wall: wallMillis(LATE_EVENING + minutes * 60_000),
});
const UP = { kind: 'up' } as const;
const SET: Event = { kind: 'clock-set' };

type Told = readonly [minutes: number, event: Event];
interface Lived {
  readonly state: ControllerState;
  readonly calls: readonly (Pick<Call, 'alarm' | 'kind'> & { readonly minutes: number })[];
  /** What the book says of the alarm of the clock, but for calls. */
  readonly ofClock: readonly (readonly [minutes: number, kind: Entry['kind']])[];
}

/** Looks every half minute from the first to the last, each time at what is told then. */
const live = (from: ControllerState, first: number, last: number, ...told: readonly Told[]): Lived => {
  let state = from;
  const calls: Lived['calls'][number][] = [];
  const ofClock: Lived['ofClock'][number][] = [];
  for (let minutes = first; minutes <= last; minutes += 0.5) {
    const event = told.find(([one]) => one === minutes)?.[1] ?? { kind: 'time' };
    const next = step(exampleFarm, state, event, at(minutes));
    state = next.state;
    calls.push(...next.calls.map(({ alarm, kind }) => ({ minutes, alarm, kind })));
    for (const entry of next.entries)
      if ('alarm' in entry && entry.alarm === 'clock-stepped') ofClock.push([minutes, entry.kind]);
  }
  return { state, calls, ofClock };
};

const unset = (state: ControllerState): ControllerState => ({ ...state, clock: asUnset(state.clock) });
/** After a power cut of two minutes and another start of the machine, after which nothing has set its clock yet. */
const startedAnew = (state: ControllerState, minutes: number): ControllerState =>
  unset(
    cut({
      farm: exampleFarm,
      state,
      at: at(minutes - 2),
      now: at(minutes),
      away: 'unknown',
      boot: 'another',
    }),
  );

const alarmOf = ({ state }: Lived): string | undefined =>
  state.alarms.find(({ card }) => card.kind === 'clock-stepped')?.state;

describe('the alarm of a clock that nothing had set, after another start of the machine', () => {
  const ACKNOWLEDGED: Told = [20, { kind: 'acknowledge', alarm: 'clock-stepped', who: 'Ana' }];
  const before = live(unset(begin(exampleFarm, at(0), UP)), 0, 60, ACKNOWLEDGED).state;
  const after = startedAnew(before, 62);

  it('stands on as Ana acknowledged it, neither ended nor raised anew, while nothing has set it yet', () => {
    const lived = live(after, 62, 180);
    expect(alarmOf(lived)).toBe('active-acknowledged');
    expect(lived.ofClock).toEqual([]);
    expect(lived.calls.filter(({ alarm }) => alarm === 'clock-stepped')).toEqual([]);
  });

  it('stands on over a third start 5 min after the second', () => {
    const lived = live(startedAnew(live(after, 62, 67).state, 69), 69, 180);
    expect([alarmOf(lived), lived.ofClock]).toEqual(['active-acknowledged', []]);
  });

  it.each([
    ['the network has set it', SET],
    ['somebody says that it is right', { kind: 'clock-right', who: 'rui' } as const],
  ])('is over once %s, and not raised again', (_, event) => {
    const lived = live(after, 62, 180, [64, event]);
    expect([alarmOf(lived), inDoubt(lived.state.clock)]).toEqual([undefined, false]);
    expect(lived.ofClock.filter(([, kind]) => kind === 'alarm-returned')).toHaveLength(1);
    expect(lived.ofClock.filter(([, kind]) => kind === 'alarm-raised')).toEqual([]);
  });
});

describe('a low alarm of 23:40, and a machine that starts anew at 02:35 with a clock that nothing has set', () => {
  const THERMOMETER = 'no-good-temperature';
  const evening = live(begin(exampleFarm, at(0), UP), 0, 183);
  const calledAt = ({ calls }: Lived): readonly number[] =>
    calls.filter(({ alarm }) => alarm === THERMOMETER).map(({ minutes }) => minutes);
  const after = startedAnew(evening.state, 185);

  it('waits for the morning before that', () => {
    const low = evening.state.alarms.filter(({ card }) => card.priority === 'low');
    expect(low.map(({ card }) => card.kind)).toEqual([THERMOMETER]);
    expect(calledAt(evening)).toEqual([]);
  });

  it.each([
    ['the network sets it a minute later', SET],
    ['somebody says a minute later that it is right', { kind: 'clock-right', who: 'rui' } as const],
  ])('goes on waiting for 07:00 where %s, in that moment too', (_, event) => {
    expect(calledAt(live(after, 185, MORNING + 60, [186, event]))).toEqual([MORNING]);
  });

  it('goes on waiting where a late book says a minute later that the machine has gone on', () => {
    const waiting = unset(begin(exampleFarm, at(185), UP));
    const kept = keptState(evening.state, at(183));
    const read: Event = { kind: 'past', past: { kind: 'read', kept, away: 3, boot: 'same' } };
    expect(calledAt(live(waiting, 185, MORNING + 60, [186, read]))).toEqual([MORNING]);
  });

  it('is called 15 min after the start where nothing sets it: who never knows the time must speak all the same', () => {
    expect(calledAt(live(after, 185, 260))).toEqual([200]);
  });

  it('does not hold up a high one: of a silent board people hear as soon as ever', () => {
    const down: Event = { kind: 'link', link: { kind: 'down', why: 'unplugged' } };
    const [first] = live(after, 185, 190, [185.5, down]).calls;
    const [asEver] = live(evening.state, 183.5, 190, [185.5, down]).calls;
    expect(first).toMatchObject({ alarm: 'board-silent', kind: 'raised' });
    expect(first).toEqual(asEver);
  });
});
