import { describe, expect, it } from 'vitest';
import {
  inChannelsLitres,
  lowestUnfilledLitres,
  unfilledLowInMinutes,
  wholeFloodLitres,
} from '../../../src/estimate/tank-top-up.ts';
import type { Farm } from '../../../src/farm/farm.ts';
import { farmWith } from '../../support/farm.ts';

const tank = (topUp: object | 'by-hand', tankFloat = false): Farm =>
  farmWith(
    [['tank', 'topUp'], topUp],
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

  it('is told where it is filled by hand only at the level of a whole flood, and only where no float tells', () => {
    expect(lowestUnfilledLitres(BY_HAND, null, WHOLE + 1, PACE)).toBeNull();
    expect(lowestUnfilledLitres(BY_HAND, null, WHOLE - 1, PACE)).toBe(WHOLE - 1);
    expect(lowestUnfilledLitres(tank('by-hand', true), null, WHOLE - 1, PACE)).toBeNull();
  });

  it('is not told by a fall of less than 5 L/h, nor by too few slopes', () => {
    for (const pace of [null, -40, 0, 4.9])
      expect(lowestUnfilledLitres(VALVE, null, WHOLE + 1, pace)).toBeNull();
    expect(lowestUnfilledLitres(VALVE, null, WHOLE + 1, 5)).toBe(WHOLE + 1);
  });

  it('stays told through a night in which it stands still and drains back, and keeps its lowest level', () => {
    expect(lowestUnfilledLitres(VALVE, 250, 280, 0)).toBe(250);
    expect(lowestUnfilledLitres(VALVE, 250, 240, null)).toBe(240);
    expect(unfilledLowInMinutes(VALVE, WHOLE + 10, 0)).toBeCloseTo(120, 6);
  });

  it('is over at the level of its valve, or once more was poured in than can have drained back', () => {
    expect(lowestUnfilledLitres(VALVE, 300, 388, 30)).toBeNull();
    const poured = inChannelsLitres(BY_HAND);
    expect(lowestUnfilledLitres(BY_HAND, 200, 200 + poured - 1, 0)).toBe(200);
    expect(lowestUnfilledLitres(BY_HAND, 200, 200 + poured + 1, 0)).toBeNull();
  });
});
