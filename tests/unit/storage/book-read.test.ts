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

const sip = (hours: number): Written => writtenOf('sip', { reason: 'x' }, hours * HOUR);
const undated = (): Written => ({ ...sip(0), wall: 'unknown' });

const beside = (name: string, entries: readonly Written[]): [BookKeeper, ReadableBook] => {
  const folder = bookFolderOf(name);
  const keeper = keeperIn(folder);
  keeper.open(null, 0);
  keeper.write(batchOf(1, entries));
  const found = openForReading(bookPath(folder));
  if (found.kind !== 'open') throw new Error(found.kind);
  return [keeper, found.book];
};

const numbers = (rows: Iterable<BookRow>): readonly number[] => [...rows].map(({ number }) => number);

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
