import { describe, expect, it } from 'vitest';
import { tankFall } from '../../../src/estimate/tank-course.ts';
import {
  brimfulLitres,
  NO_TREND,
  nextTankLook,
  tankLooked,
  type TankTrend,
} from '../../../src/estimate/tank-trend.ts';
import type { Farm } from '../../../src/farm/farm.ts';
import { afterMinutes } from '../../../src/time/instant.ts';
import { exampleFarm } from '../../support/farm.ts';
import { minute } from '../../support/moments.ts';

/** 600 L: a leak is 15 L/h or more. */
const farm: Farm = { ...exampleFarm, tank: { ...exampleFarm.tank, litres: 600, dryLitres: 60 } };
const TURN_MINUTES = 60;
const FLOOD_MINUTES = 20;

interface Days {
  readonly turns: number;
  /** The level at a minute. */
  readonly litres: (at: number) => number | undefined;
  readonly drinkLitresPerHour?: number;
  /** Which rests nobody could see. */
  readonly unseen?: (turn: number) => boolean;
  /** Which floods were missed. */
  readonly missed?: (turn: number) => boolean;
}

/** Floods of 20 min and rests of 40, looked at each half minute. */
const after = ({
  turns,
  litres,
  drinkLitresPerHour = 0,
  unseen = () => false,
  missed = () => false,
}: Days): TankTrend => {
  let trend = NO_TREND;
  for (let half = 0; half < turns * TURN_MINUTES * 2; half += 1) {
    const at = half / 2;
    const turn = Math.floor(at / TURN_MINUTES);
    const stop = turn * TURN_MINUTES + FLOOD_MINUTES;
    const pump = unseen(turn)
      ? ({ kind: 'unknown' } as const)
      : at < stop
        ? ({ kind: 'runs' } as const)
        : ({ kind: 'rests', since: minute(stop) } as const);
    const look = {
      pump,
      litres: litres(at),
      lastFlood: missed(turn) ? 'missed' : 'not-missed',
      drinkLitresPerHourMost: drinkLitresPerHour,
      heldLitres: 100,
    } as const;
    trend = tankLooked(farm, trend, look, minute(at));
  }
  return trend;
};
const fallAfter = (days: Days): number | null | undefined =>
  tankFall(farm, after(days), minute(days.turns * TURN_MINUTES))?.beyondLitresPerHour;
const steady =
  (perHour: number) =>
  (at: number): number =>
    550 - (perHour * at) / 60;

describe('the trend of the tank', () => {
  it('is 60 L/h where the tank falls by 60 L/h and nothing drinks, after four rests and not before', () => {
    expect(fallAfter({ turns: 3, litres: steady(60) })).toBeUndefined();
    expect(fallAfter({ turns: 4, litres: steady(60) })).toBeCloseTo(60, 6);
  });

  it('takes off what the benches can drink: 60 L/h less 20, and nothing of 60 less 50', () => {
    expect(fallAfter({ turns: 5, litres: steady(60), drinkLitresPerHour: 20 })).toBeCloseTo(40, 6);
    expect(fallAfter({ turns: 5, litres: steady(60), drinkLitresPerHour: 50 })).toBeUndefined();
  });

  it('looks at nothing while a flood is out: a level that falls by 200 L in each flood alone is no fall', () => {
    const litres = (at: number): number => (at % TURN_MINUTES < FLOOD_MINUTES + 10 ? 350 : 550);
    expect(fallAfter({ turns: 8, litres })).toBeUndefined();
  });

  it('follows no step, up or down, of whatever size', () => {
    for (const step of [-300, -40, 40, 300])
      for (let turns = 4; turns < 10; turns += 1)
        expect(
          fallAfter({ turns, litres: (at) => (at < 4 * TURN_MINUTES ? 400 : 400 + step) }),
        ).toBeUndefined();
  });

  it('takes no moment of readings that do not agree, or of none', () => {
    expect(after({ turns: 8, litres: (at) => 150 + 200 * ((2 * at) % 3) }).last).toBeNull();
    expect(after({ turns: 8, litres: () => undefined }).last).toBeNull();
  });

  it('holds nothing against the time before a rest that nobody saw', () => {
    const gone = after({ turns: 4, litres: steady(60), unseen: (turn) => turn === 2 });
    expect(gone.slopes).toHaveLength(1);
  });

  /** Each second rest water comes back for 5 min longer; it fills the tank by 6 L a minute up to 17 min after the stop. */
  const putOff =
    (perHour: number) =>
    (at: number): number | undefined => {
      const stopped = (at % TURN_MINUTES) - FLOOD_MINUTES;
      const isLate = Math.floor(at / TURN_MINUTES) % 2 === 1;
      if (stopped < (isLate ? 15 : 10)) return undefined;
      return steady(perHour)(at) - 6 * Math.max(0, 17 - stopped);
    };

  it('takes no fall from a moment that was put off beside one that was not', () => {
    for (let turns = 4; turns < 12; turns += 1)
      expect(fallAfter({ turns, litres: putOff(0) })).toBeUndefined();
  });

  it('sees a fall of 60 L/h in such a shed too', () => {
    expect(fallAfter({ turns: 7, litres: putOff(60) })).toBeCloseTo(60, 6);
  });

  /** 40 L are still in the channels at the moment that counts, but for a flood of which no water came. */
  const drains =
    (missed: (turn: number) => boolean, perHour = 0) =>
    (at: number): number =>
      steady(perHour)(at) - (missed(Math.floor(at / TURN_MINUTES)) ? 0 : 40);

  it('takes what a flood leaves in the channels for no fall, where those before it were missed', () => {
    for (const missed of [
      (turn: number) => turn < 4,
      (turn: number) => turn > 2,
      (turn: number) => turn % 2 === 0,
    ])
      for (let turns = 4; turns < 10; turns += 1)
        expect(fallAfter({ turns, missed, litres: drains(missed) })).toBeUndefined();
  });

  it('sees a fall of 60 L/h where each second flood, or every flood, is missed', () => {
    for (const missed of [(turn: number) => turn % 2 === 0, () => true])
      expect(fallAfter({ turns: 6, missed, litres: drains(missed, 60) })).toBeCloseTo(60, 6);
  });

  it('ends when two slopes of three are slower than 7.5 L/h', () => {
    const mended = (at: number): number => (at < 5 * TURN_MINUTES ? steady(60)(at) : 250);
    expect(fallAfter({ turns: 6, litres: mended })).toBeGreaterThan(15);
    expect(fallAfter({ turns: 8, litres: mended })).toBeUndefined();
  });

  /** A tank of 200 L that leaks 60 L/h until it is empty, and is filled again later. */
  const emptied =
    (filledTurn: number, perHour: number) =>
    (at: number): number =>
      at < filledTurn * TURN_MINUTES
        ? Math.max(0, 200 - at)
        : 550 - (perHour * (at - filledTurn * TURN_MINUTES)) / 60;

  it('does not end because an empty tank cannot fall: a leak of 60 L/h stays one for a day, and once it is filled', () => {
    for (const turns of [6, 12, 24, 25, 26, 27, 30])
      expect(fallAfter({ turns, litres: emptied(24, 60) })).toBeGreaterThan(45);
  });

  it('ends two rests after an empty tank was filled and held what was poured in', () => {
    expect(fallAfter({ turns: 25, litres: emptied(24, 0) })).toBeGreaterThan(45);
    expect(fallAfter({ turns: 26, litres: emptied(24, 0) })).toBeUndefined();
  });

  it('has a tank of 600 L brimful after two rests in a row at 594 L or more, and no longer after one below', () => {
    const brim = (litres: (at: number) => number, turns: number): number | null =>
      brimfulLitres(farm, after({ turns, litres }));
    expect(brim(() => 594, 1)).toBeNull();
    expect(brim(() => 594, 2)).toBe(594);
    expect(brim(() => 593, 8)).toBeNull();
    expect(brim(() => 640, 2)).toBe(600);
    expect(brim((at) => (at < 3 * TURN_MINUTES ? 600 : 500), 4)).toBeNull();
  });

  it('asks to be looked at 10 min after the stop of the pump, then each half minute, then half an hour later', () => {
    const pump = { kind: 'rests', since: minute(0) } as const;
    const look = {
      pump,
      litres: 500,
      lastFlood: 'not-missed',
      drinkLitresPerHourMost: 0,
      heldLitres: 0,
    } as const;
    let trend = tankLooked(farm, NO_TREND, look, minute(1));
    const asked: number[] = [];
    for (let count = 0; count < 6; count += 1) {
      const at = nextTankLook(trend)!;
      asked.push(at);
      trend = tankLooked(farm, trend, look, at);
    }
    expect(asked).toEqual([10, 10.5, 11, 11.5, 12, 40].map((at) => afterMinutes(minute(0), at)));
  });
});
