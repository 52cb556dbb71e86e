import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import Sqlite from 'better-sqlite3';
import { afterAll, describe, expect, it } from 'vitest';
import { bookPath } from '../../../firmware-host/storage/journal/book-path.ts';
import {
  batchOf,
  bookFolderOf,
  entriesIn,
  keeperIn,
  removeBookFolders,
  writtenOf,
} from '../../support/journal-book.ts';

afterAll(removeBookFolders);

const BATCHES = 6;
const text = (seq: number): string => JSON.stringify({ reason: `entry ${seq}` });

/** A book as a kill leaves it, with the length of its log behind each acknowledged batch. */
const left = ((): { book: Buffer; log: Buffer; logBytes: readonly number[] } => {
  const folder = bookFolderOf('left');
  // Small pages make a small book, of which every byte can be tried.
  const small = new Sqlite(bookPath(folder));
  small.pragma('page_size = 512');
  small.exec('VACUUM');
  small.close();
  const keeper = keeperIn(folder);
  keeper.open(null, 0);
  const log = `${bookPath(folder)}-wal`;
  const logBytes = Array.from({ length: BATCHES }, (_, place) => {
    const seq = place + 1;
    const wrote = keeper.write(
      batchOf(seq, [writtenOf('sip', { reason: `entry ${seq}` }, seq)], { keptState: `{"seq":${seq}}` }),
    );
    expect(wrote).toEqual({ kind: 'durable' });
    return readFileSync(log).length;
  });
  // As a kill leaves it: copied while it is open.
  const found = { book: readFileSync(bookPath(folder)), log: readFileSync(log), logBytes };
  keeper.close();
  return found;
})();

interface Outcome {
  /** How many of the entries are there; they are the first ones, in order, each as it was written. */
  readonly entries: number;
  readonly setAside: boolean;
  readonly refused: string | null;
}

/** Opens a book with these bytes, goes on writing, and closes it. */
const outcomeOf = (folder: string, book: Buffer, log: Buffer | null): Outcome => {
  for (const name of readdirSync(folder)) rmSync(`${folder}/${name}`);
  writeFileSync(bookPath(folder), book);
  if (log !== null) writeFileSync(`${bookPath(folder)}-wal`, log);
  const keeper = keeperIn(folder);
  try {
    const opened = keeper.open(null, 0);
    if (opened.kind === 'refused') return { entries: 0, setAside: false, refused: opened.why };
    // Control goes on, and so does the book.
    const next = opened.lastSeq + 1;
    expect(keeper.write(batchOf(next, [writtenOf('stopped', {})]))).toEqual({ kind: 'durable' });
    const entries = entriesIn(folder);
    expect(entries.at(-1)).toMatchObject({ seq: next, kind: 'stopped' });
    if (opened.setAside !== null) {
      expect(existsSync(opened.setAside.path) || existsSync(`${opened.setAside.path}-wal`)).toBe(true);
      return { entries: 0, setAside: true, refused: null };
    }
    const before = entries.slice(0, -1);
    expect(before.map(({ seq, json }) => ({ seq, json }))).toEqual(
      before.map((_, place) => ({ seq: place + 1, json: text(place + 1) })),
    );
    expect(opened.keptState).toBe(before.length === 0 ? null : `{"seq":${before.length}}`);
    return { entries: before.length, setAside: false, refused: null };
  } finally {
    keeper.close();
  }
};

/** Some thousand books are opened, each with its migrations and checks. */
const PATIENCE = { timeout: 240_000 };

describe('a book that a kill or a power cut left', PATIENCE, () => {
  it('with its log cut at any byte of its last batch, and every 7th before, holds all that was acknowledged before the cut', () => {
    const folder = bookFolderOf('log');
    const dense = left.logBytes[BATCHES - 2] ?? 0;
    let cuts = 0;
    for (let bytes = 0; bytes <= left.log.length; bytes += bytes >= dense ? 1 : 7) {
      cuts += 1;
      const { entries, setAside, refused } = outcomeOf(folder, left.book, left.log.subarray(0, bytes));
      const acknowledged = left.logBytes.filter((end) => end <= bytes).length;
      expect({ bytes, setAside, refused, lost: Math.max(0, acknowledged - entries) }).toEqual({
        bytes,
        setAside: false,
        refused: null,
        lost: 0,
      });
    }
    expect(cuts).toBeGreaterThan(1000);
  });

  it('with the book itself cut at any 5th byte, beside its log, has all entries or is set aside', () => {
    const folder = bookFolderOf('cut');
    for (let bytes = 0; bytes < left.book.length; bytes += 5) {
      const { entries, setAside, refused } = outcomeOf(folder, left.book.subarray(0, bytes), left.log);
      expect({ bytes, refused, kept: setAside || entries === BATCHES }).toEqual({
        bytes,
        refused: null,
        kept: true,
      });
    }
  });

  it('with a bit flipped in any 7th byte of the log has the first entries unchanged or is set aside', () => {
    const folder = bookFolderOf('flipped-log');
    for (let at = 0; at < left.log.length; at += 7) {
      const log = Buffer.from(left.log);
      log[at] = (log[at] ?? 0) ^ (1 << (at % 8));
      const { entries, setAside, refused } = outcomeOf(folder, left.book, log);
      const acknowledged = left.logBytes.filter((end) => end <= at).length;
      expect({ at, refused, kept: setAside || entries >= acknowledged }).toEqual({
        at,
        refused: null,
        kept: true,
      });
    }
  });
});

describe('a book that was closed well', PATIENCE, () => {
  const whole = ((): Buffer => {
    const folder = bookFolderOf('whole');
    outcomeOf(folder, left.book, left.log);
    return readFileSync(bookPath(folder));
  })();

  it('cut at any 29th byte is set aside, and the numbers go on in a new one', () => {
    const folder = bookFolderOf('cut-whole');
    for (let bytes = 1; bytes < whole.length; bytes += 29) {
      const { setAside, refused } = outcomeOf(folder, whole.subarray(0, bytes), null);
      expect({ bytes, setAside, refused }).toEqual({ bytes, setAside: true, refused: null });
    }
  });

  it('with a bit flipped in any 5th byte never tells an entry that was not written', () => {
    const folder = bookFolderOf('flipped');
    let aside = 0;
    for (let at = 0; at < whole.length; at += 5) {
      const book = Buffer.from(whole);
      book[at] = (book[at] ?? 0) ^ (1 << (at % 8));
      // One more entry is in it: the one that was written behind the six.
      const outcome = flippedOutcome(folder, book);
      if (outcome === 'set aside') aside += 1;
      else expect({ at, outcome }).toEqual({ at, outcome: 'whole' });
    }
    expect(aside).toBeGreaterThan(100);
  });
});

const flippedOutcome = (folder: string, book: Buffer): string => {
  for (const name of readdirSync(folder)) rmSync(`${folder}/${name}`);
  writeFileSync(bookPath(folder), book);
  const keeper = keeperIn(folder);
  try {
    const opened = keeper.open(null, 0);
    if (opened.kind === 'refused') return opened.why;
    if (opened.setAside !== null) return 'set aside';
    const texts = entriesIn(folder).map(({ json }) => json);
    expect(texts).toEqual([...Array.from({ length: BATCHES }, (_, place) => text(place + 1)), '{}']);
    return 'whole';
  } finally {
    keeper.close();
  }
};
