import { statSync } from 'node:fs';
import Sqlite from 'better-sqlite3';
import { afterAll, describe, expect, it } from 'vitest';
import type { BookKeeper } from '../../../firmware-host/storage/journal/book-keeper.ts';
import { bookPath } from '../../../firmware-host/storage/journal/book-path.ts';
import {
  openForReading,
  type BookQuestion,
  type BookRow,
  type ReadableBook,
} from '../../../firmware-host/storage/journal/book-read.ts';
import type { Written } from '../../../src/journal/disk.ts';
import {
  batchOf,
  bookFolderOf,
  keeperIn,
  MIDNIGHT,
  removeBookFolders,
  writtenOf,
} from '../../support/journal-book.ts';

afterAll(removeBookFolders);

const HOUR = 3_600_000;
const ALL: BookQuestion = { from: null, to: null, kinds: [] };
const MEGABYTE = 1024 ** 2;

const sip = (hours: number): Written => writtenOf('sip', { reason: 'x' }, hours * HOUR);
const undated = (): Written => ({ ...sip(0), wall: 'unknown' });

const beside = (name: string, entries: readonly Written[]): [BookKeeper, ReadableBook, string] => {
  const folder = bookFolderOf(name);
  const keeper = keeperIn(folder);
  keeper.open(null, 0);
  keeper.write(batchOf(1, entries));
  const found = openForReading(bookPath(folder));
  if (found.kind !== 'open') throw new Error(found.kind);
  return [keeper, found.book, folder];
};

const numbers = (rows: Iterable<BookRow>): readonly number[] => [...rows].map(({ number }) => number);

describe('a listing that stands open', () => {
  it('beside a host that writes 40 MB lets its log be carried over into the book', () => {
    const [keeper, book, folder] = beside(
      'open',
      Array.from({ length: 5000 }, () => sip(1)),
    );
    const rows = book.rows(ALL);
    expect(rows.next().value?.number).toBe(1);
    for (let write = 0; write < 200; write += 1) {
      const keptState = `{"kept":"${String(write).repeat(200_000 / String(write).length)}"}`;
      expect(keeper.write(batchOf(5001, [], { keptState }))).toEqual({ kind: 'durable' });
    }
    expect(statSync(`${bookPath(folder)}-wal`).size).toBeLessThan(8 * MEGABYTE);
    expect(numbers(rows)).toHaveLength(4999);
    book.close();
    keeper.close();
  });

  it('tells each of 5000 rows once and in order, none that is written meanwhile, and none that went before it was read', () => {
    const [keeper, book, folder] = beside(
      'order',
      Array.from({ length: 5000 }, () => sip(1)),
    );
    const rows = book.rows(ALL);
    expect(rows.next().value?.number).toBe(1);
    const db = new Sqlite(bookPath(folder));
    db.exec('DELETE FROM entries WHERE seq <= 3000');
    db.close();
    keeper.write(batchOf(5001, [sip(1), sip(1)]));
    const told = numbers(rows);
    expect(told).toEqual([
      ...Array.from({ length: 1999 }, (_, place) => place + 2),
      ...Array.from({ length: 2000 }, (_, place) => place + 3001),
    ]);
    expect(numbers(book.rows(ALL)).at(-1)).toBe(5002);
    book.close();
    keeper.close();
  });
});

describe('entries of an unknown time', () => {
  /** Numbers 3, 4 and 7 know no time. */
  const entries = [sip(0), sip(1), undated(), undated(), sip(2), sip(3), undated()];

  it.each([
    ['from the second hour on are those between and behind', 1, null, [2, 3, 4, 5, 6, 7]],
    ['from the third hour on are those behind', 2, null, [5, 6, 7]],
    ['from later than the last time on are those behind it and no older ones', 100, null, [7]],
    ['up to the third hour are those between', 0, 2, [1, 2]],
    ['up to the fourth hour are those between', 0, 3, [1, 2, 3, 4, 5]],
    ['of hours of which nothing is known are none', 100, 200, []],
    ['of all times are all', null, null, [1, 2, 3, 4, 5, 6, 7]],
  ] as const)('%s', (_, from, to, told) => {
    const [keeper, book] = beside('undated', entries);
    const at = (hours: number | null): number | null => (hours === null ? null : MIDNIGHT + hours * HOUR);
    expect(numbers(book.rows({ from: at(from), to: at(to), kinds: [] }))).toEqual(told);
    book.close();
    keeper.close();
  });

  it('before the first known one are told where nothing bounds the question', () => {
    const [keeper, book] = beside('undated-first', [undated(), sip(1)]);
    expect(numbers(book.rows(ALL))).toEqual([1, 2]);
    book.close();
    keeper.close();
  });
});
