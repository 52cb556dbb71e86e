import { describe, expect, it } from 'vitest';
import { realClock } from '../../../firmware-host/real-clock.ts';
import { virtualTime } from '../../../firmware-host/virtual-time.ts';
import { monotonicMillis } from '../../../src/time/instant.ts';

const HOUR = 3_600_000;
const DAY = 24 * HOUR;

/** A wait under a virtual clock that may also sleep; timers stand still in sleep, as those of Node do. */
const waiting = (untilMillis: number) => {
  const time = virtualTime(0);
  let asleep = 0;
  let woken = false;
  const longest: number[] = [];
  const stop = new AbortController();
  const now = () => monotonicMillis(time.timers.now() + asleep);
  const clock = realClock(stop.signal, {
    now,
    setTimeout: (run, millis) => {
      longest.push(millis);
      return time.timers.setTimeout(run, millis);
    },
    clearTimeout: time.timers.clearTimeout,
  });
  const done = clock.until(monotonicMillis(untilMillis)).then(() => {
    woken = true;
  });
  return {
    stop,
    done,
    now,
    longest: () => Math.max(...longest),
    runs: async (millis: number) => {
      time.advance(monotonicMillis(time.timers.now() + millis));
      await Promise.resolve();
      await Promise.resolve();
      return woken;
    },
    sleeps: (millis: number) => (asleep += millis),
    left: () => time.waiting(),
  };
};

describe('a wait on the clocks of this machine', () => {
  it('of 40 days is not over at once, but after 40 days, and no timer is longer than 1 h', async () => {
    const wait = waiting(40 * DAY);
    expect(await wait.runs(40 * DAY - 1)).toBe(false);
    expect(await wait.runs(1)).toBe(true);
    expect(wait.longest()).toBe(HOUR);
  });

  it('is over within the hour when the machine slept past its end', async () => {
    const wait = waiting(10 * HOUR);
    await wait.runs(30 * 60_000);
    wait.sleeps(12 * HOUR);
    expect(await wait.runs(HOUR)).toBe(true);
  });

  it('to a moment that has passed is over at once, and an abort ends one early and leaves no timer', async () => {
    expect(await waiting(-5).runs(0)).toBe(true);
    const wait = waiting(DAY);
    wait.stop.abort();
    expect(await wait.runs(0)).toBe(true);
    expect(wait.left()).toBe(0);
  });
});
