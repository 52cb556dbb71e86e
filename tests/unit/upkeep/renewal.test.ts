import { describe, expect, it } from 'vitest';
import { startNow, type Start } from '../../../firmware-host/start/starts.ts';
import type { LargeMemory } from '../../../firmware-host/upkeep/memory.ts';
import {
  createRenewal,
  mayEnd,
  occasionOf,
  type Occasion,
  type RenewalAsked,
} from '../../../firmware-host/upkeep/renewal.ts';
import { begin, step } from '../../../src/controller.ts';
import { wallMillis, type Now } from '../../../src/time/instant.ts';
import { exampleFarm } from '../../support/farm.ts';
import { minute, utc } from '../../support/moments.ts';

const MIDNIGHT = utc('2026-07-14T23:00Z');
const at = (minutes: number): Now => ({
  monotonic: minute(minutes),
  wall: wallMillis(MIDNIGHT + minutes * 60_000),
});
const start = (minutes: number): Start => startNow('a', at(minutes));
const large = (megabytes: number): LargeMemory => ({ megabytes, since: minute(0), kind: 'lasting' });
/** Between two floods of a quiet night. */
const QUIET: Occasion = { pump: 'rests', hold: 'none', minutesToFlood: 60, sun: 'down', water: 'well' };

describe('a host that takes too much memory', () => {
  it.each<readonly [when: string, occasion: Partial<Occasion>, of200: boolean, of260: boolean]>([
    ['between two floods of a quiet night', {}, true, true],
    ['with the next flood due in 3 min', { minutesToFlood: 3 }, true, true],
    ['with the next flood due in 2.9 min', { minutesToFlood: 2.9 }, false, false],
    ['with a flood overdue', { minutesToFlood: -1 }, false, false],
    ['in a flood', { pump: 'in-use' }, false, false],
    ['by day', { sun: 'up' }, false, true],
    ['while no clock is believed', { sun: 'unknown' }, false, true],
    ['while somebody is called for water', { water: 'alarm' }, false, true],
    ['in a hold', { minutesToFlood: null, hold: 'held' }, false, false],
    ['with no flood planned', { minutesToFlood: null }, false, true],
    ['in a flood that nobody planned', { minutesToFlood: null, pump: 'in-use' }, false, false],
  ])('%s ends: %j at 200 MB %s, at 260 MB %s', (_, occasion, of200, of260) => {
    const now = { ...QUIET, ...occasion };
    expect([200, 259, 260].map((megabytes) => mayEnd(large(megabytes), now, [], start(0)))).toEqual([
      of200,
      of200,
      of260,
    ]);
  });

  it('ends not twice within 20 h, near its limit not twice within one', () => {
    const ends = (megabytes: number, minutes: number): boolean =>
      mayEnd(large(megabytes), QUIET, [start(0)], start(minutes));
    expect([ends(200, 1199), ends(200, 1200)]).toEqual([false, true]);
    expect([ends(260, 59), ends(260, 60)]).toEqual([false, true]);
  });
});

describe('the occasion', () => {
  const link = { kind: 'up' } as const;
  const samples = { kind: 'samples', samples: [] } as const;
  const first = step(exampleFarm, begin(exampleFarm, at(0), link), samples, at(0));
  const flooding = step(exampleFarm, first.state, samples, at(1));

  it('is no rest in the first flood, nor while it drains, nor in a run of the pump that is no flood', () => {
    const pumpOf = (state: typeof flooding.state): string => occasionOf({ ...flooding, state }, at(1)).pump;
    expect(occasionOf(first, at(0))).toEqual({
      pump: 'rests',
      hold: 'none',
      minutesToFlood: null,
      sun: 'down',
      water: 'well',
    });
    expect(pumpOf(flooding.state)).toBe('in-use');
    expect(pumpOf({ ...flooding.state, guard: first.state.guard })).toBe('in-use');
    expect(pumpOf({ ...flooding.state, flood: null })).toBe('in-use');
  });

  it('tells the sun by night and by day, and none without a clock', () => {
    const sunAt = (now: Now): string =>
      occasionOf(step(exampleFarm, begin(exampleFarm, now, link), samples, now), now).sun;
    expect(sunAt(at(0))).toBe('down');
    expect(sunAt(at(12 * 60))).toBe('up');
    expect(sunAt({ ...at(0), wall: 'unknown' })).toBe('unknown');
  });

  it('tells an alarm on water', () => {
    const now = at(30);
    const down = { kind: 'link', link: { kind: 'down', why: 'gone' } } as const;
    const lost = step(exampleFarm, flooding.state, down, at(2));
    const silent = step(exampleFarm, lost.state, samples, now);
    expect(occasionOf(silent, now).water).toBe('alarm');
  });
});

describe('a renewal', () => {
  const { state } = step(
    exampleFarm,
    begin(exampleFarm, at(0), { kind: 'down', why: 'gone' }),
    { kind: 'samples', samples: [] },
    at(0),
  );
  const resting = { state, nextFloodAt: minute(60) };
  const made = (asked: Partial<RenewalAsked> = {}) => {
    const said: string[] = [];
    const written: Start[] = [];
    const renewal = createRenewal({
      memory: () => large(214),
      after: 'started-anew',
      renewals: [],
      startOf: (now) => startNow('a', now),
      write: (now) => {
        written.push(now);
        return Promise.resolve(null);
      },
      talk: (text) => said.push(text),
      ...asked,
    });
    return { renewal, said, written };
  };
  const settled = (): Promise<void> => new Promise((done) => setImmediate(done));

  it('ends the host once it is written down, and not before', async () => {
    const { renewal, said, written } = made();
    renewal.told(resting, at(0));
    expect([renewal.ends.aborted, written]).toEqual([false, [start(0)]]);
    await settled();
    renewal.told(resting, at(1));
    expect([renewal.ends.aborted, written.length]).toEqual([true, 1]);
    expect(said).toEqual([
      'This host takes 214 MB of memory. It ends between two floods, to be started anew.',
    ]);
  });

  it('waits again where a flood has come meanwhile', async () => {
    const { renewal } = made();
    renewal.told(resting, at(0));
    await settled();
    renewal.told({ ...resting, nextFloodAt: minute(2) }, at(1));
    expect(renewal.ends.aborted).toBe(false);
    renewal.told(resting, at(2));
    expect(renewal.ends.aborted).toBe(true);
  });

  it('that cannot be written down is none: told once, and as one that waits for a person', async () => {
    const { renewal, said } = made({ write: () => Promise.resolve('no space left') });
    expect(renewal.health(minute(0))).toEqual({ megabytes: 214, since: minute(0), renewed: 'by-itself' });
    for (const minutes of [0, 1, 2]) {
      renewal.told(resting, at(minutes));
      await settled();
    }
    expect(renewal.ends.aborted).toBe(false);
    expect(said).toEqual(['This host takes too much memory, and cannot end itself for it: no space left']);
    expect(renewal.health(minute(3))).toMatchObject({ renewed: 'by-hand' });
  });

  it('is none where nobody would start the host anew, or nothing is too large', async () => {
    for (const asked of [{ after: 'nobody' }, { memory: () => null }] as const) {
      const { renewal, written } = made(asked);
      renewal.told(resting, at(0));
      await settled();
      renewal.told(resting, at(1));
      expect([renewal.ends.aborted, written]).toEqual([false, []]);
    }
    expect(made({ after: 'nobody' }).renewal.health(minute(0))).toMatchObject({ renewed: 'by-hand' });
    expect(made({ memory: () => null }).renewal.health(minute(0))).toBeNull();
  });
});
