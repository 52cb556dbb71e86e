import { describe, expect, it } from 'vitest';
import { HOUR, runShed, told, trueMinutesLeft } from './shed-run.ts';
import { clock, DAY, shedWith } from './sheds.ts';

/**
 * 300 L and a valve that gives nothing above the level at which the pump draws air (60 L): on a hot day four
 * benches drink that between morning and afternoon. The float hangs 20 L above.
 */
const farm = shedWith(
  [['tank', 'usualLitres'], 300],
  [['tank', 'topUp'], { floatValveAtLitres: 1, litresPerMinute: 0.1 }],
);
const MINUTE = 60_000;

describe.each([0, 7.5, 10])('a tank that nobody fills, from %d h of a hot day', (hour) => {
  const run = runShed({ farm, fromMillis: clock(hour), untilMillis: DAY.end });
  const raised = (kind: string): (typeof run.alarms)[number] =>
    run.alarms.find(({ entry }) => entry.alarm === kind)!;

  it('is told first, by a high alarm, with more than an hour truly left', () => {
    const low = raised('tank-low');
    expect(low.entry).toMatchObject({ priority: 'high' });
    expect(low.entry.text).toMatch(/Look into the tank/);
    expect(run.alarms[0]).toBe(low);
    expect(trueMinutesLeft(low.plant, farm.floors.wilt)).toBeGreaterThan(60);
  });

  it('calls for water by hand before half of the time that was left at the low tank has gone', () => {
    const leftAtLow = trueMinutesLeft(raised('tank-low').plant, farm.floors.wilt);
    const drying = raised('drying-out');
    expect(drying.entry.text).toMatch(/Carry water to the benches by hand/);
    expect((drying.entry.at - raised('tank-low').entry.at) / MINUTE).toBeLessThanOrEqual(leftAtLow / 2);
  });

  it('raises these two alarms once each, though the float goes up and down as the channels drain', () => {
    expect(run.alarms.map(({ entry }) => entry.alarm)).toEqual(['tank-low', 'drying-out']);
    expect(told(run, 'alarm-returned')).toEqual([]);
  });

  it('goes on with sips of at most 3 min, one in ten minutes at most', () => {
    const sips = told(run, 'sip').map(({ at }) => at);
    expect(sips.length).toBeGreaterThan(20);
    const gaps = sips.slice(1).map((at, place) => (at - sips[place]!) / MINUTE);
    expect(Math.min(...gaps)).toBeGreaterThanOrEqual(10);
    const asked = told(run, 'pump-asked').filter(({ at, pump }) => pump === 'on' && sips.includes(at));
    expect(new Set(asked.map(({ longestSeconds }) => longestSeconds))).toEqual(new Set([20, 180]));
  });

  it('gives the benches what there is: in the end the tank holds little more than the pump can reach', () => {
    const { tank } = run.plant.state;
    expect(tank.litres).toBeLessThan(farm.tank.dryLitres + 30);
  });
});

describe('a low tank that somebody fills', () => {
  it('has floods again within a shortened one, and is well after the next whole one: both alarms return', () => {
    const empty = runShed({ farm, fromMillis: clock(0), untilMillis: DAY.end });
    const low = empty.alarms.find(({ entry }) => entry.alarm === 'tank-low')!;
    const filledAt = low.entry.at + 1.5 * HOUR;
    const run = runShed({
      farm,
      fromMillis: clock(0),
      untilMillis: filledAt + 3 * HOUR,
      at: { millis: filledAt, does: ({ state: { tank } }) => void (tank.litres = 580) },
    });
    const returned = told(run, 'alarm-returned').filter(({ at }) => at > filledAt);
    expect(returned.map(({ alarm }) => alarm).toSorted()).toEqual(['drying-out', 'tank-low']);
    for (const { alarm, at } of returned)
      expect(at - filledAt).toBeLessThanOrEqual((alarm === 'drying-out' ? 30 : 90) * MINUTE);
    expect(run.alarms.filter(({ entry }) => entry.at > filledAt)).toEqual([]);
  });
});
