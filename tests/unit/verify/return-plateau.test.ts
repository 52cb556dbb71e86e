import { describe, expect, it } from 'vitest';
import { readKept, keptText } from '../../../firmware-host/storage/kept-state.ts';
import { keptState } from '../../../src/controller.ts';
import { beganFlood } from '../../../src/verify/flood.ts';
import {
  lowerReturn,
  plateauAfter,
  PLATEAU_UNWATCHED,
  type PlateauWatch,
} from '../../../src/verify/return-plateau.ts';
import { monotonicMillis } from '../../../src/time/instant.ts';
import { farmWith } from '../../support/farm.ts';
import { at, toldFrom } from '../controller/noon.ts';

const flood = (
  litresPerMinute: number,
  minutes: number,
  read: number,
): Parameters<typeof plateauAfter>[1] => ({
  ...beganFlood({ id: 1, part: 'day', reason: 'due', minutes, lagMinutes: 4 }, null, monotonicMillis(0)),
  plateau: { litres: litresPerMinute * read, minutes: read },
});
const after = (
  flows: readonly number[],
  {
    from = PLATEAU_UNWATCHED,
    minutes = 20,
    read = 5,
    drunk = 0,
  }: {
    from?: PlateauWatch;
    minutes?: number;
    read?: number;
    drunk?: number;
  } = {},
): PlateauWatch =>
  flows.reduce((watch, flow) => plateauAfter(watch, flood(flow, minutes, read), drunk), from);
const times = (count: number, flow: number): readonly number[] => Array.from({ length: count }, () => flow);
/** Eight floods of 40 L/min. */
const USUAL = after(times(8, 40));

describe('a return that is lower than it used to be', () => {
  it('is told at the second of three floods below 0.88 of the best, not at the first', () => {
    expect(lowerReturn(after([35], { from: USUAL }))).toBeNull();
    expect(lowerReturn(after([35, 35], { from: USUAL }))).toEqual({
      litresPerMinute: 35,
      takenLitresPerMinute: 0,
      bestLitresPerMinute: 40,
    });
    expect(lowerReturn(after(times(9, 35.3), { from: USUAL }))).toBeNull();
  });

  it('is over at the second flood of 0.92 or more, and does not come and go between', () => {
    const low = after([35, 35], { from: USUAL });
    expect(lowerReturn(after(times(9, 36.7), { from: low }))).not.toBeNull();
    expect(lowerReturn(after([37], { from: low }))).not.toBeNull();
    expect(lowerReturn(after([37, 37], { from: low }))).toBeNull();
  });

  it('leaves room for what the benches may take of it meanwhile, in each flood as much as then', () => {
    expect(lowerReturn(after([33, 33], { from: USUAL, drunk: 2.3 }))).toBeNull();
    expect(lowerReturn(after([33, 33], { from: USUAL, drunk: 2.1 }))).not.toBeNull();
    const hotNoon = after([33], { from: USUAL, drunk: 2.3 });
    expect(lowerReturn(after([33, 33], { from: hotNoon }))).not.toBeNull();
  });

  it('is held against the best that ever was usual: a decline of 1 % a flood is told at the 14th', () => {
    const declines = Array.from({ length: 20 }, (_, place) => 40 * (1 - 0.01 * (place + 1)));
    const first = declines.findIndex(
      (_, place) => lowerReturn(after(declines.slice(0, place + 1), { from: USUAL })) !== null,
    );
    expect(first + 1).toBe(14);
  });

  it('holds a flood of 15 min against none of 20 min, and one of 20 min against those of 15', () => {
    expect(lowerReturn(after(times(9, 33), { from: USUAL, minutes: 15 }))).toBeNull();
    const short = after(times(8, 40), { minutes: 15 });
    expect(lowerReturn(after(times(3, 33), { from: short, minutes: 20 }))).not.toBeNull();
  });

  it('counts no flood of which less than 2.5 of the last 5 min were read, and none of less than 15 min', () => {
    expect(after(times(9, 20), { from: USUAL, read: 2.4 })).toBe(USUAL);
    expect(after(times(9, 20), { from: USUAL, minutes: 14 })).toBe(USUAL);
  });

  it('goes by the middle one, in whatever order they came: of five that were usual, and of three that are not', () => {
    const usual = after([40, 39, 60, 20, 41]);
    expect(lowerReturn(after(times(3, 35), { from: usual }))).toEqual({
      litresPerMinute: 35,
      takenLitresPerMinute: 0,
      bestLitresPerMinute: 40,
    });
    expect(lowerReturn(after([35, 38, 30], { from: USUAL }))?.litresPerMinute).toBe(35);
  });

  it('needs five floods to know what is usual', () => {
    expect(after(times(4, 40)).last).toEqual([]);
    expect(lowerReturn(after([...times(4, 40), 20, 20, 20]))).toBeNull();
  });
});

describe('what was learned of the return', () => {
  const FARM = farmWith([['evidence'], { returnFlow: 'meter' }]);
  const start = toldFrom(FARM).state();
  const low = after([35, 35], { from: USUAL });
  const text = keptText(keptState({ ...start, learned: { ...start.learned, plateau: low } }, at(10)), 'a');

  it('is kept over a restart, with that it is lower', () => {
    const read = readKept(text);
    expect(read.kind === 'found' ? read.stored.state.learned.plateau : read).toEqual(low);
  });

  it('of a version that did not watch it is nothing', () => {
    const kept = JSON.parse(text) as { state: { learned: { plateau?: unknown } } };
    delete kept.state.learned.plateau;
    const read = readKept(JSON.stringify(kept));
    expect(read.kind === 'found' ? read.stored.state.learned.plateau : read).toEqual(PLATEAU_UNWATCHED);
  });
});
