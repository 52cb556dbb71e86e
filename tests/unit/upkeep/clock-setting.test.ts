import { setImmediate } from 'node:timers/promises';
import { describe, expect, it, vi } from 'vitest';
import type { ClockSource } from '../../../firmware-host/start/clock-source.ts';
import { clockSetting } from '../../../firmware-host/upkeep/clock-setting.ts';
import { asUnset, trustAtStart } from '../../../src/time/clock-trust.ts';
import { monotonicMillis } from '../../../src/time/instant.ts';
import { pathWithTimedatectl } from '../../support/made-timedatectl.ts';
import { minute } from '../../support/moments.ts';

const SET = trustAtStart({ monotonic: minute(0), wall: 'unknown' });
const UNSET = asUnset(SET);

/** What is said each second of `seconds`, while `source` is found at each look. */
const said = async (trust: typeof SET, seconds: number, source: (look: number) => ClockSource) => {
  let looks = 0;
  const setting = clockSetting(async () => Promise.resolve(source(looks++)));
  const events: unknown[] = [];
  for (let second = 0; second < seconds; second += 1) {
    for (const event of setting.events(trust, monotonicMillis(second * 1000))) events.push([second, event]);
    await setImmediate();
  }
  return { looks, events };
};

describe('whether something has set the clock', () => {
  it('is looked at twice a minute while nothing is known to have, and said when it has', async () => {
    const { events } = await said(UNSET, 62, (look) => (look < 2 ? 'unknown' : 'network'));
    expect(events).toEqual([[61, { kind: 'clock-set' }]]);
  });

  it('is looked at again after a look that failed', async () => {
    const fails = (look: number): ClockSource => {
      if (look === 0) throw new Error('no memory');
      return 'network';
    };
    const { events } = await said(UNSET, 32, fails);
    expect(events).toEqual([[31, { kind: 'clock-set' }]]);
  });

  it('may take 3 s to be told, as a service that is begun by the question does', async () => {
    vi.stubEnv('PATH', pathWithTimedatectl('sleep 3', 'echo yes'));
    const setting = clockSetting();
    const first = performance.now();
    const events = (): readonly unknown[] =>
      setting.events(UNSET, monotonicMillis(performance.now() - first));
    await expect.poll(events, { timeout: 9000 }).toEqual([{ kind: 'clock-set' }]);
    vi.unstubAllEnvs();
  });

  it('is looked at no more often than that', async () => {
    expect(await said(UNSET, 120, () => 'unknown')).toEqual({ looks: 4, events: [] });
  });

  it('is not looked at where the clock was set', async () => {
    expect(await said(SET, 120, () => 'network')).toEqual({ looks: 0, events: [] });
  });

  it('is not looked at twice at once, where a look takes long', async () => {
    let looks = 0;
    const setting = clockSetting(() => {
      looks += 1;
      return new Promise(() => undefined);
    });
    for (let second = 0; second < 120; second += 1) setting.events(UNSET, monotonicMillis(second * 1000));
    await setImmediate();
    expect(looks).toBe(1);
  });
});
