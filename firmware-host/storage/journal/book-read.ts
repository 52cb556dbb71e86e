import { existsSync } from 'node:fs';
import Sqlite, { type Database, type Statement } from 'better-sqlite3';
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

/** Numbers of the rows that a question is about, as they stand when it is asked. */
interface Numbers {
  /** Between which those of an unknown time are told. */
  readonly first: number;
  readonly last: number;
  /** What is written later is no part of the answer. */
  readonly end: number;
}

interface Table {
  readonly name: 'entries' | 'readings';
  readonly number: 'seq' | 'id';
}

const ENTRIES: Table = { name: 'entries', number: 'seq' };
const READINGS: Table = { name: 'readings', number: 'id' };

/**
 * An unknown time is told by its place among those that are known. Behind the last known one nobody knows, and a question
 * without an end is told of it; one that begins later than all that is known is not told of what lies before.
 */
const numbersOf = (db: Database, { name, number }: Table, { from, to }: BookQuestion): Numbers => {
  const dated = `FROM ${name} WHERE wall >= @from AND wall < @to`;
  const found = db
    .prepare<[object], Numbers>(
      `SELECT
         coalesce((SELECT min(${number}) ${dated}), (SELECT max(${number}) + 1 FROM ${name} WHERE wall IS NOT NULL), 0) AS first,
         coalesce((SELECT max(${number}) ${dated}), 0) AS last,
         coalesce((SELECT max(${number}) FROM ${name}), 0) AS end`,
    )
    .get(timesOf({ from, to }));
  const { first, last, end } = found ?? { first: 0, last: 0, end: 0 };
  return { first: from === null ? 0 : first, last: to === null ? end : last, end };
};

const timesOf = ({ from, to }: Pick<BookQuestion, 'from' | 'to'>): { from: number; to: number } => ({
  from: from ?? 0,
  to: to ?? Number.MAX_SAFE_INTEGER,
});

/** Some hundred kilobytes. */
const ROWS_A_STRETCH = 2000;

const within = (column: string, wall: string): string => `
  ${column} > @after AND ${column} <= @end
    AND ((${wall} >= @from AND ${wall} < @to) OR (${wall} IS NULL AND ${column} BETWEEN @first AND @last))`;

/**
 * Between two stretches nothing of the book is held: a listing that stands open in a pager for days must not keep the
 * host's log from being carried over into the book. Each row is told once and in order, whatever is written or goes for its
 * age meanwhile.
 */
function* inStretches(
  select: Statement<[object], Cells>,
  asked: Numbers & { from: number; to: number; kinds?: string },
): Generator<BookRow, void, void> {
  let after = -1;
  for (let count = ROWS_A_STRETCH; count === ROWS_A_STRETCH;) {
    const stretch: Cells[] = [];
    try {
      for (const cells of select.iterate({ ...asked, after })) {
        // A page that stands twice in a damaged tree: the listing could go round and round.
        if (cells.number <= after) throw new RangeError('rows of the book are out of order');
        after = cells.number;
        stretch.push(cells);
      }
    } finally {
      // Those before a damaged page are told as well.
      for (const cells of stretch) yield rowOf(cells);
    }
    count = stretch.length;
  }
}

const bookOf = (db: Database): ReadableBook => {
  function* rows(question: BookQuestion): Generator<BookRow, void, void> {
    const { kinds } = question;
    const times = timesOf(question);
    const entryKinds = kinds.filter((kind) => kind !== 'reading');
    if (kinds.length === 0 || entryKinds.length > 0) {
      const wanted = kinds.length === 0 ? '' : 'AND kind IN (SELECT value FROM json_each(@kinds))';
      const select = db.prepare<[object], Cells>(
        `SELECT seq AS number, entries.wall, at, boot, kind, json,
            (SELECT text FROM settings WHERE entries.kind = 'settings' AND sha256 = entries.json ->> 'sha256') AS text
           FROM entries WHERE ${within('seq', 'entries.wall')} ${wanted} ORDER BY seq LIMIT ${ROWS_A_STRETCH}`,
      );
      const asked = { ...times, ...numbersOf(db, ENTRIES, question) };
      yield* inStretches(
        select,
        kinds.length === 0 ? asked : { ...asked, kinds: JSON.stringify(entryKinds) },
      );
    }
    if (!kinds.includes('reading')) return;
    const select = db.prepare<[object], Cells>(
      `SELECT id AS number, wall, at, boot, 'reading' AS kind, json, NULL AS text
         FROM readings WHERE ${within('id', 'wall')} ORDER BY id LIMIT ${ROWS_A_STRETCH}`,
    );
    yield* inStretches(select, { ...times, ...numbersOf(db, READINGS, question) });
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
