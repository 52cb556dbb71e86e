import { createHash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import Sqlite from 'better-sqlite3';
import { afterAll, describe, expect, it } from 'vitest';
import { readBackup, writeBackup } from '../../../firmware-host/storage/journal/backup-file.ts';
import { bookPath } from '../../../firmware-host/storage/journal/book-path.ts';
import {
  batchOf,
  bookFolderOf,
  entriesIn,
  keeperIn,
  MIDNIGHT,
  removeBookFolders,
  writtenOf,
} from '../../support/journal-book.ts';

afterAll(removeBookFolders);

const HELD = '{"hold":"until 19:05"}';

/** A book of so many entries under a hold, as a kill leaves it but for one change. */
const damaged = (name: string, change: (folder: string) => void, entries = 3): string => {
  const folder = bookFolderOf(name);
  const keeper = keeperIn(folder);
  keeper.open(null, 0);
  const rows = Array.from({ length: entries }, (_, place) =>
    writtenOf('sip', { reason: `entry ${place + 1}` }, place),
  );
  rows.push(writtenOf('settings', SETTINGS, entries));
  keeper.write(batchOf(1, rows, { keptState: HELD }));
  keeper.close();
  change(folder);
  return folder;
};

/** What no other table of the book holds. */
const FARM_TEXT = 'pump: { longestOnMinutes: 45 }';
const SETTINGS = {
  file: 'hill.yaml',
  sha256: createHash('sha256').update(FARM_TEXT).digest('hex'),
  text: FARM_TEXT,
};

const asSql = (sql: string) => (folder: string) => {
  const db = new Sqlite(bookPath(folder));
  db.exec(sql);
  db.close();
};

/** Spoils the page of the file that holds this text, which only the one table has. */
const spoilPageWith = (text: string) => (folder: string) => {
  const book = readFileSync(bookPath(folder));
  const pageBytes = book.readUInt16BE(16);
  const at = book.indexOf(text);
  const from = Math.floor(at / pageBytes) * pageBytes;
  book.fill(0xff, from, from + pageBytes);
  writeFileSync(bookPath(folder), book);
};

describe('a book that is set aside', () => {
  it.each([
    [
      'one wrong byte in entry 2 of 3',
      asSql(`UPDATE entries SET json = '{"reason":"entry 3"}' WHERE seq = 2`),
    ],
    ['entry 2 of 3 gone', asSql('DELETE FROM entries WHERE seq = 2')],
    ['the whole page of its entries spoilt', spoilPageWith('entry 2')],
    [
      '45 changed to 95 in the settings in force',
      asSql(`UPDATE settings SET text = replace(text, '45', '95')`),
    ],
  ])('with %s gives on what was kept, in the new book too', (_, change) => {
    const folder = damaged('salvaged', change);
    const keeper = keeperIn(folder);
    const opened = keeper.open(null, MIDNIGHT);
    expect(opened).toMatchObject({ kind: 'open', keptState: HELD });
    expect(opened.kind === 'open' && opened.setAside?.path).toContain('book.damaged-2026-07-14');
    // Killed before its first word.
    const next = keeperIn(folder);
    expect(next.open(null, MIDNIGHT)).toMatchObject({ kind: 'open', keptState: HELD, setAside: null });
    next.close();
    keeper.close();
  });

  it('with a kept state that does not fit its sum gives on the number of its last entry, and nothing kept', () => {
    const folder = damaged('unkept', asSql(`UPDATE kept SET json = '{"hold":null}'`));
    const keeper = keeperIn(folder);
    expect(keeper.open(null, MIDNIGHT)).toMatchObject({ kind: 'open', keptState: null, lastSeq: 4 });
    expect(keeper.write(batchOf(5, [writtenOf('sip', {})]))).toEqual({ kind: 'durable' });
    keeper.close();
    expect(entriesIn(folder).map(({ seq }) => seq)).toEqual([5]);
  });
});

describe('a backup', () => {
  it('whose settings in force were changed from 45 to 95 min is refused', async () => {
    const folder = damaged('backup', () => undefined);
    const file = `${folder}/b.rillkeeper`;
    const whole = { madeAt: '2026-07-14T00:00:00.000Z', farm: 'Hill', files: [] };
    await writeBackup(bookPath(folder), file, whole, new AbortController().signal);
    expect(readBackup(file)).toMatchObject({ kind: 'good', entries: 4 });
    const db = new Sqlite(file);
    db.exec(`UPDATE settings SET text = replace(text, '45', '95')`);
    db.close();
    expect(readBackup(file)).toEqual({
      kind: 'refused',
      why: 'it is damaged: settings in force do not fit their SHA-256',
    });
  });
});
