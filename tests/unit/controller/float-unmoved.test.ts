import { describe, expect, it } from 'vitest';
import { keptText, readKept } from '../../../firmware-host/storage/kept-state.ts';
import { keptState, type ControllerState } from '../../../src/controller.ts';
import { FLOAT_UNWATCHED } from '../../../src/sense/float-watch.ts';
import { farmWith } from '../../support/farm.ts';
import { cut } from './cut.ts';
import type { seen } from './noon.ts';
import { at, toldFrom, type Told } from './noon.ts';

const FARM = farmWith([['evidence'], { returnFlow: 'meter', tankFloat: true }]);
const DAY = 24 * 60;

const well = (told: Told, low: boolean) => (): readonly Parameters<typeof seen>[1][] => [
  { channel: 'air-temperature', celsius: 30 },
  { channel: 'return-flow', litresPerMinute: told.state().guard.asked.kind === 'on' ? 40 : 0 },
  { channel: 'tank-float', low },
];
/** A controller that has looked on for 10 min, with so many minutes counted before. */
const lookedOn = (counted: number, from?: ControllerState, begins = 0): Told => {
  const start = from ?? toldFrom(FARM).state();
  const float = { ...start.memory.float, low: false, unmovedMinutes: counted };
  const told = toldFrom(FARM, begins, { kind: 'up' }, { ...start, memory: { ...start.memory, float } });
  told.lookOn(begins + 10, well(told, false));
  return told;
};
const returned = (told: Told): readonly number[] =>
  told
    .entries()
    .flatMap((entry) =>
      entry.kind === 'alarm-returned' && entry.alarm === 'float-unmoved' ? [entry.at / 60_000] : [],
    );

describe('a tank float that has not moved for 30 days', () => {
  const told = lookedOn(30 * DAY - 5);

  it('is one low alarm at the 30th day, which asks for a hand and for the plug first', () => {
    expect(told.raised('float-unmoved')).toHaveLength(1);
    const [raised] = told.raised('float-unmoved');
    expect(raised).toBeGreaterThanOrEqual(5);
    expect(raised).toBeLessThanOrEqual(5.5);
    const entry = told.entries().find((one) => one.kind === 'alarm-raised');
    expect(entry).toMatchObject({
      alarm: 'float-unmoved',
      priority: 'low',
      text: expect.stringMatching(
        /has not moved for 30 days\..*Pull the plug.*lift the float by hand/,
      ) as unknown,
    });
  });

  it('stays over a restart, and ends when the float is held the other way, for a hand has moved it', () => {
    const state = cut({ farm: FARM, state: told.state(), at: at(10), now: at(40), away: 30 });
    const next = toldFrom(FARM, 40, { kind: 'up' }, state);
    next.lookOn(50, well(next, false));
    expect([next.raised('float-unmoved'), returned(next)]).toEqual([[], []]);
    next.lookOn(51, well(next, true));
    expect(returned(next)).toEqual([50.5]);
  });

  it('is not told a minute before', () => {
    expect(lookedOn(30 * DAY - 11).raised('float-unmoved')).toEqual([]);
  });

  it('is not told where none is fitted', () => {
    const bare = { ...FARM, evidence: { ...FARM.evidence, tankFloat: false } };
    const state = cut({ farm: bare, state: told.state(), at: at(10), now: at(40), away: 30 });
    expect(state.memory.float).toEqual(FLOAT_UNWATCHED);
  });
});

describe('a state kept by a version that did not watch the float', () => {
  it('is read, and the 30 days count from then', () => {
    const kept = JSON.parse(keptText(keptState(lookedOn(30 * DAY).state(), at(10)), 'a')) as {
      state: { memory: { float?: unknown } };
    };
    delete kept.state.memory.float;
    const read = readKept(JSON.stringify(kept));
    expect(read.kind === 'found' ? read.stored.state.memory.float : read).toEqual(FLOAT_UNWATCHED);
  });
});
