import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { describe, expect, it, vi } from 'vitest';
import { clockAtZero, heraldJob, type HeraldOpening } from '../../../firmware-host/herald/herald-job.ts';
import { deliveryFile, readDelivery, writeDelivery } from '../../../firmware-host/herald/kept-file.ts';
import { monotonicNow } from '../../../firmware-host/monotonic.ts';
import { bootName } from '../../../firmware-host/start/clock-source.ts';
import { heraldSchema } from '../../../src/farm/herald-schema.ts';
import { monotonicMillis, secondsBetween, wallMillis } from '../../../src/time/instant.ts';
import { pathWithTimedatectl } from '../../support/made-timedatectl.ts';
import { hook } from '../../system/hook.ts';
import {
  drive,
  FAILS,
  GSM,
  HOOK,
  MAIL,
  nowAt,
  RAISED,
  settingsWith,
  told,
} from '../delivery/virtual-network.ts';

const newFolder = (): string => mkdtempSync(join(tmpdir(), 'rillkeeper-kept-'));
const LOW = { ...RAISED, alarm: 'no-good-temperature', priority: 'low' } as const;
const MEDIUM = { ...RAISED, alarm: 'weak-flow', priority: 'medium' } as const;
type Begun = Pick<HeraldOpening, 'source' | 'clock'>;
const BELIEVED: Begun = { source: 'network', clock: 'known' };
const UNSET: Begun = { source: 'unknown', clock: 'unknown' };
const heraldIn = (
  folder: string,
  begun: Begun = BELIEVED,
  url = 'http://127.0.0.1:9/',
): ReturnType<typeof heraldJob> =>
  heraldJob(
    {
      farm: 'Hill',
      timeZone: 'Europe/Lisbon',
      language: 'en',
      herald: heraldSchema.parse({ webhooks: [{ name: 'shop', url }] }),
      folder,
      ...begun,
      clockAtZero: clockAtZero(),
    },
    () => undefined,
  );
const keysIn = async (folder: string): Promise<readonly string[]> =>
  (await readDelivery(folder))?.state.jobs.map(({ key }) => key) ?? [];

describe('a call on its way to people', () => {
  it('is on the disk within 0.3 s, also when it comes 0.1 s behind another', async () => {
    const folder = newFolder();
    const job = heraldIn(folder);
    job.take({ kind: 'tell', call: RAISED });
    while (!(await keysIn(folder)).includes('missed-flood')) await sleep(10);
    await sleep(100);
    job.take({ kind: 'tell', call: LOW });
    job.take({ kind: 'tell', call: MEDIUM });
    await sleep(300);
    expect(await keysIn(folder)).toEqual(['missed-flood', 'no-good-temperature', 'weak-flow']);
    job.take({ kind: 'close' });
  });

  it('is as old after a restart as it is, though the wall clock has gone by 8 h meanwhile, ahead or back', async () => {
    const boot = (await bootName()) ?? '';
    for (const hours of [8, -8]) {
      const folder = newFolder();
      // Of high priority, made 20 s before the host ended.
      const { state } = drive(settingsWith([HOOK], []), () => FAILS, [told(RAISED, 10)], 30);
      const ended = monotonicMillis(monotonicNow() - 120_000);
      await writeDelivery(folder, {
        state,
        at: { ...nowAt(30), wall: wallMillis(Date.now() - hours * 3_600_000) },
        machine: { boot, monotonic: ended },
      });
      const job = heraldIn(folder);
      const ageSeconds = async (): Promise<number | null> => {
        const kept = await readDelivery(folder);
        if (kept === null || kept.machine?.monotonic === ended) return null;
        const one = kept.state.jobs.find(({ key }) => key === 'missed-flood');
        return one === undefined ? null : secondsBetween(one.madeAt, kept.at.monotonic);
      };
      await expect.poll(ageSeconds, { timeout: 5000 }).toBeGreaterThan(139.9);
      expect(await ageSeconds()).toBeLessThan(150);
      job.take({ kind: 'close' });
    }
  });
});

describe('a call of high priority that waited as the power went, 9 h before by the clock of now', () => {
  const waiting = async (): Promise<string> => {
    const folder = newFolder();
    const { state } = drive(settingsWith([HOOK], []), () => FAILS, [told()], 30);
    await writeDelivery(folder, {
      state,
      at: { ...nowAt(30), wall: wallMillis(Date.now() - 9 * 3_600_000) },
      machine: { boot: 'another', monotonic: monotonicMillis(1) },
    });
    return folder;
  };
  /** What was posted until the kept calls had been gone on from, and 0.5 s more. */
  const posted = async (begun: Begun, ...clocks: readonly HeraldOpening['clock'][]) => {
    const { url, got, close } = await hook();
    const folder = await waiting();
    const job = heraldIn(folder, begun, url);
    for (const known of clocks) job.take({ kind: 'clock', known });
    job.take({ kind: 'tell', call: LOW });
    const texts = (): readonly string[] => got.map(({ text }) => text);
    await expect.poll(texts, { timeout: 5000 }).toContainEqual(expect.stringContaining(LOW.alarm));
    await sleep(500);
    job.take({ kind: 'close' });
    close();
    return texts()
      .map((text) => JSON.parse(text) as { readonly alarm: string; readonly at: string | null })
      .filter(({ alarm }) => alarm === 'missed-flood');
  };

  it('is over where that clock is right, as the host has found: what stands it tells again', async () => {
    expect(await posted(BELIEVED)).toEqual([]);
  });

  it('goes, as no time is known to have gone, where the host knew of nothing that had set the clock, though the network has since', async () => {
    vi.stubEnv('PATH', pathWithTimedatectl('echo yes'));
    expect(await posted({ source: 'unknown', clock: 'known' })).toHaveLength(1);
    vi.unstubAllEnvs();
  });

  it('goes without a time of day while the clock is in doubt, and not with the one of the disk', async () => {
    const all = await posted(UNSET, 'unknown');
    expect(all.map(({ at }) => at)).toEqual([null]);
  });
});

describe('what is kept of calls', () => {
  const settings = settingsWith([GSM, MAIL, HOOK]);
  const kept = {
    state: drive(settings, () => FAILS, [told(LOW), told(MEDIUM, 20)], 30).state,
    at: nowAt(30),
    machine: { boot: 'a', monotonic: monotonicMillis(7_200_000) },
  };
  const changed = (change: (file: Record<string, unknown>) => unknown): string => {
    const folder = newFolder();
    const file: unknown = JSON.parse(JSON.stringify(kept));
    writeFileSync(deliveryFile(folder), JSON.stringify(change(file as Record<string, unknown>)));
    return folder;
  };
  const jobs = kept.state.jobs;

  it('comes back as it was', async () => {
    const folder = newFolder();
    await writeDelivery(folder, kept);
    expect(await readDelivery(folder)).toEqual(kept);
  });

  it('of the version before, without what has been added since, comes back whole', async () => {
    const added = ['"ringsInVain":0,', '"wellBy":"look",', '"answered":{},', ',"text":null'];
    const text = added.reduce((left, each) => left.replaceAll(each, ''), JSON.stringify(kept));
    for (const name of ['ringsInVain', 'wellBy', 'answered', '"text":null']) expect(text).not.toContain(name);
    expect(await readDelivery(changed(() => JSON.parse(text)))).toEqual(kept);
  });

  it('of a later version comes back without what that has added', async () => {
    const more = (of: object): object => ({ ...of, later: 1 });
    const { state, at } = kept;
    const folder = changed(() => ({
      ...kept,
      at: more(at),
      state: { ...more(state), jobs: jobs.map((job) => more({ ...job, call: more(job.call!) })) },
      later: {},
    }));
    expect(await readDelivery(folder)).toEqual(kept);
  });

  it('comes back without the one call that cannot be read, and without the health that cannot', async () => {
    const [first, ...others] = jobs;
    const folder = changed(() => ({
      ...kept,
      state: { ...kept.state, jobs: [{ ...first, rank: 'low' }, ...others], health: { modem: 'well' } },
    }));
    const read = await readDelivery(folder);
    expect(read?.state.jobs).toEqual(others);
    expect(read?.state.health).toEqual({});
  });

  it('that is no file of calls at all is none', async () => {
    expect(await readDelivery(changed(() => ({ state: [] })))).toBeNull();
  });
});
