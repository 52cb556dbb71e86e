import type { Database } from 'better-sqlite3';

/** Each brings the book from the version before to its own place in this list, in a transaction of its own. */
const MIGRATIONS: readonly string[] = [
  // 1: `wall` is UTC in milliseconds, null where no clock was believed; `at` is monotonic on the clock of `boot`.
  // `sum` is the CRC-32 of the row, since SQLite itself has no check on what a row says.
  `CREATE TABLE entries (
     seq INTEGER PRIMARY KEY, wall INTEGER, at REAL NOT NULL, boot TEXT NOT NULL,
     kind TEXT NOT NULL, json TEXT NOT NULL, sum INTEGER NOT NULL
   ) STRICT;
   CREATE TABLE readings (
     id INTEGER PRIMARY KEY, wall INTEGER, at REAL NOT NULL, boot TEXT NOT NULL,
     json TEXT NOT NULL, sum INTEGER NOT NULL
   ) STRICT;
   CREATE TABLE settings (
     sha256 TEXT PRIMARY KEY, wall INTEGER, file TEXT NOT NULL, text TEXT NOT NULL
   ) STRICT;
   CREATE TABLE kept (id INTEGER PRIMARY KEY CHECK (id = 1), json TEXT NOT NULL, sum INTEGER NOT NULL) STRICT;
   CREATE TABLE begun (id INTEGER PRIMARY KEY CHECK (id = 1), behind_seq INTEGER NOT NULL) STRICT;`,
  // 2: the days on which something was written, so that what is old goes by days of record and not by the date: a
  // clock that is wrong by years must not empty the book.
  `CREATE TABLE days (day INTEGER PRIMARY KEY, first_seq INTEGER, first_reading INTEGER) STRICT;
   INSERT INTO days
     SELECT day, min(first_seq), min(first_reading) FROM (
       SELECT wall / 86400000 AS day, min(seq) AS first_seq, NULL AS first_reading
         FROM entries WHERE wall IS NOT NULL GROUP BY 1
       UNION ALL
       SELECT wall / 86400000, NULL, min(id) FROM readings WHERE wall IS NOT NULL GROUP BY 1
     ) GROUP BY day;`,
];

export const BOOK_VERSION = MIGRATIONS.length;

export const versionOf = (db: Database): number => Number(db.pragma('user_version', { simple: true }));

/** Brings a book up to date, step by step. A cut between two steps leaves the book at a version that is whole. */
export const migrate = (db: Database, until: number = BOOK_VERSION): void => {
  for (let version = versionOf(db); version < until; version += 1) {
    const step = MIGRATIONS[version];
    if (step === undefined) throw new RangeError(`no step leads from version ${version}`);
    db.transaction(() => {
      db.exec(step);
      db.pragma(`user_version = ${version + 1}`);
    }).immediate();
  }
};

/** What to say of a book from a later version of this program. */
export const newerWords = (path: string, version: number): string =>
  `${path} was written by a later version of rillkeeper (book version ${version}, this one knows ${BOOK_VERSION}). It is kept as it is, for that version`;
