import { rmSync, writeFileSync } from 'node:fs';
import { setTimeout as pause } from 'node:timers/promises';
import Sqlite from 'better-sqlite3';
import { afterAll, describe, expect, it } from 'vitest';
import { bookPath } from '../../firmware-host/storage/journal/book-path.ts';
import { openJournal } from '../../firmware-host/storage/journal/journal.ts';
import { monotonicMillis, wallMillis, type Now } from '../../src/time/instant.ts';
import {
  batchOf,
  bookFolderOf,
  entriesIn,
  keeperIn,
  removeBookFolders,
  writtenOf,
} from '../support/journal-book.ts';

afterAll(removeBookFolders);

const now = (): Now => ({ monotonic: monotonicMillis(performance.now()), wall: wallMillis(Date.now()) });

/** A folder whose book was left under a hold by a host that was killed. */
const left = (name: string): string => {
  const folder = bookFolderOf(name);
  const keeper = keeperIn(folder);
  keeper.open(null, 0);
  keeper.write(batchOf(1, [writtenOf('sip', { reason: 'x' })], { keptState: '{"held":1}' }));
  keeper.close();
  return folder;
};

describe('a book that does not open in time', () => {
  it('of 200 ms gives what was kept once it has opened', async () => {
    const folder = left('late');
    // Nobody else can open it for writing meanwhile.
    const other = new Sqlite(bookPath(folder));
    other.exec('BEGIN EXCLUSIVE');
    const { found, late, client } = await openJournal(folder, { now, patienceMillis: 200 });
    expect(found).toMatchObject({ keptState: null, lastSeq: 0 });
    other.exec('COMMIT');
    other.close();
    expect(await late).toMatchObject({ keptState: '{"held":1}', lastSeq: 1, cleanStop: false });
    await client.close();
  });

  it('and whose disk never answers is waited for 5 s, and the start goes on without it', async () => {
    const folder = left('hung');
    const thread = `${folder}/hung.mjs`;
    writeFileSync(
      thread,
      "import { parentPort } from 'node:worker_threads';\nparentPort.on('message', () => {});\n",
    );
    const begun = performance.now();
    const { found, late, client } = await openJournal(folder, { now, thread });
    const seconds = (performance.now() - begun) / 1000;
    expect(seconds).toBeGreaterThan(4.9);
    expect(seconds).toBeLessThan(6);
    expect(found.keptState).toBeNull();
    expect(late).not.toBeNull();
    await client.close();
  });

  it('where there was none yet kept nothing: nobody waits for it', async () => {
    const folder = bookFolderOf('first');
    const { found, late, client } = await openJournal(folder, { now, patienceMillis: 0 });
    expect(late).toBeNull();
    expect(found).toMatchObject({ keptState: null, lastEntryWall: null, setAside: null });
    await client.close();
  });

  it('for an error of the disk gives what was kept once the disk is well again, and the gap stands in the book once', async () => {
    const folder = left('refused');
    // A file where the thread looks for its folder: nothing there can be opened.
    const hidden = `${folder}/state`;
    writeFileSync(hidden, '');
    const { found, late, client } = await openJournal(hidden, { now });
    expect(found.keptState).toBeNull();
    expect(client.health()).toMatchObject({ kind: 'not-recording' });
    rmSync(hidden);
    const keeper = keeperIn(hidden);
    keeper.open(null, 0);
    keeper.write(batchOf(1, [writtenOf('sip', { reason: 'x' })], { keptState: '{"held":1}' }));
    keeper.close();
    expect(await late).toMatchObject({ keptState: '{"held":1}' });
    await pause(500);
    await client.close();
    expect(entriesIn(hidden).map(({ kind }) => kind)).toEqual(['sip', 'gap-recorded']);
  });
});
