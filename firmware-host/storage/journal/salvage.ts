import Sqlite, { type Database } from 'better-sqlite3';
import { isKeptWhole } from './book-check.ts';
import { keptIn, lastEntryIn, lastWritten, type FoundInBook } from './found.ts';

/** What a book that is set aside still says. */
export interface Left {
  /** 0 where it says nothing: the new book then begins where the host last knew. */
  readonly lastSeq: number;
  readonly found: FoundInBook;
}

/** Of the parts of a damaged book each is read for itself: one that cannot be read takes no other with it. */
const readOr = <Part>(part: () => Part, unread: Part): Part => {
  try {
    return part();
  } catch {
    // A damaged page, or tables of a later version: the caller says what is known then.
    return unread;
  }
};

const NOTHING: Left = {
  lastSeq: 0,
  found: { cleanStop: false, lastEntryWall: null, keptState: null },
};

const lastSeqIn = (db: Database): number => {
  const last = lastWritten(db);
  return Number.isSafeInteger(last) && last > 0 ? last : 0;
};

/**
 * As far as a book that cannot be believed as a whole can be read; the kept state only where it fits its own check sum.
 * Changes nothing in it.
 */
export const leftIn = (path: string): Left =>
  readOr(() => {
    const db = new Sqlite(path, { readonly: true, fileMustExist: true });
    try {
      return {
        lastSeq: readOr(() => lastSeqIn(db), 0),
        found: {
          ...readOr(() => lastEntryIn(db), { cleanStop: false, lastEntryWall: null }),
          keptState: readOr(() => (isKeptWhole(db) ? keptIn(db) : null), null),
        },
      };
    } finally {
      db.close();
    }
  }, NOTHING);
