import { describe, expect, it } from 'vitest';
import { monotonicMillis } from '../../../src/time/instant.ts';
import { START } from '../../support/plant.ts';
import { AIR_CELSIUS, fault, shedWith } from './board-support.ts';

describe('the longest-on of 40 min, kept by the board itself', () => {
  it('stops after 40 min a pump that was asked for 3 h', () => {
    const shed = shedWith();
    shed.on(180);
    shed.until(180);
    expect(shed.ranMinutes()).toBeCloseTo(40, 9);
    expect(shed.plant.state.pumpOn).toBe(false);
  });

  it('stops after the 5 min of the command when those are fewer', () => {
    const shed = shedWith();
    shed.on(5);
    shed.until(60);
    expect(shed.ranMinutes()).toBeCloseTo(5, 9);
  });

  it('stops after 40 min a pump that is asked for again every 10 min', () => {
    const shed = shedWith();
    for (let minutes = 0; minutes < 40; minutes += 10) {
      shed.on(30);
      shed.until(minutes + 10);
    }
    expect(shed.plant.state.pumpOn).toBe(false);
    shed.until(60);
    expect(shed.ranMinutes()).toBeCloseTo(40, 9);
  });

  it('counts each run by itself: 30 min, a rest, and 30 min more are given', () => {
    const shed = shedWith();
    shed.on(30);
    shed.until(45);
    shed.on(30);
    shed.until(120);
    expect(shed.ranMinutes()).toBeCloseTo(60, 9);
  });
});

describe('the shortest-off of 60 s, kept by the board itself', () => {
  /** Whether the pump runs when it is asked for so many seconds after it was stopped at 10 min. */
  const runsAfter = (seconds: number, stop: 'told' | 'by itself'): boolean => {
    const shed = shedWith();
    shed.on(stop === 'told' ? 30 : 10);
    shed.until(10);
    if (stop === 'told') shed.off();
    shed.until(10 + seconds / 60);
    shed.on(5);
    return shed.plant.state.pumpOn;
  };

  it.each(['told', 'by itself'] as const)(
    'refuses a start 59 s after a stop (%s), takes one after 60 s',
    (stop) => {
      expect(runsAfter(0, stop)).toBe(false);
      expect(runsAfter(59, stop)).toBe(false);
      expect(runsAfter(60, stop)).toBe(true);
    },
  );

  it('is not begun anew by a second off: on 60 s after the first is given', () => {
    const shed = shedWith();
    shed.on(30);
    shed.until(10);
    shed.off();
    shed.until(10.5);
    shed.off();
    shed.until(11);
    shed.on(5);
    expect(shed.plant.state.pumpOn).toBe(true);
  });

  it('leaves a refused start refused: nothing starts by itself a minute later', () => {
    const shed = shedWith();
    shed.on(10);
    shed.until(10.5);
    shed.on(5);
    shed.until(60);
    expect(shed.ranMinutes()).toBeCloseTo(10, 9);
  });
});

describe('the sensors of a well shed', () => {
  it('see nothing that is not fitted: 0 samples from a bare board', () => {
    const shed = shedWith([], {
      airTemperature: false,
      humidity: false,
      returnFlow: 'none',
      pumpCurrent: false,
      relayReadBack: false,
      tankLevel: false,
      tankFloat: false,
      leakSensor: false,
      overflowFloat: false,
    });
    shed.board.sense(monotonicMillis(START));
    expect(shed.board.samples()).toEqual([]);
  });

  it('give each sample once, with its moment', () => {
    const shed = shedWith();
    shed.until(3);
    shed.board.sense(monotonicMillis(START + 180_000));
    const samples = shed.board.samples();
    expect(samples).toHaveLength(9);
    expect(new Set(samples.map((sample) => sample.at))).toEqual(new Set([START + 180_000]));
    expect(shed.board.samples()).toEqual([]);
  });

  it('read 28 °C of air within 1 °C, and 600 L in the tank within 10 L', () => {
    const shed = shedWith();
    expect(Math.abs(shed.sees('air-temperature')!.celsius - AIR_CELSIUS)).toBeLessThan(1);
    expect(Math.abs(shed.sees('tank-level')!.litres - 600)).toBeLessThan(10);
    expect(shed.sees('tank-float')!.low).toBe(false);
    expect(shed.sees('leak')!.wet).toBe(false);
    expect(shed.sees('overflow')!.wet).toBe(false);
  });

  it('read less than 2 L/min of return before a flood and 20 L/min within 3 after 35 min of it', () => {
    const shed = shedWith();
    shed.until(1);
    expect(shed.sees('return-flow')!.litresPerMinute).toBeLessThan(2);
    shed.on(40);
    shed.until(36);
    expect(Math.abs(shed.sees('return-flow')!.litresPerMinute - 20)).toBeLessThan(3);
    expect(shed.sees('pump-current')!.drawing).toBe(true);
    expect(shed.sees('relay-read-back')!.closed).toBe(true);
  });

  it('close a return switch in the flood and open it when little comes back, 30 min after it', () => {
    const shed = shedWith([], { returnFlow: 'switch' });
    shed.on(30);
    shed.until(29);
    expect(shed.sees('return-switch')!.flowing).toBe(true);
    shed.until(60);
    expect(shed.sees('return-switch')!.flowing).toBe(false);
  });

  it('show a float low below 80 L, 20 L above the level at which the pump draws air', () => {
    const shed = shedWith();
    shed.plant.state.tank.litres = 81;
    expect(shed.sees('tank-float')!.low).toBe(false);
    shed.plant.state.tank.litres = 79;
    expect(shed.sees('tank-float')!.low).toBe(true);
  });
});

describe('a fault of the script', () => {
  it('stands from its first moment to its last: a pump dead from 5 to 10 min of a flood of 20', () => {
    const shed = shedWith([fault('pump-dead', 5, 10)]);
    shed.on(20);
    const pumped = [4, 6, 9, 11].map((minutes) => {
      shed.until(minutes);
      return shed.plant.state.pumpedLitresPerMinute;
    });
    expect(pumped.map((flow) => flow > 19)).toEqual([true, false, false, true]);
    expect(pumped.filter((flow) => flow < 19)).toEqual([0, 0]);
  });
});
