import { execFileSync } from 'node:child_process';
import { describe, expect, it } from 'vitest';
import { monotonicNow, monotonicOf } from '../../../firmware-host/monotonic.ts';
import { bundled } from '../../support/bundled.ts';

const HOUR = 3_600_000;

/** A machine whose sleep and uptime the test sets. */
const machine = (bootedBefore = 0) => {
  let awake = 0;
  let asleep = 0;
  let back = 0;
  let nap = 0;
  const looked = (seen: number): number => {
    asleep += nap;
    nap = 0;
    return seen;
  };
  const now = monotonicOf({
    awake: () => looked(awake),
    // As /proc/uptime tells it: in steps of 10 ms.
    sinceBoot: () => looked(Math.floor((awake + asleep + bootedBefore - back) / 10) * 10),
  });
  return {
    now,
    runs: (millis: number) => (awake += millis),
    sleeps: (millis: number) => (asleep += millis),
    /** Behind the next look at one of the two counters. */
    sleepsBetweenLooks: (millis: number) => (nap = millis),
    goesBack: (millis: number) => (back += millis),
  };
};

describe('the monotonic clock of a real host', () => {
  it('counts 8 h of sleep, in which the fine counter stands still', () => {
    const { now, runs, sleeps } = machine();
    runs(1000);
    sleeps(8 * HOUR);
    runs(1000);
    expect(Math.abs(now() - (8 * HOUR + 2000))).toBeLessThanOrEqual(10);
  });

  it('never goes back, over steps of 1 ms and naps of 1.5 s', () => {
    const { now, runs, sleeps } = machine();
    let last = now();
    for (let step = 0; step < 5000; step += 1) {
      runs(1);
      if (step % 1000 === 999) sleeps(1500);
      const next = now();
      expect(next).toBeGreaterThanOrEqual(last);
      last = next;
    }
    expect(Math.abs(last - (5000 + 5 * 1500))).toBeLessThanOrEqual(10);
  });

  it('counts a minute in which the process is stopped between its two looks once', () => {
    let millis = 1_000_000;
    let isStopped = false;
    const look = (): number => {
      const seen = millis;
      if (isStopped) millis += 60_000;
      isStopped = false;
      return seen;
    };
    const now = monotonicOf({ awake: look, sinceBoot: look });
    const before = now();
    isStopped = true;
    now();
    expect(now() - before).toBe(60_000);
  });

  it('counts 8 h of sleep between its two looks from the next look on', () => {
    const { now, runs, sleepsBetweenLooks } = machine();
    const before = now();
    sleepsBetweenLooks(8 * HOUR);
    now();
    runs(1000);
    expect(now() - before).toBe(8 * HOUR + 1000);
  });

  it('does not follow a coarse counter that goes back by an hour', () => {
    const { now, runs, goesBack } = machine(2 * HOUR);
    const before = now();
    goesBack(HOUR);
    runs(1000);
    expect(now() - before).toBe(1000);
  });

  it('numbers a moment in another process between the moments before and after it here', async () => {
    const file = await bundled('firmware-host/monotonic.ts');
    const ask = `import(${JSON.stringify(file)}).then(({ monotonicNow }) => console.log(monotonicNow()))`;
    const before = monotonicNow();
    const other = Number(execFileSync(process.execPath, ['--eval', ask], { encoding: 'utf8' }));
    const after = monotonicNow();
    expect(other).toBeGreaterThanOrEqual(before - 20);
    expect(other).toBeLessThanOrEqual(after + 20);
  });
});
