import { describe, expect, it } from 'vitest';
import { MINUTE } from '../../sim/oracle/stretches.ts';
import { runShed, told } from './shed-run.ts';
import { clock, shedWith } from './sheds.ts';

/** A top-up that gives little less than four benches drink: a flood of 2 min leaves the float still, one of 20 min does not. */
const farm = shedWith(
  [['tank', 'usualLitres'], 200],
  [['tank', 'topUp'], { floatValveAtLitres: 190, litresPerMinute: 1 }],
  [['bounds', 'floodMinutes', 'shortest'], 2],
);

describe('a tank that holds enough for a short flood and not for a whole one', () => {
  const run = runShed({ farm, fromMillis: clock(8), untilMillis: clock(22) });

  it('is told low once in 14 h, and never over', () => {
    expect(run.alarms.filter(({ entry }) => entry.alarm === 'tank-low').length).toBe(1);
    expect(told(run, 'alarm-returned').filter(({ alarm }) => alarm === 'tank-low')).toEqual([]);
  });

  it('gets a whole flood after each short one all the same', () => {
    const minutes = told(run, 'flood-started').map((flood) => flood.minutes);
    expect(minutes.filter((each) => each === 20).length).toBeGreaterThanOrEqual(minutes.length / 2 - 1);
  });

  it('is well again once it is filled to the brim and a whole flood has kept the float still', () => {
    const filledAt = clock(12);
    const filled = runShed({
      farm,
      fromMillis: clock(8),
      untilMillis: clock(15),
      at: { millis: filledAt, does: ({ state: { tank } }) => void (tank.litres = 580) },
    });
    const returned = told(filled, 'alarm-returned').filter(({ alarm }) => alarm === 'tank-low');
    expect(returned.length).toBe(1);
    expect((returned[0]!.at - filledAt) / MINUTE).toBeLessThanOrEqual(120);
    const whole = told(filled, 'flood-started').findLast(({ at }) => at < returned[0]!.at);
    expect(whole?.minutes).toBe(20);
  });
});
