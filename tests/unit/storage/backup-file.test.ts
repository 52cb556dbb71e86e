import { spawnSync } from 'node:child_process';
import { readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setImmediate as nextTurn } from 'node:timers/promises';
import { afterAll, describe, expect, it } from 'vitest';
import { readBackup, writeBackup } from '../../../firmware-host/storage/journal/backup-file.ts';
import type { BookKeeper } from '../../../firmware-host/storage/journal/book-keeper.ts';
import { bookPath } from '../../../firmware-host/storage/journal/book-path.ts';
import { batchOf, bookFolderOf, keeperIn, removeBookFolders, writtenOf } from '../../support/journal-book.ts';

afterAll(removeBookFolders);

const BACKUP = { madeAt: '2026-07-14T00:00:00.000Z', farm: 'Hill', files: [] };
const NEVER = new AbortController().signal;
const ENTRIES = 6000;

/** A host with a book of 1 MB in hand: three times what is copied in one step, and checked in four. */
const beside = (name: string): { readonly folder: string; readonly keeper: BookKeeper } => {
  const folder = bookFolderOf(name);
  const keeper = keeperIn(folder);
  keeper.open(null, 0);
  const sips = Array.from({ length: ENTRIES }, (_, place) =>
    writtenOf('sip', { reason: `entry ${place + 1} ${'of the book '.repeat(8)}` }, place),
  );
  keeper.write(batchOf(1, sips));
  return { folder, keeper };
};

describe('a backup beside a host', () => {
  it('that writes between any two of its steps holds the 6000 entries that were there when it began', async () => {
    const { folder, keeper } = beside('writing');
    const to = join(folder, 'b.rillkeeper');
    let done = false;
    const host = async (): Promise<number> => {
      let writes = 0;
      while (!done) {
        await nextTurn();
        writes += 1;
        expect(keeper.write(batchOf(ENTRIES + writes, [writtenOf('sip', {})]))).toEqual({ kind: 'durable' });
      }
      return writes;
    };
    const [writes] = await Promise.all([
      host(),
      writeBackup(bookPath(folder), to, BACKUP, NEVER).finally(() => {
        done = true;
      }),
    ]);
    expect(writes).toBeGreaterThan(5);
    expect(readBackup(to)).toMatchObject({ kind: 'good', entries: ENTRIES });
    keeper.close();
  });

  it.each([1, 3, 5, 8])('that is ended after %i turns leaves nothing', async (turns) => {
    const { folder, keeper } = beside('ended');
    const before = readdirSync(folder);
    const stop = new AbortController();
    const written = writeBackup(bookPath(folder), join(folder, 'b.rillkeeper'), BACKUP, stop.signal);
    const told = expect(written).rejects.toThrow('Ctrl-C');
    for (let turn = 0; turn < turns; turn += 1) await nextTurn();
    stop.abort(new Error('Ctrl-C'));
    await told;
    expect(readdirSync(folder)).toEqual(before);
    keeper.close();
  });

  it('removes what a killed one left under any name of that ending, and nothing of one that still runs', async () => {
    const { folder, keeper } = beside('left');
    const { pid } = spawnSync('true');
    const left = [`a.rillkeeper.${pid}.new`, `a.rillkeeper.${pid}.new-journal`, `b.rillkeeper.${pid}.new`];
    const others = [
      `a.rillkeeper.${process.ppid}.new`,
      `notes.${pid}.new`,
      'c.rillkeeper',
      'c.rillkeeper.new',
    ];
    for (const name of [...left, ...others]) writeFileSync(join(folder, name), '');
    await writeBackup(bookPath(folder), join(folder, 'b.rillkeeper'), BACKUP, NEVER);
    const names = readdirSync(folder);
    expect(names).toEqual(expect.arrayContaining([...others, 'b.rillkeeper']));
    expect(left.filter((name) => names.includes(name))).toEqual([]);
    keeper.close();
  });
});
