import { describe, expect, it } from 'vitest';
import type { Farm } from '../../../src/farm/farm.ts';
import { watchWarnings } from '../../../src/farm/watch-warnings.ts';
import { boardWith, farmWith, placesOf, problemsWith, type Change } from './example.ts';
import { evidence, named, refuses, TWICE, type Refused } from './refused-wiring.ts';

const warnedAt = (farm: Farm): readonly string[] => watchWarnings(farm).map(({ path }) => path.join('.'));

const BARE = { pin: 'A2', drivenBy: [11, 12] };
const bare = (change: object): Change => boardWith({ probe: { ...BARE, ...change } });
const bareRows: readonly Refused[] = [
  [
    'both drive pins one',
    [bare({ drivenBy: [11, 11] })],
    'board.probe.drivenBy.1',
    '11',
    TWICE,
    /carries probe\./,
  ],
  [
    'one drive pin the relay’s',
    [bare({ drivenBy: [7, 12] })],
    'board.probe.drivenBy.0',
    '7',
    TWICE,
    /carries relay\./,
  ],
  [
    'a resistor of 469 Ω',
    [bare({ seriesOhms: 469 })],
    'board.probe.seriesOhms',
    '469',
    /at least 470/,
    /a shorted cell would draw more from the pins of the board than they bear/,
  ],
  [
    'three drive pins',
    [bare({ drivenBy: [10, 11, 12] })],
    'board.probe.drivenBy',
    'a list of 3',
    /a list of 2 entries/,
    /too long/,
  ],
  [
    'pin 13, which blinks',
    [bare({ drivenBy: [11, 13] })],
    'board.probe.drivenBy.1',
    '13',
    /2 to 12/,
    /too large/,
  ],
  [
    'a range of a module too',
    [bare({ fullScaleMicrosiemensPerCm: 5000 })],
    'board.probe.drivenBy',
    'the key "drivenBy"',
    /fullScaleMicrosiemensPerCm/,
    /does not go with the others/,
  ],
];

describe('a bare probe', () => {
  it('is accepted with 1 kΩ and a cell of K = 1, and warned of: only own firmware drives it', () => {
    const farm = farmWith(bare({}));
    expect(farm.board?.probe).toMatchObject({ seriesOhms: 1000, cellPerCm: 1, compensation: 'linear' });
    expect(farmWith(bare({ seriesOhms: 470 })).board?.probe).toMatchObject({ seriesOhms: 470 });
    expect(warnedAt(farm)).toContain('board.probe.drivenBy');
    expect(
      warnedAt(farmWith(boardWith({ probe: { pin: 'A2', fullScaleMicrosiemensPerCm: 5000 } }))),
    ).not.toContain('board.probe.drivenBy');
  });

  it.each(named(bareRows))('is refused with %s', (_, row) => {
    refuses(row);
  });
});

describe('a mains contact', () => {
  it('must be both wired and said to be fitted', () => {
    expect(placesOf(problemsWith(boardWith({ mainsPresent: { pin: 11 } })))).toEqual(['board.mainsPresent']);
    expect(placesOf(problemsWith(boardWith(), evidence('mainsPresent', true)))).toEqual([
      'evidence.mainsPresent',
    ]);
    const farm = farmWith(boardWith({ mainsPresent: { pin: 11 } }), evidence('mainsPresent', true));
    expect(farm.board?.mainsPresent).toEqual({ pin: 11, reads: 'low' });
    expect(warnedAt(farm)).not.toContain('board.mainsPresent.reads');
  });

  it('whose cut cable would read as well is warned of', () => {
    const high = boardWith({ mainsPresent: { pin: 11, reads: 'high' } });
    expect(warnedAt(farmWith(high, evidence('mainsPresent', true)))).toContain('board.mainsPresent.reads');
  });
});
