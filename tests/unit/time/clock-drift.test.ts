import { describe, expect, it } from 'vitest';
import {
  driftOf,
  lookedAt,
  NO_CLOCK,
  type BoardClock,
} from '../../../firmware-host/devices/keeper/board-clock.ts';
import { clockDrift } from '../../../src/time/clock-drift.ts';
import { second } from '../../support/moments.ts';

describe('the drift of a clock', () => {
  it.each([
    [600, 600, 0, 'well'],
    [612, 600, 2, 'well'],
    [613, 600, 13 / 6, 'warning'],
    [587, 600, -13 / 6, 'warning'],
    [630, 600, 5, 'warning'],
    [631, 600, 31 / 6, 'alarm'],
    [569, 600, -31 / 6, 'alarm'],
  ] as const)('of %d s in %d true ones is %f %%: %s', (seconds, trueSeconds, percent, level) => {
    const drift = clockDrift(seconds, trueSeconds);
    expect(drift.percent).toBeCloseTo(percent, 9);
    expect(drift.level).toBe(level);
  });
});

describe('the clock of a board, looked at once a second', () => {
  const after = (seconds: number, rate: number): BoardClock => {
    let clock = NO_CLOCK;
    for (let at = 0; at <= seconds; at += 1) {
      clock = lookedAt(clock, { uptimeSeconds: Math.floor(at * rate), at: second(at) });
    }
    return clock;
  };

  it('says nothing before ten minutes have been seen', () => {
    expect(driftOf(after(599, 1.1))).toBeNull();
  });

  it.each([
    [0.9, 'alarm'],
    [0.945, 'alarm'],
    [0.97, 'warning'],
    [0.99, 'well'],
    [1, 'well'],
    [1.01, 'well'],
    [1.03, 'warning'],
    [1.055, 'alarm'],
    [1.1, 'alarm'],
  ] as const)('that runs at %f times the host’s is told after 11 min: %s', (rate, level) => {
    expect(driftOf(after(660, rate))?.level).toBe(level);
  });

  it('that stood still with a host that slept for 8 h has not drifted', () => {
    let clock = after(660, 1);
    for (let at = 0; at <= 660; at += 1) {
      clock = lookedAt(clock, { uptimeSeconds: 661 + at, at: second(8 * 3600 + 661 + at) });
    }
    expect(driftOf(clock)?.level).toBe('well');
  });
});
