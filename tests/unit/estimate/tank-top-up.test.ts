import { describe, expect, it } from 'vitest';
import {
  inChannelsLitres,
  lowestUnfilledLitres,
  unfilledLowInMinutes,
  wholeFloodLitres,
} from '../../../src/estimate/tank-top-up.ts';
import type { Farm } from '../../../src/farm/farm.ts';
import { farmWith } from '../../support/farm.ts';

const tank = (topUp: object | 'by-hand', tankFloat = false, size: object = {}): Farm =>
  farmWith(
    [['tank'], { litres: 600, usualLitres: 560, dryLitres: 60, ...size, topUp }],
    [['evidence'], { returnFlow: 'meter', pumpCurrent: true, tankFloat, tankLevel: true }],
  );
const VALVE = tank({ floatValveAtLitres: 400, litresPerMinute: 8 });
const BY_HAND = tank('by-hand');
/** 216 L: 60 of which the pump reaches none, and what stands in the channels of four benches. */
const WHOLE = wholeFloodLitres(VALVE);
const PACE = 30;

describe('a tank whose top-up has stopped', () => {
  it('has 60 L and what stands in the channels for a whole flood, and reaches that in 4 h at 30 L/h from 120 L above', () => {
    expect(WHOLE).toBeCloseTo(60 + inChannelsLitres(VALVE), 6);
    expect(unfilledLowInMinutes(VALVE, WHOLE + 120, PACE)).toBeCloseTo(240, 6);
  });

  it('is told below its valve when it is too low within 4 h, and not before', () => {
    expect(lowestUnfilledLitres(VALVE, null, WHOLE + 119, PACE)).toBe(WHOLE + 119);
    expect(lowestUnfilledLitres(VALVE, null, WHOLE + 121, PACE)).toBeNull();
    // So fast that it would be, at a level at which the valve may still be shut: 400 L less 12.
    expect(lowestUnfilledLitres(VALVE, null, 389, 100)).toBeNull();
    expect(lowestUnfilledLitres(VALVE, null, 387, 100)).toBe(387);
  });

  it.each([
    [140, 350, 345, 'where it must have been open in a flood: half of what stands in the channels above it'],
    [180, 350, 345, 'the same, a little higher'],
    [120, 300, 290, 'at a whole flood at the latest'],
    [60, 600, 560, 'where it hardly fills above the dry end: not where it keeps the tank anyway'],
    [300, 600, 550, 'of one well above a whole flood, half of what stands in the channels above that'],
    [480, 600, 550, 'where it closes, of one near the brim'],
  ])('is told below a valve at %d L of %d L, usually %d: %s', (floatValveAtLitres, litres, usualLitres) => {
    const farm = tank({ floatValveAtLitres, litresPerMinute: 8 }, false, { litres, usualLitres });
    const edge = Math.max(10, litres / 50);
    const half = inChannelsLitres(farm) / 2;
    const open = floatValveAtLitres - edge;
    const kept = Math.min(usualLitres, floatValveAtLitres + 1.5 * half);
    const low = Math.min(WHOLE, kept - edge);
    const below = Math.max(low, open, Math.min(open, low) + half);
    const told = (litresNow: number, pace: number): boolean =>
      lowestUnfilledLitres(farm, null, litresNow, pace) !== null;
    const highest = Array.from({ length: litres }, (_, at) => litres - at).find((at) => told(at, 200));
    expect(highest).toBeGreaterThan(below - edge - 2);
    expect(highest).toBeLessThanOrEqual(below);
    // Where it begins it is not over yet: nothing comes and goes by a litre.
    expect(lowestUnfilledLitres(farm, highest!, highest!, 0)).toBe(highest);
  });

  it.each([60, 80, 100, 120, 180, 250])(
    'is not told where a valve at %d L keeps it, though that be too low for a whole flood',
    (floatValveAtLitres) => {
      const farm = tank({ floatValveAtLitres, litresPerMinute: 8 }, false);
      const kept = floatValveAtLitres + 0.75 * inChannelsLitres(farm);
      expect(lowestUnfilledLitres(farm, null, kept - 11, 2)).toBeNull();
    },
  );

  it('is told where it is filled by hand only at the level of a whole flood, and only where no float tells', () => {
    expect(lowestUnfilledLitres(BY_HAND, null, WHOLE + 1, PACE)).toBeNull();
    expect(lowestUnfilledLitres(BY_HAND, null, WHOLE - 1, PACE)).toBe(WHOLE - 1);
    expect(lowestUnfilledLitres(tank('by-hand', true), null, WHOLE - 1, PACE)).toBeNull();
  });

  it('is told, once it is too low, however slowly it came to that: one bench of young plants drinks 2 L/h', () => {
    for (const farm of [BY_HAND, VALVE]) {
      expect(lowestUnfilledLitres(farm, null, WHOLE - 1, 2)).toBe(WHOLE - 1);
      expect(lowestUnfilledLitres(farm, null, WHOLE - 1, 0)).toBeNull();
      expect(lowestUnfilledLitres(farm, null, WHOLE - 1, -3)).toBeNull();
    }
  });

  it('is not told ahead by a fall of less than 5 L/h, nor by too few slopes', () => {
    for (const pace of [null, -40, 0, 4.9])
      expect(lowestUnfilledLitres(VALVE, null, WHOLE + 1, pace)).toBeNull();
    expect(lowestUnfilledLitres(VALVE, null, WHOLE + 1, 5)).toBe(WHOLE + 1);
    expect(lowestUnfilledLitres(VALVE, null, WHOLE - 1, null)).toBeNull();
  });

  it('stays told through a night in which it stands still and drains back, and keeps its lowest level', () => {
    expect(lowestUnfilledLitres(VALVE, 250, 280, 0)).toBe(250);
    expect(lowestUnfilledLitres(VALVE, 250, 240, null)).toBe(240);
    expect(unfilledLowInMinutes(VALVE, WHOLE + 10, 0)).toBeCloseTo(120, 6);
  });

  it('is over at the level of its valve, or once more was poured in than can still drain back', () => {
    expect(lowestUnfilledLitres(VALVE, 350, 388, 30)).toBeNull();
    const poured = inChannelsLitres(BY_HAND) / 2;
    expect(lowestUnfilledLitres(BY_HAND, 150, 150 + poured - 1, 0)).toBe(150);
    expect(lowestUnfilledLitres(BY_HAND, 150, 150 + poured + 1, 0)).toBeNull();
  });

  it.each([230, 250, 290, 345, 360, 560])(
    'is over at the latest where it is usually full, at %d L, filled by hand or by a valve anywhere below',
    (usualLitres) => {
      const size = { litres: 600, usualLitres };
      const valves = [60, 120, 180, 250, 340, 500].filter((litres) => litres < usualLitres);
      const farms = [
        tank('by-hand', false, size),
        ...valves.map((floatValveAtLitres) => tank({ floatValveAtLitres, litresPerMinute: 8 }, false, size)),
      ];
      expect(valves.length).toBeGreaterThan(2);
      for (const farm of farms) {
        for (let lowest = 61; lowest < usualLitres; lowest += 1) {
          if (lowestUnfilledLitres(farm, null, lowest, 40) === null) continue;
          expect(lowestUnfilledLitres(farm, lowest, usualLitres - 5, 0)).toBeNull();
        }
      }
    },
  );
});
