import { readFileSync, writeFileSync } from 'node:fs';
import Sqlite from 'better-sqlite3';
import { afterAll, describe, expect, it } from 'vitest';
import type { BookKeeper } from '../../../firmware-host/storage/journal/book-keeper.ts';
import { bookPath } from '../../../firmware-host/storage/journal/book-path.ts';
import type { Limits } from '../../../firmware-host/storage/journal/retention.ts';
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
const ENTRIES = 95;
const READINGS = 45;
/** More than any check here takes. */
const STEPS_MAX = 100;
const HELD = '{"held":1}';

/** An entry a tenth of a day, so that ten stand on each. */
const sips = (from: number, count: number): ReturnType<typeof writtenOf>[] =>
  Array.from({ length: count }, (_, place) =>
    writtenOf('sip', { reason: `entry ${from + place}` }, ((from + place - 1) * DAY) / 10),
  );

const change = (folder: string, sql: string): void => {
  const db = new Sqlite(bookPath(folder));
  db.exec(sql);
  db.close();
};

/** A book of 95 entries and 45 readings on small pages, open, with so much of it damaged. */
const opened = (damage: (folder: string) => void, limits: Partial<Limits> = {}): [BookKeeper, string] => {
  const folder = bookFolderOf('large');
  change(folder, 'PRAGMA page_size = 512; VACUUM');
  const first = keeperIn(folder);
  first.open(null, 0);
  const readings = Array.from({ length: READINGS }, (_, id) => writtenOf('reading', { value: id + 1 }));
  first.write(batchOf(1, sips(1, ENTRIES), { readings, keptState: HELD }));
  first.close();
  damage(folder);
  const keeper = keeperIn(folder, limits, { shortBytes: 0, rowsAStep: 10 });
  expect(keeper.open(null, MIDNIGHT)).toMatchObject({ kind: 'open', lastSeq: ENTRIES, setAside: null });
  return [keeper, folder];
};

const asSql = (sql: string) => (folder: string) => {
  change(folder, sql);
};

/** After how many steps, with a write behind each, a write tells of damage; null where none does until all is done. */
const toldAfter = (keeper: BookKeeper): { readonly steps: number; readonly why: string } | null => {
  for (let steps = 1; steps <= STEPS_MAX && keeper.tend() === 'did-some'; steps += 1) {
    const wrote = keeper.write(batchOf(ENTRIES + 1, [], { keptState: HELD }));
    if (wrote.kind !== 'durable') return { steps, why: wrote.why };
  }
  return null;
};

/** Spoils the tree of a table; `children` are the places in the file at which its first page names others. */
const onPages =
  (table: string, spoil: (book: Buffer, children: readonly number[], pageBytes: number) => void) =>
  (folder: string): void => {
    const db = new Sqlite(bookPath(folder), { readonly: true });
    const root = Number(db.prepare('SELECT rootpage FROM sqlite_schema WHERE name = ?').pluck().get(table));
    db.close();
    const book = readFileSync(bookPath(folder));
    const pageBytes = book.readUInt16BE(16);
    const at = (root - 1) * pageBytes;
    // https://www.sqlite.org/fileformat2.html, 1.6: an interior page of a table, its cells begin with a page each.
    expect(book[at]).toBe(5);
    const children = Array.from({ length: book.readUInt16BE(at + 3) }, (_, cell) => {
      return at + book.readUInt16BE(at + 12 + 2 * cell);
    });
    spoil(book, children, pageBytes);
    writeFileSync(bookPath(folder), book);
  };

const lastPageSpoilt = onPages('readings', (book, children, pageBytes) => {
  const page = book.readUInt32BE(children.at(-1));
  book.fill(0xff, (page - 1) * pageBytes, page * pageBytes);
});

describe('a large book is checked in steps of 10 rows', () => {
  it('one that is whole is through after 21 steps with an entry and a reading written behind each, all on the disk at once', () => {
    const [keeper, folder] = opened(() => undefined);
    let seq = ENTRIES;
    let steps = 0;
    for (; steps <= STEPS_MAX && keeper.tend() === 'did-some'; steps += 1) {
      seq += 1;
      const readings = [writtenOf('reading', { value: seq })];
      expect(keeper.write(batchOf(seq, sips(seq, 1), { readings }))).toEqual({ kind: 'durable' });
      expect(entriesIn(folder).at(-1)?.seq).toBe(seq);
    }
    // One for the short tables, 11 for entries, 7 for readings, one for settings, and one that ends it.
    expect(steps).toBe(21);
    expect(keeper.write(batchOf(seq + 1, sips(seq + 1, 1)))).toEqual({ kind: 'durable' });
    keeper.close();
  });

  it.each([1, 10, 11, 35, 90, 91, 95])(
    'entry %i with one wrong word is told by the step that comes to its ten, and by none before',
    (seq) => {
      const [keeper] = opened(asSql(`UPDATE entries SET json = '{"reason":"x"}' WHERE seq = ${seq}`));
      expect(toldAfter(keeper)).toEqual({
        steps: 1 + Math.ceil(seq / 10),
        why: `entry ${seq} does not fit its check sum`,
      });
      keeper.close();
    },
  );

  it.each([1, 20, 45])('so is reading %i', (id) => {
    const [keeper] = opened(asSql(`UPDATE readings SET json = '{"value":0}' WHERE id = ${id}`));
    expect(toldAfter(keeper)).toEqual({
      steps: 11 + Math.ceil(id / 10),
      why: `reading ${id} does not fit its check sum`,
    });
    keeper.close();
  });

  it.each([
    ['entry 35 is gone from the middle of a step', 'DELETE FROM entries WHERE seq = 35', 5],
    ['entry 31 is gone from between two steps', 'DELETE FROM entries WHERE seq = 31', 5],
    ['entries 11 to 90 are gone', 'DELETE FROM entries WHERE seq BETWEEN 11 AND 90', 3],
  ])('where %s it tells that entries are missing', (_, sql, steps) => {
    const [keeper] = opened(asSql(sql));
    expect(toldAfter(keeper)).toEqual({ steps, why: 'entries are missing between others' });
    keeper.close();
  });

  it('a kept state and a text of settings that do not fit their sums are told in the first and the last', () => {
    const [kept] = opened(asSql(`UPDATE kept SET json = '{}'`));
    expect(toldAfter(kept)).toEqual({ steps: 1, why: 'the kept state does not fit its check sum' });
    kept.close();
    const [settings] = opened(asSql(`INSERT INTO settings VALUES ('00', NULL, 'farm.yaml', 'x')`));
    expect(toldAfter(settings)).toEqual({ steps: 17, why: 'settings in force do not fit their SHA-256' });
    settings.close();
  });

  it('a page that cannot be read is told, and opened anew the book is set aside and its kept state goes on', () => {
    const [keeper] = opened(lastPageSpoilt);
    expect(toldAfter(keeper)?.why).toContain('SQLITE_CORRUPT');
    const again = keeper.open(ENTRIES, MIDNIGHT);
    expect(again).toMatchObject({ kind: 'open', lastSeq: ENTRIES, keptState: HELD });
    expect(again.kind === 'open' && again.setAside?.path).toContain('book.damaged-2026-07-14');
    expect(keeper.tend()).toBe('nothing-to-do');
    keeper.close();
  });

  it('opened anew after an error it is checked in steps again, and what they find is known at the next opening', () => {
    const [keeper] = opened(asSql(`UPDATE readings SET json = '{"value":0}' WHERE id = 45`));
    const why = 'reading 45 does not fit its check sum';
    for (let time = 0; time < 2; time += 1) {
      expect(keeper.open(ENTRIES, MIDNIGHT)).toMatchObject({ kind: 'open', setAside: null });
    }
    expect(toldAfter(keeper)).toEqual({ steps: 16, why });
    const last = keeper.open(ENTRIES, MIDNIGHT);
    expect(last).toMatchObject({ kind: 'open', lastSeq: ENTRIES, keptState: HELD, setAside: { why } });
    expect(keeper.write(batchOf(ENTRIES + 1, sips(ENTRIES + 1, 1)))).toEqual({ kind: 'durable' });
    expect(keeper.open(ENTRIES + 1, MIDNIGHT)).toMatchObject({ kind: 'open', setAside: null });
    keeper.close();
  });

  it('opened anew after an error a page that cannot be read is found at once', () => {
    const [keeper] = opened(lastPageSpoilt);
    const again = keeper.open(ENTRIES, MIDNIGHT);
    expect(again.kind === 'open' && again.setAside?.why).toContain('*** in database main ***');
    keeper.close();
  });

  it('a page of readings that stands twice in its tree is told, and does not lead round and round', () => {
    const [keeper] = opened(
      onPages('readings', (book, children) => {
        book.writeUInt32BE(book.readUInt32BE(children[0]), children[1]);
      }),
    );
    expect(toldAfter(keeper)?.why).toBe('rows of the book are out of order');
    keeper.close();
  });

  it('days that go for their age while entry 20 is the last one seen, up to entry 80, leave no gap', () => {
    const [keeper, folder] = opened(() => undefined, { entryDays: 10 });
    for (let steps = 0; steps < 3; steps += 1) expect(keeper.tend()).toBe('did-some');
    expect(entriesIn(folder)[0]?.seq).toBe(1);
    expect(keeper.write(batchOf(96, sips(96, 85)))).toEqual({ kind: 'durable' });
    let steps = 0;
    while (steps < STEPS_MAX && keeper.tend() === 'did-some') {
      steps += 1;
      expect(keeper.write(batchOf(180 + steps, sips(180, 1)))).toEqual({ kind: 'durable' });
    }
    expect(entriesIn(folder)[0]?.seq).toBe(81);
    expect(steps).toBeGreaterThan(10);
    expect(steps).toBeLessThan(STEPS_MAX);
    keeper.close();
  });

  it('a gap behind what went for its age is still told', () => {
    const [keeper, folder] = opened(asSql('DELETE FROM entries WHERE seq = 92'), { entryDays: 10 });
    for (let steps = 0; steps < 3; steps += 1) keeper.tend();
    keeper.write(batchOf(96, sips(96, 85)));
    expect(toldAfter(keeper)?.why).toBe('entries are missing between others');
    expect(entriesIn(folder)[0]?.seq).toBe(81);
    keeper.close();
  });
});
