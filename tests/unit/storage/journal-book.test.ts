import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { afterAll, describe, expect, it } from 'vitest';
import { openForReading } from '../../../firmware-host/storage/journal/book-read.ts';
import { bookPath } from '../../../firmware-host/storage/journal/book-path.ts';
import { BOOK_VERSION, migrate, versionOf } from '../../../firmware-host/storage/journal/migrations.ts';
import { rowSum } from '../../../firmware-host/storage/journal/row-sum.ts';
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

const DAY = 86_400_000;
const sip = (reason: string, millis = 0): ReturnType<typeof writtenOf> =>
  writtenOf('sip', { reason }, millis);

describe('the book', () => {
  it('gives two rows that differ in one letter two sums', () => {
    expect(rowSum(1, null, 'a')).toBe(rowSum(1, null, 'a'));
    expect(rowSum(1, null, 'a')).not.toBe(rowSum(1, null, 'b'));
  });

  it('brings a book of version 1 with 3 entries to version 2, and tells the days of record', () => {
    const folder = bookFolderOf('version-1');
    const old = new Sqlite(bookPath(folder));
    migrate(old, 1);
    old.prepare('INSERT INTO begun VALUES (1, 0)').run();
    const insert = old.prepare('INSERT INTO entries VALUES (?, ?, ?, ?, ?, ?, ?)');
    [0, DAY, DAY + 1000].forEach((millis, place) => {
      const row = [place + 1, MIDNIGHT + millis, millis, 'boot', 'sip', '{"reason":"old"}'] as const;
      insert.run(...row, rowSum(...row));
    });
    expect(versionOf(old)).toBe(1);
    old.close();
    const keeper = keeperIn(folder);
    expect(keeper.open(null, 0)).toMatchObject({ kind: 'open', lastSeq: 3, setAside: null });
    expect(keeper.write(batchOf(4, [sip('new')]))).toEqual({ kind: 'durable' });
    keeper.close();
    const db = new Sqlite(bookPath(folder), { readonly: true });
    expect(versionOf(db)).toBe(BOOK_VERSION);
    expect(db.prepare('SELECT first_seq FROM days ORDER BY first_seq').pluck().all()).toEqual([1, 2]);
    db.close();
  });

  it('of a later version is set aside under a name that says so, not one byte of it changed, and a new one goes on from its last number and its kept state', () => {
    const folder = bookFolderOf('later');
    const first = keeperIn(folder);
    first.open(null, 0);
    first.write(batchOf(1, [sip('a'), sip('b')], { keptState: '{"held":1}' }));
    first.close();
    const later = new Sqlite(bookPath(folder));
    later.exec('CREATE TABLE added (id INTEGER)');
    later.pragma('user_version = 99');
    later.pragma('wal_checkpoint(TRUNCATE)');
    later.close();
    const sumOf = (path: string): string => createHash('sha256').update(readFileSync(path)).digest('hex');
    const before = sumOf(bookPath(folder));
    const keeper = keeperIn(folder);
    const opened = keeper.open(null, MIDNIGHT);
    const aside = join(folder, 'book.later-2026-07-14T00-00-00Z.sqlite');
    expect(opened).toMatchObject({
      kind: 'open',
      lastSeq: 2,
      keptState: '{"held":1}',
      lastEntryWall: MIDNIGHT,
      setAside: { path: aside },
    });
    expect(opened.kind === 'open' && opened.setAside?.why).toContain(
      'a later version of rillkeeper (book version 99, this one knows 2)',
    );
    expect(sumOf(aside)).toBe(before);
    expect(keeper.write(batchOf(3, [sip('c')]))).toEqual({ kind: 'durable' });
    keeper.close();
    expect(entriesIn(folder).map(({ seq }) => seq)).toEqual([3]);
  });

  it.each([
    ['whose kept state does not fit its sum', "UPDATE kept SET json = '{}'"],
    ['whose tables are others', 'DROP TABLE kept'],
  ])('of a later version %s is set aside as well, and nothing is known of before', (_, change) => {
    const folder = bookFolderOf('later-odd');
    const first = keeperIn(folder);
    first.open(null, 0);
    first.write(batchOf(1, [sip('a')], { keptState: '{"held":1}' }));
    first.close();
    const later = new Sqlite(bookPath(folder));
    later.exec(change);
    later.pragma('user_version = 99');
    later.close();
    const keeper = keeperIn(folder);
    expect(keeper.open(null, 0)).toMatchObject({
      kind: 'open',
      lastSeq: 1,
      keptState: null,
      cleanStop: false,
    });
    keeper.close();
  });

  it('tells the next host how it was left: last number, clean stop, state', () => {
    const folder = bookFolderOf('found');
    const first = keeperIn(folder);
    expect(first.open(null, 0)).toMatchObject({
      lastSeq: 0,
      cleanStop: false,
      lastEntryWall: null,
      keptState: null,
    });
    first.write(batchOf(1, [sip('a'), writtenOf('stopped', {}, 5000)], { keptState: '{"held":1}' }));
    first.close();
    const second = keeperIn(folder);
    expect(second.open(null, 0)).toMatchObject({
      lastSeq: 2,
      cleanStop: true,
      lastEntryWall: MIDNIGHT + 5000,
      keptState: '{"held":1}',
    });
    second.close();
  });

  it('keeps the text of a farm file once for 3 starts, and gives it back with each', () => {
    const folder = bookFolderOf('settings');
    const keeper = keeperIn(folder);
    keeper.open(null, 0);
    const text = 'farm: Ribeira';
    const sha256 = createHash('sha256').update(text).digest('hex');
    const settings = writtenOf('settings', { file: 'farm.yaml', sha256, text });
    keeper.write(batchOf(1, [settings, settings, settings]));
    const found = openForReading(bookPath(folder));
    if (found.kind !== 'open') throw new Error('not open');
    const texts = [...found.book.rows({ from: null, to: null, kinds: [] })].map(({ entry }) => entry);
    expect(texts).toHaveLength(3);
    expect(texts[2]).toMatchObject({ kind: 'settings', file: 'farm.yaml', text: 'farm: Ribeira' });
    found.book.close();
    keeper.close();
    const db = new Sqlite(bookPath(folder), { readonly: true });
    expect(db.prepare('SELECT count(*) FROM settings').pluck().get()).toBe(1);
    db.close();
  });

  it('is read beside the writer: 200 times between writes, each time a whole number of batches', () => {
    const folder = bookFolderOf('reader');
    const keeper = keeperIn(folder);
    keeper.open(null, 0);
    keeper.write(batchOf(1, [sip('a'), sip('b'), sip('c')]));
    const found = openForReading(bookPath(folder));
    if (found.kind !== 'open') throw new Error('not open');
    for (let batch = 1; batch <= 200; batch += 1) {
      const rows = [...found.book.rows({ from: null, to: null, kinds: [] })];
      expect(rows).toHaveLength(3 * batch);
      // A reader in the middle of a row holds up no write.
      const half = found.book.rows({ from: null, to: null, kinds: [] });
      half.next();
      expect(keeper.write(batchOf(3 * batch + 1, [sip('a'), sip('b'), sip('c')]))).toEqual({
        kind: 'durable',
      });
      half.return();
    }
    found.book.close();
    keeper.close();
  });
});

describe('what is old goes', () => {
  const tendAll = (keeper: ReturnType<typeof keeperIn>): number => {
    let longest = 0;
    for (let steps = 0; steps < 10_000; steps += 1) {
      const begun = performance.now();
      const did = keeper.tend();
      longest = Math.max(longest, performance.now() - begun);
      if (did === 'nothing-to-do') break;
    }
    return longest;
  };

  it('by days of record: of 10 days the newest 4 stay, and a clock wrong by 70 years costs no more than one of them', () => {
    const folder = bookFolderOf('days');
    const keeper = keeperIn(folder, { entryDays: 4, readingDays: 2 });
    keeper.open(null, 0);
    for (let day = 0; day < 10; day += 1) {
      keeper.write(
        batchOf(day + 1, [sip(`day ${day}`, day * DAY)], { readings: [writtenOf('reading', {}, day * DAY)] }),
      );
    }
    keeper.write(batchOf(11, [sip('wrong clock', 70 * 365 * DAY)]));
    tendAll(keeper);
    expect(entriesIn(folder).map(({ seq }) => seq)).toEqual([8, 9, 10, 11]);
    keeper.close();
  });

  it('by size: a book of 3 MB under a limit of 1 MB gives up the oldest readings first, in steps, and shrinks', () => {
    const folder = bookFolderOf('size');
    const keeper = keeperIn(folder, { megabytes: 1 });
    keeper.open(null, 0);
    const long = { channel: 'air', text: 'x'.repeat(200) };
    for (let batch = 0; batch < 10; batch += 1) {
      keeper.write(
        batchOf(
          batch * 100 + 1,
          Array.from({ length: 100 }, () => sip('entry', batch)),
          {
            readings: Array.from({ length: 1000 }, () => writtenOf('reading', long, batch)),
          },
        ),
      );
    }
    const longest = tendAll(keeper);
    keeper.close();
    expect(entriesIn(folder)).toHaveLength(1000);
    const bytes = readFileSync(bookPath(folder)).length;
    expect(bytes).toBeLessThan(3 * 1024 ** 2);
    // No write waits longer than for one step.
    expect(longest).toBeLessThan(500);
  });
});
