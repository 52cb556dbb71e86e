import { describe, expect, it } from 'vitest';
import type { Farm } from '../../src/farm/farm.ts';
import { HOUR, lowestTheta, runShed, timesRaised, told, type ShedRun } from './shed-run.ts';
import { clock, shedWith } from './sheds.ts';

const PARTS = { returnFlow: 'meter', pumpCurrent: true, relayReadBack: true, tankFloat: true };
const VALVE = { floatValveAtLitres: 500, litresPerMinute: 8 };
const shed = (more: object): Farm =>
  shedWith([['evidence'], { ...PARTS, ...more }], [['tank', 'topUp'], VALVE]);

const LEVEL = shed({ tankLevel: true });
const OVERFLOW = shed({ overflowFloat: true });
const BOTH = shed({ tankLevel: true, overflowFloat: true });

/** The same shed with a valve that has stuck open and gives 8 L/min, whatever is in the tank. */
const stuckOpen = (farm: Farm): Farm => ({
  ...farm,
  tank: { ...farm.tank, topUp: { ...VALVE, floatValveAtLitres: 10 * farm.tank.litres } },
});

const run = (written: Farm): ShedRun =>
  runShed({ farm: stuckOpen(written), written, fromMillis: clock(6), untilMillis: clock(18) });
const hoursTo = ({ alarms }: ShedRun, kind: string): number =>
  ((alarms.find(({ entry }) => entry.alarm === kind)?.entry.at ?? Infinity) - clock(6)) / HOUR;

describe('a float valve that has stuck open on a hot day', () => {
  it('leaves water on the floor and no bench below its stress floor', () => {
    for (const farm of [LEVEL, OVERFLOW, BOTH]) {
      const day = run(farm);
      expect(day.plant.state.tank.overflowedLitres).toBeGreaterThan(1000);
      expect(lowestTheta(day)).toBeGreaterThan(farm.floors.stress);
    }
  });

  it('is one low alarm within 2 h where a sensor reads the level, with how full the tank is', () => {
    const day = run(LEVEL);
    expect(timesRaised(day)).toEqual({ 'tank-full': 1 });
    expect(hoursTo(day, 'tank-full')).toBeLessThan(2);
    expect(day.alarms[0]?.entry.text).toMatch(/: (599|600) of 600 L\. It may run over/);
  });

  it('is one high alarm within 1 h where a float hangs at the brim, however often a flood frees it', () => {
    for (const [farm, raised] of [
      [OVERFLOW, { 'water-on-floor': 1 }],
      [BOTH, { 'water-on-floor': 1, 'tank-full': 1 }],
    ] as const) {
      const day = run(farm);
      expect(timesRaised(day)).toEqual(raised);
      expect(hoursTo(day, 'water-on-floor')).toBeLessThan(1);
      expect(told(day, 'alarm-returned')).toEqual([]);
    }
  });
});

describe('a tank that somebody fills to its brim by hand at 10:00', () => {
  it('raises no alarm', () => {
    const farm = shedWith([['evidence'], { ...PARTS, tankLevel: true }], [['tank', 'topUp'], 'by-hand']);
    const day = runShed({
      farm,
      fromMillis: clock(6),
      untilMillis: clock(16),
      at: { millis: clock(10), does: ({ state: { tank } }) => void (tank.litres = farm.tank.litres) },
    });
    expect(timesRaised(day)).toEqual({});
  });
});
