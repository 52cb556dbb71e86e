import { existsSync } from 'node:fs';
import Sqlite, { type Database } from 'better-sqlite3';
import type { Entry } from '../../../src/journal/entry.ts';
import { whyOf } from './book-file.ts';
import { BOOK_VERSION, newerWords, versionOf } from './migrations.ts';

/** One entry or reading as it stands in the book. */
export interface BookRow {
  /** Of entries without a gap; readings have numbers of their own. */
  readonly number: number;
  readonly boot: string;
  readonly entry: Entry;
}

export interface BookQuestion {
  /** UTC milliseconds; null for no bound. Entries of an unknown time lie where their numbers lie. */
  readonly from: number | null;
  readonly to: number | null;
  /** All kinds but readings when empty. */
  readonly kinds: readonly string[];
}

export interface ReadableBook {
  readonly rows: (question: BookQuestion) => Generator<BookRow, void, void>;
  /** UTC milliseconds of the newest entry with a time; null where there is none. */
  readonly newest: () => number | null;
  readonly close: () => void;
}

export type BookForReading =
  | { readonly kind: 'open'; readonly book: ReadableBook }
  | { readonly kind: 'none' }
  | { readonly kind: 'unreadable'; readonly why: string };

interface Cells {
  readonly number: number;
  readonly wall: number | null;
  readonly at: number;
  readonly boot: string;
  readonly kind: string;
  readonly json: string;
  readonly text: string | null;
}

const rowOf = ({ number, wall, at, boot, kind, json, text }: Cells): BookRow => ({
  number,
  boot,
  // Written by this program from an Entry, and kept under a check sum.
  entry: {
    at,
    wall: wall ?? 'unknown',
    kind,
    ...(JSON.parse(json) as object),
    ...(text === null ? {} : { text }),
  } as unknown as Entry,
});

/**
 * Between the bounds by its time or, where that is unknown, by its place among those that are known. Behind the last known
 * one nobody knows, and a question without an end is told of it; one that begins later than all that is known is not told of
 * what lies before.
 */
const within = (table: string, column: string): string => `
  ((wall >= @from AND wall < @to) OR (wall IS NULL
    AND (@from = 0 OR ${column} >= coalesce(
      (SELECT min(${column}) FROM ${table} WHERE wall >= @from AND wall < @to),
      (SELECT max(${column}) + 1 FROM ${table} WHERE wall IS NOT NULL),
      0))
    AND (@to = ${Number.MAX_SAFE_INTEGER}
      OR ${column} <= (SELECT coalesce(max(${column}), 0) FROM ${table} WHERE wall >= @from AND wall < @to))))`;

const bookOf = (db: Database): ReadableBook => {
  function* rows({ from, to, kinds }: BookQuestion): Generator<BookRow, void, void> {
    const bounds = { from: from ?? 0, to: to ?? Number.MAX_SAFE_INTEGER };
    const entryKinds = kinds.filter((kind) => kind !== 'reading');
    if (kinds.length === 0 || entryKinds.length > 0) {
      const wanted = kinds.length === 0 ? '' : 'AND kind IN (SELECT value FROM json_each(@kinds))';
      const select = db.prepare<[object], Cells>(
        `SELECT seq AS number, entries.wall, at, boot, kind, json,
            (SELECT text FROM settings WHERE entries.kind = 'settings' AND sha256 = entries.json ->> 'sha256') AS text
           FROM entries WHERE ${within('entries', 'seq')} ${wanted} ORDER BY seq`,
      );
      const asked = kinds.length === 0 ? bounds : { ...bounds, kinds: JSON.stringify(entryKinds) };
      for (const cells of select.iterate(asked)) yield rowOf(cells);
    }
    if (!kinds.includes('reading')) return;
    const select = db.prepare<[object], Cells>(
      `SELECT id AS number, wall, at, boot, 'reading' AS kind, json, NULL AS text
         FROM readings WHERE ${within('readings', 'id')} ORDER BY id`,
    );
    for (const cells of select.iterate(bounds)) yield rowOf(cells);
  }
  return {
    rows,
    newest: () =>
      db
        .prepare<[], { wall: number | null }>(
          'SELECT wall FROM entries WHERE wall IS NOT NULL ORDER BY seq DESC LIMIT 1',
        )
        .get()?.wall ?? null,
    close: () => {
      db.close();
    },
  };
};

/** How long a reader waits for the moment in which the host opens or repairs the book. */
const BUSY_MILLIS = 5000;

/** Opens a book beside the host that writes it, and changes nothing in it. */
export const openForReading = (path: string): BookForReading => {
  if (!existsSync(path)) return { kind: 'none' };
  try {
    const db = new Sqlite(path, { readonly: true, fileMustExist: true, timeout: BUSY_MILLIS });
    try {
      const version = versionOf(db);
      if (version === BOOK_VERSION) return { kind: 'open', book: bookOf(db) };
      db.close();
      const why =
        version > BOOK_VERSION
          ? newerWords(path, version)
          : `${path} is of version ${version}; the next start of the host brings it to ${BOOK_VERSION}`;
      return { kind: 'unreadable', why };
    } catch (error) {
      db.close();
      throw error;
    }
  } catch (error) {
    return { kind: 'unreadable', why: whyOf(error) };
  }
};
