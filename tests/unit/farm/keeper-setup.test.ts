import { describe, expect, it } from 'vitest';
import type { Farm, Wiring } from '../../../src/farm/farm.ts';
import { setupBlock, setupNotes, setupOf, WATER_SHARE } from '../../../src/farm/keeper-setup.ts';
import { thermistorCelsius } from '../../../src/sense/counts.ts';
import { NO_SENSES, absorbed } from '../../../src/sense/senses.ts';
import { farmLitresPerMinute, sighting } from '../../../src/verify/sighting.ts';
import { EVERY_PART, TEN_K } from '../../support/wiring.ts';
import { farmWith, type Change } from './example.ts';
import { second } from '../../support/moments.ts';

/** Four benches of 10 L/min; the reference of its rule is 30 °C. */
const FARM = farmWith();
const ONLY_RELAY: Wiring = { relay: { pin: 7, energised: 'high' } };
const blockOf = (wiring: Wiring, farm: Farm = FARM): readonly number[] => [...setupBlock(farm, wiring)];
const changedFarm = (...changes: readonly Change[]): Farm => farmWith(...changes);
const EMPTY_TAIL = Array.from({ length: 33 }, () => 0);

describe('the setup block', () => {
  it('of a farm with nothing but a relay names no other pin (board-protocol.md, Setup)', () => {
    expect(blockOf(ONLY_RELAY)).toEqual([
      1,
      2,
      7,
      1,
      0x8c,
      0x0a,
      30,
      0, // plain-timer, relay, 2700 s, 30 s
      0,
      255,
      0,
      0,
      0,
      255,
      0,
      0,
      0, // no return, no current
      255,
      0,
      255,
      0,
      255,
      0,
      255,
      0,
      255,
      0,
      255,
      255,
      255, // no contact, buzzer, lamp, button
      255,
      0,
      0,
      0,
      255,
      255,
      255,
      20,
      0,
      ...EMPTY_TAIL, // no thermistor, no probe; sip, watchdog on
    ]);
  });

  it('of a farm with every part has each at its place', () => {
    const wiring: Wiring = {
      ...EVERY_PART,
      relayReadBack: { pin: 3, reads: 'high' },
      mainsPresent: { pin: 11, reads: 'low' },
    };
    expect(blockOf(wiring).slice(0, 39)).toEqual([
      1,
      2,
      7,
      1,
      0x8c,
      0x0a,
      30,
      0,
      2,
      2,
      0,
      4,
      2,
      3,
      0,
      100,
      0, // meter of 1.5 pulses a litre: 3.75 pulses at a quarter of 40 L/min in 15 s
      4,
      0,
      3,
      1,
      11,
      0,
      9,
      0,
      10,
      0,
      5,
      6,
      8,
      0,
      0,
      0xc9,
      1,
      255,
      255,
      255,
      20,
      0, // 8037 Ω at 30 °C are 456.3 counts, by hand; those up to 457 are hot
    ]);
  });

  it.each([
    ['pump-stops', 0],
    ['pump-runs', 1],
    ['plain-timer', 2],
  ])('says %s as %d', (choice, byte) => {
    expect(blockOf(ONLY_RELAY, changedFarm([['deadBoard'], choice]))[1]).toBe(byte);
  });

  it('takes contacts, a switch, and a bare probe with its two pins', () => {
    const block = blockOf({
      relay: { pin: 4, energised: 'low' },
      returnFlow: { pin: 2, reads: 'high' },
      pumpCurrent: { pin: 3, reads: 'low' },
      probe: {
        pin: 'A2',
        drivenBy: [9, 10],
        seriesOhms: 1000,
        cellPerCm: 1,
        compensation: 'linear',
        percentPerKelvin: 2,
      },
    });
    expect(block.slice(2, 4)).toEqual([4, 0]);
    expect(block.slice(8, 17)).toEqual([1, 2, 1, 0, 1, 3, 0, 0, 0]);
    expect(block.slice(34, 37)).toEqual([2, 9, 10]);
  });

  it('with the watchdog off differs in byte 38 alone', () => {
    const [on, off] = [setupBlock(FARM, EVERY_PART), setupBlock(FARM, EVERY_PART, 'off')];
    expect([...off].flatMap((byte, at) => (byte === on[at] ? [] : [[at, byte]]))).toEqual([[38, 1]]);
  });

  it('rounds limits to the safe side: a run of 1.01 min to 60 s, a stop of 10.2 s to 11 s', () => {
    const farm = changedFarm([['pump', 'shortestOffSeconds'], 10.2]);
    const setup = setupOf({ ...farm, pump: { ...farm.pump, longestOnMinutes: 1.01 } }, ONLY_RELAY);
    expect([setup.longestOnSeconds, setup.shortestOffSeconds]).toEqual([60, 11]);
  });
});

describe('the threshold between cool and hot', () => {
  it.each([
    ['to-ground', 30, 'fall-with-heat'],
    ['to-reference', 30, 'rise-with-heat'],
    ['to-ground', 12.5, 'fall-with-heat'],
  ] as const)(
    'wired %s at %d °C: the count itself is hot or within one count of it',
    (wired, celsius, counts) => {
      const part = { pin: 'A3', ...TEN_K, wired } as const;
      const farm = changedFarm([['temperatureRule', 'referenceCelsius'], celsius]);
      const found = setupOf(farm, { ...ONLY_RELAY, airThermistor: part }).airThermistor;
      expect(found).toMatchObject({ channel: 3, counts });
      const at = thermistorCelsius(found!.hotFromCounts, part);
      const cooler = thermistorCelsius(found!.hotFromCounts + (counts === 'fall-with-heat' ? 1 : -1), part);
      // Never on the cool side of the reference by more than a count: what is as warm as it is already hot.
      expect(at).toBeLessThanOrEqual(celsius);
      expect(celsius - at).toBeLessThan(at - cooler);
    },
  );

  it('follows the three numbers of a curve where the file has them', () => {
    // Of the same 10 k, 3950 part, but half as many ohms at every temperature.
    const steinhartHart = { a: 1.5e-3, b: 2.3e-4, c: 1e-7 };
    const part = { pin: 'A0', ...TEN_K, steinhartHart } as const;
    const found = setupOf(FARM, { ...ONLY_RELAY, airThermistor: part }).airThermistor!;
    expect(Math.abs(thermistorCelsius(found.hotFromCounts, part) - 30)).toBeLessThan(0.2);
    expect(found.hotFromCounts).not.toBe(
      setupOf(FARM, { ...ONLY_RELAY, airThermistor: { pin: 'A0', ...TEN_K } }).airThermistor!.hotFromCounts,
    );
  });
});

describe('a meter', () => {
  const pulses = (pulsesPerLitre: number): number | undefined =>
    blockOf({ ...ONLY_RELAY, returnFlow: { pin: 2, pulsesPerLitre } })[11];

  it.each([
    // A quarter of 40 L/min are 2.5 L in 15 s.
    [0.4, 1],
    [0.5, 2],
    [2, 5],
    [2.01, 6],
    [60, 150],
    [102, 255],
    [300, 255],
  ])('of %d pulses a litre shows water by %d pulses in 15 s', (perLitre, expected) => {
    expect(pulses(perLitre)).toBe(expected);
  });

  it('never shows water by no pulse at all', () => {
    expect(pulses(0.05)).toBe(1);
  });

  it('so fine that 255 pulses are less than a quarter is told, with the share that they are', () => {
    const notes = (pulsesPerLitre: number): readonly string[] =>
      setupNotes(FARM, { ...ONLY_RELAY, returnFlow: { pin: 2, pulsesPerLitre } });
    expect(notes(102)).toEqual([]);
    expect(notes(300)).toEqual([expect.stringContaining('takes 9 % of the usual return')]);
    expect(setupNotes(FARM, ONLY_RELAY)).toEqual([]);
  });

  it('counts as water from the share from which it does for the host', () => {
    const usual = farmLitresPerMinute(FARM);
    const water = (litresPerMinute: number): string => {
      const sample = { channel: 'return-flow', litresPerMinute, at: second(1) } as const;
      const senses = absorbed(NO_SENSES, [sample], second(1));
      return sighting(FARM, senses, usual, 'proves', second(1)).water;
    };
    expect([water(WATER_SHARE * usual), water(WATER_SHARE * usual - 0.01)]).toEqual(['seen', 'not-seen']);
  });
});
