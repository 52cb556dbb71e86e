import { mkdirSync } from 'node:fs';
import { dirname } from 'node:path';
import Sqlite, { type Database } from 'better-sqlite3';
import type { Batch, SetAside } from '../../../src/journal/disk.ts';
import { bookBytes, versionInHeader, wrongAtAGlance, wrongBeforeOpening, wrongInside } from './book-check.ts';
import { bookWriter, keepIn } from './book-write.ts';
import { foundIn, lastWritten, type FoundInBook } from './found.ts';
import { BOOK_VERSION, migrate, newerWords, versionOf } from './migrations.ts';
import { leftIn } from './salvage.ts';
import { setAside } from './set-aside.ts';

export interface BookAsked {
  readonly path: string;
  /** The last number that is known to have been written; 0 where none is. */
  readonly lastSeq: number;
  /**
   * At the `first` opening a book that is not soon read is believed for now; `again`, after an error, SQLite's own check
   * goes before. Its rows take longer than the host may wait for its journal: they are left to be checked in steps.
   */
  readonly opening: 'first' | 'again';
  /** How much a book that is soon read, with all its rows, has at most. */
  readonly shortBytes: number;
  /** What a check in steps found wrong with it; null where nothing is known. */
  readonly damage: string | null;
  /** Tells the monotonic clocks of different starts apart. */
  readonly boot: string;
  /** For the name of a file that is set aside. */
  readonly nowMillis: number;
}

/** A book that is open for writing, its rows checked where it is short. */
export interface OpenBook {
  readonly db: Database;
  readonly lastSeq: number;
  readonly found: FoundInBook;
  readonly write: (batch: Batch) => void;
  readonly checked: boolean;
  readonly setAside: SetAside | null;
  readonly close: () => void;
}

export type OpenedBook =
  { readonly kind: 'open'; readonly book: OpenBook } | { readonly kind: 'refused'; readonly why: string };

/** Read within half a second from a slow card (common practice, no source: 40 MB/s). */
export const SHORT_BYTES = 20 * 1024 ** 2;
/** The log is cut back to this after it was carried over into the book. */
const LOG_BYTES_MAX = 4 * 1024 ** 2;
/** Readers hold a lock for moments only. */
const BUSY_MILLIS = 5000;

/** Codes of SQLite that tell of the file and not of the disk. */
export const isDamage = (error: unknown): boolean =>
  error instanceof Sqlite.SqliteError &&
  /^SQLITE_(CORRUPT|NOTADB|ERROR|MISMATCH|CONSTRAINT)/.test(error.code);

export const whyOf = (error: unknown): string => {
  if (error instanceof Sqlite.SqliteError) return `${error.message} (${error.code})`;
  return error instanceof Error ? error.message : String(error);
};

/** What is wrong with a book, as an error of our own. */
class DamagedBook extends Error {
  override readonly name = 'DamagedBook';
}

/** A later version of this program wrote it. */
class NewerBook extends Error {
  override readonly name = 'NewerBook';
}

/** Opens the book of a folder, or begins one. One that cannot be believed is set aside, never deleted; neither is one from a later version. */
export const openBook = (asked: BookAsked): OpenedBook => {
  const { path, lastSeq, nowMillis } = asked;
  try {
    mkdirSync(dirname(path), { recursive: true });
    try {
      return { kind: 'open', book: opened(asked, null) };
    } catch (error) {
      const isLater = error instanceof NewerBook;
      if (!isLater && !(error instanceof DamagedBook) && !isDamage(error)) throw error;
      // What it still says, such as a person's hold, counts on: hands may be in the water.
      const left = leftIn(path);
      const aside = {
        path: setAside(path, isLater ? 'later' : 'damaged', nowMillis),
        why: whyOf(error),
      };
      const book = opened({ ...asked, lastSeq: Math.max(lastSeq, left.lastSeq), damage: null }, aside);
      // At once: a kill before the host's first word must not forget it after all.
      if (left.found.keptState !== null) keepIn(book.db, left.found.keptState);
      return { kind: 'open', book: { ...book, found: left.found } };
    }
  } catch (error) {
    return { kind: 'refused', why: whyOf(error) };
  }
};

const opened = (asked: BookAsked, aside: SetAside | null): OpenBook => {
  const { path, lastSeq, boot, opening } = asked;
  const wrong = asked.damage ?? wrongBeforeOpening(path);
  if (wrong !== null) throw new DamagedBook(wrong);
  const header = versionInHeader(path);
  if (header > BOOK_VERSION) throw new NewerBook(newerWords('it', header));
  const short = bookBytes(path) <= asked.shortBytes;
  const db = new Sqlite(path, { timeout: BUSY_MILLIS });
  let second: Database | null = null;
  const close = (): void => {
    db.close();
    second?.close();
  };
  try {
    const version = versionOf(db);
    if (version > BOOK_VERSION) throw new NewerBook(newerWords('it', version));
    if (version === 0) db.pragma('auto_vacuum = INCREMENTAL');
    db.pragma('journal_mode = WAL');
    // Each commit is on the disk before it is acknowledged, power cut or not: https://www.sqlite.org/pragma.html#pragma_synchronous
    db.pragma('synchronous = FULL');
    db.pragma(`journal_size_limit = ${LOG_BYTES_MAX}`);
    if (version > 0) {
      const found = short ? wrongInside(db) : opening === 'again' ? wrongAtAGlance(db) : null;
      if (found !== null) throw new DamagedBook(found);
    }
    migrate(db);
    db.prepare('INSERT OR IGNORE INTO begun VALUES (1, ?)').run(lastSeq);
    const last = lastWritten(db);
    if (last < lastSeq)
      throw new DamagedBook(`it ends with entry ${last}, but entry ${lastSeq} was on the disk already`);
    if (opening === 'again') {
      // After a write that failed, the log may be readable from memory and not be on the disk. Carried over into the
      // book it is written anew, and a disk that cannot says so.
      db.pragma('wal_checkpoint(TRUNCATE)');
    }
    // While it is open the first one, closed after an error, carries nothing over from a log that may not be on the disk.
    second = new Sqlite(path, { readonly: true });
    second.prepare('SELECT 1 FROM begun').get();
    // Prepared here: a table whose words are damaged cannot be written to.
    const write = bookWriter(db, boot);
    return { db, lastSeq: last, found: foundIn(db), write, checked: short, setAside: aside, close };
  } catch (error) {
    close();
    throw error;
  }
};
