import { existsSync, mkdirSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { describe, expect, it } from 'vitest';
import {
  countCleanStop,
  countStart,
  lastingStart,
  startFolders,
  startNow,
  type Start,
} from '../../../firmware-host/start/starts.ts';
import { wallMillis, type Now } from '../../../src/time/instant.ts';
import { hangingWrite } from '../../support/hanging-write.ts';
import { minute, utc } from '../../support/moments.ts';

const NOON = utc('2026-07-14T11:00Z');
const folder = (): string => mkdtempSync(join(tmpdir(), 'rillkeeper-starts-'));
/** A folder that takes nothing, whoever asks: its name is that of a file. */
const notAFolder = (): string => {
  const file = join(folder(), 'file');
  writeFileSync(file, '');
  return file;
};
const at = (minutes: number, boot: string | null = 'a', wall?: Now['wall']): Start =>
  startNow(boot, { monotonic: minute(minutes), wall: wall ?? wallMillis(NOON + minutes * 60_000) });

const startsKept = ([own]: readonly string[]): number =>
  (JSON.parse(readFileSync(join(own ?? '', 'starts.json'), 'utf8')) as { readonly starts: readonly Start[] })
    .starts.length;

const counted = async (
  folders: readonly string[],
  ...starts: readonly Start[]
): Promise<readonly number[]> => {
  const numbers: number[] = [];
  for (const start of starts) numbers.push((await countStart(folders, start)).starts);
  return numbers;
};

describe('starts of the host', () => {
  it('the third within 10 min is safe mode, and says why; the second is not', async () => {
    const own = [folder()];
    expect(await countStart(own, at(0))).toEqual({ starts: 1, safeMode: null, uncounted: null });
    expect((await countStart(own, at(4))).safeMode).toBeNull();
    expect((await countStart(own, at(9.9))).safeMode).toBe(
      'this host has started 3 times within 10 min without being asked to stop',
    );
  });

  it('a third after 10 min is as any other', async () => {
    expect(await counted([folder()], at(0), at(5), at(10.1))).toEqual([1, 2, 2]);
  });

  it('a clean stop ends the tale: the third is the first again', async () => {
    const own = [folder()];
    await counted(own, at(0), at(1));
    await countCleanStop(own);
    expect(await counted(own, at(2))).toEqual([1]);
  });

  it('a wall clock that steps by a day between two does not hide a loop since one start of the machine', async () => {
    const later = (minutes: number): Start => at(minutes, 'a', wallMillis(NOON + 86_400_000));
    expect(await counted([folder()], at(0), later(1), at(2))).toEqual([1, 2, 3]);
  });

  it.each([
    [
      'by the wall clock where the machine itself was started anew',
      [at(0, 'a'), at(1, 'b'), at(2, 'c')],
      [1, 2, 3],
    ],
    [
      'not where no clock was set: a power cut is no crash',
      [at(0, 'a', 'unknown'), at(1, 'b'), at(2, 'c')],
      [1, 1, 2],
    ],
    ['not in 1970', [at(0, 'a', wallMillis(0)), at(1, 'b', wallMillis(60_000))], [1, 1]],
    ['by the wall clock where the kernel names no start', [at(0, null), at(1, null), at(2, null)], [1, 2, 3]],
  ] as const)('are counted %s', async (_, starts, numbers) => {
    expect(await counted([folder()], ...starts)).toEqual(numbers);
  });

  it('of different starts of a machine without a clock are no loop within 10 min: four short returns of the mains are none', async () => {
    const own = [folder()];
    // Each wakes with the time that was saved once.
    const cuts = ['mon', 'wed', 'fri', 'sun'].map((boot, day) => at(0.3 + day / 100, boot, 'unknown'));
    for (const cut of cuts) expect(await countStart(own, cut)).toMatchObject({ starts: 1, safeMode: null });
  });

  it('of such a machine are a loop at the fifth of which none has lasted 10 min, and it says so', async () => {
    const own = [folder()];
    const counts: unknown[] = [];
    for (const boot of ['a', 'b', 'c', 'd', 'e'])
      counts.push(await countStart(own, at(0.3, boot, 'unknown')));
    expect(counts.slice(0, 4)).toEqual(Array(4).fill({ starts: 1, safeMode: null, uncounted: null }));
    expect(counts[4]).toEqual({
      starts: 5,
      safeMode: 'of the last 5 starts of this host none is known to have lasted 10 min',
      uncounted: null,
    });
  });

  it('of such a machine are a loop at the third within 10 min since one start of it', async () => {
    const start = (minutes: number): Start => at(minutes, 'a', 'unknown');
    expect(await counted([folder()], start(0), start(4), start(9.9))).toEqual([1, 2, 3]);
  });

  it('one of which has lasted 10 min are no loop: it and those before it are forgotten', async () => {
    const own = [folder()];
    const starts = ['a', 'b', 'c', 'd', 'e'].map((boot) => at(0.3, boot, 'unknown'));
    await counted(own, ...starts.slice(0, 4));
    const lasts = lastingStart(own, minute(0.3));
    lasts(minute(10.2));
    await sleep(100);
    expect(startsKept(own)).toBe(4);
    lasts(minute(10.3));
    await expect.poll(() => startsKept(own), { timeout: 3000 }).toBe(0);
    expect((await countStart(own, starts[4]!)).safeMode).toBeNull();
  });

  it.each([
    ['half written', '{"starts": [{"boot":'],
    ['of something else', '{"starts": "many"}'],
    ['empty', ''],
  ])('a file %s counts for nothing, and is written anew', async (_, text) => {
    const own = folder();
    writeFileSync(join(own, 'starts.json'), text);
    expect(await counted([own], at(0), at(1), at(2))).toEqual([1, 2, 3]);
  });
});

describe('a disk that takes nothing', () => {
  it('is told, and the host starts: always as if for the first time', async () => {
    const own = [notAFolder()];
    const first = await countStart(own, at(0));
    expect([first.starts, first.safeMode]).toEqual([1, null]);
    expect(first.uncounted).toMatch(/EEXIST|ENOTDIR/);
    expect(await counted(own, at(1), at(2))).toEqual([1, 1]);
    await countCleanStop(own);
  });

  it('is made good by the folder in memory: the third start is safe mode', async () => {
    const memory = folder();
    const own = startFolders(notAFolder(), { RUNTIME_DIRECTORY: memory });
    expect(await counted(own, at(0), at(1), at(2))).toEqual([1, 2, 3]);
    expect(existsSync(join(memory, 'rillkeeper', 'starts.json'))).toBe(true);
  });

  it('that hangs is given up after 2 s: the host starts uncounted, or counted by the folder in memory', async () => {
    const begun = performance.now();
    const hangs = join(folder(), 'mere');
    const comeBack = hangingWrite(join(hangs, 'starts.json'));
    expect((await countStart([hangs], at(0))).uncounted).toContain('the disk has not answered');
    expect(await counted([hangs, folder()], at(1), at(2))).toEqual([1, 2]);
    expect(performance.now() - begun).toBeLessThan(10_000);
    await comeBack();
  });

  it('that became read-only with four starts that no clock dates makes no later one a loop, however long those last', async () => {
    const disk = folder();
    const undated = (boot: string): Start => at(0.3, boot, 'unknown');
    await counted([disk], ...['a', 'b', 'c', 'd'].map(undated));
    expect(startsKept([disk])).toBe(4);
    // A folder lies where the fresh text would be written first.
    mkdirSync(join(disk, `starts.json.${process.pid}.new`));
    for (const start of [undated('e'), undated('f'), at(100_000, 'g')]) {
      expect(await countStart([disk, folder()], start)).toEqual({
        starts: 1,
        safeMode: null,
        uncounted: null,
      });
    }
    expect(startsKept([disk])).toBe(4);
  });

  it('that became read-only with one such start hides no loop since: the third within 10 min is safe mode', async () => {
    const disk = folder();
    await counted([disk], at(0.3, 'a', 'unknown'));
    mkdirSync(join(disk, `starts.json.${process.pid}.new`));
    const folders = [disk, folder()];
    const later = [0.3, 0.6, 0.9].map((minutes) => at(minutes, 'b', 'unknown'));
    expect(await counted(folders, ...later)).toEqual([1, 2, 3]);
    expect((await countStart(folders, at(1.2, 'b', 'unknown'))).safeMode).not.toBeNull();
  });

  it('that became read-only after two starts is found out: the folder in memory goes on with the count', async () => {
    const disk = folder();
    const memory = folder();
    await counted([disk], at(0), at(1));
    // The same as a disk that can be read and not written: what it holds stays, what is new goes to memory.
    expect(await counted([disk, memory], at(2))).toEqual([3]);
  });
});
