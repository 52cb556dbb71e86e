import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, statfsSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openJournal, type OpenedJournal } from '../../firmware-host/storage/journal/journal.ts';
import { hasReserve } from '../../firmware-host/storage/journal/reserve.ts';
import { bookPath } from '../../firmware-host/storage/journal/book-path.ts';
import type { Entry } from '../../src/journal/entry.ts';
import { monotonicMillis, wallMillis, type Now } from '../../src/time/instant.ts';
import { entriesIn } from '../support/journal-book.ts';

const now = (): Now => ({ monotonic: monotonicMillis(performance.now()), wall: wallMillis(Date.now()) });
const moment = (): { at: Now['monotonic']; wall: Now['wall'] } => ({ at: now().monotonic, wall: now().wall });
const sip = (reason: string): Entry => ({ kind: 'sip', reason, ...moment() });
const order = (says: string): Entry => ({ kind: 'order', order: 'hold', who: 'Ana', says, ...moment() });

/** Of the built program, in a thread of its own. */
const opened = (folder: string): Promise<OpenedJournal> =>
  openJournal(folder, { now, thread: resolve('dist/journal.mjs') });

const PATIENCE_MILLIS = 45_000;
const eventually = async (holds: () => boolean): Promise<void> => {
  const end = performance.now() + PATIENCE_MILLIS;
  while (!holds()) {
    if (performance.now() > end) throw new Error('it did not come to be within 45 s');
    await pause(20);
  }
};

/** A disk of 6 MB in memory. Mounting wants root: without it this fails. */
const disk = mkdtempSync(join(tmpdir(), 'rillkeeper-disk-'));
const mount = (...args: readonly string[]): void => {
  execFileSync('mount', [...args], { stdio: ['ignore', 'ignore', 'pipe'] });
};

beforeAll(() => {
  mount('-t', 'tmpfs', '-o', 'size=6m', 'rillkeeper-test', disk);
});
afterAll(() => {
  execFileSync('umount', [disk]);
  rmSync(disk, { recursive: true });
});

describe('on a disk of 6 MB', () => {
  it('that another program fills, alarms are written from the reserve of 1 MB, and all the rest once there is room', async () => {
    const folder = join(disk, 'full');
    const { client } = await opened(folder);
    client.append([sip('before')]);
    await eventually(() => client.durable() === 1 && hasReserve(folder));
    // Every last byte of the disk.
    const { bavail, bsize } = statfsSync(disk);
    writeFileSync(join(disk, 'filler'), Buffer.alloc(bavail * bsize));
    expect(statfsSync(disk).bavail).toBe(0);

    client.append([sip('while it is full')]);
    await eventually(() => client.health().kind === 'not-recording');
    expect(client.health()).toMatchObject({ why: 'the disk is full', dropped: 0 });
    expect(client.durable()).toBe(1);
    for (let number = 1; number <= 50; number += 1) client.append([order(`order ${number}`)]);
    await eventually(() => client.durable() === 51);
    expect(hasReserve(folder)).toBe(false);

    rmSync(join(disk, 'filler'));
    await eventually(() => client.health().kind === 'well');
    const entries = entriesIn(folder);
    expect(entries.map(({ seq }) => seq)).toEqual(Array.from({ length: 52 }, (_, place) => place + 1));
    expect(entries.filter(({ kind }) => kind === 'order')).toHaveLength(50);
    expect(entries.at(-1)?.json).toBe('{"reason":"while it is full"}');
    await client.close();
  });

  it('that is read-only, the host begins all the same, keeps in memory, and writes once it may', async () => {
    const folder = join(disk, 'read-only');
    const first = await opened(folder);
    first.client.append([sip('before'), { kind: 'stopped', ...moment() }]);
    await first.client.close();
    mount('-o', 'remount,ro', disk);
    let second: OpenedJournal;
    try {
      const begun = performance.now();
      second = await opened(folder);
      expect(performance.now() - begun).toBeLessThan(2000);
      expect(second.found).toMatchObject({ lastSeq: 0, cleanStop: false, setAside: null });
      second.client.append([sip('kept in memory')]);
      await pause(1500);
      expect(second.client.health()).toMatchObject({ kind: 'not-recording', dropped: 0 });
      expect(second.client.durable()).toBe(0);
    } finally {
      mount('-o', 'remount,rw', disk);
    }
    await eventually(() => second.client.health().kind === 'well');
    await second.client.close();
    expect(entriesIn(folder).map(({ seq, kind, json }) => [seq, kind, json])).toEqual([
      [1, 'sip', '{"reason":"before"}'],
      [2, 'stopped', '{}'],
      [3, 'sip', '{"reason":"kept in memory"}'],
    ]);
    expect(bookPath(folder)).toContain('read-only');
  });
});
