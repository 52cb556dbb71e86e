import { closeSync, openSync, readSync, statSync } from 'node:fs';
import type { Database } from 'better-sqlite3';
import { rowCheck, ROWS_A_STEP } from './row-check.ts';
import { rowSum } from './row-sum.ts';

/** https://www.sqlite.org/fileformat2.html, 1.3: the user version stands at offset 60 of the header, big endian. */
const HEADER_BYTES = 100;
const USER_VERSION_AT = 60;

const sizeOf = (path: string): number => statSync(path, { throwIfNoEntry: false })?.size ?? -1;

/** Bytes of the book and its log. */
export const bookBytes = (path: string): number =>
  Math.max(0, sizeOf(path)) + Math.max(0, sizeOf(`${path}-wal`));

/** The smallest page of SQLite's: a file of fewer bytes it takes for an empty one, and writes over it. */
const PAGE_BYTES_LEAST = 512;

/**
 * What is wrong before SQLite looks at it; null when nothing is. Beside a book without a single page SQLite deletes
 * the log, and with it everything that was written (`pagerOpenWalIfPresent` in its pager.c).
 */
export const wrongBeforeOpening = (path: string): string | null => {
  const bytes = sizeOf(path);
  if (bytes <= 0) return sizeOf(`${path}-wal`) > 0 ? 'its log is there, but the book itself is gone' : null;
  return bytes < PAGE_BYTES_LEAST ? `it is cut short: ${bytes} bytes are left` : null;
};

/** As the file has it; 0 where there is none. What the log says later may be newer. */
export const versionInHeader = (path: string): number => {
  if (sizeOf(path) < HEADER_BYTES) return 0;
  const file = openSync(path, 'r');
  try {
    const header = Buffer.alloc(HEADER_BYTES);
    readSync(file, header, 0, HEADER_BYTES, 0);
    return header.subarray(0, 15).toString('latin1') === 'SQLite format 3'
      ? header.readUInt32BE(USER_VERSION_AT)
      : 0;
  } finally {
    closeSync(file);
  }
};

export const isKeptWhole = (db: Database): boolean => {
  const kept = db.prepare<[], { json: string; sum: number }>('SELECT json, sum FROM kept').get();
  return kept === undefined || rowSum(kept.json) === kept.sum;
};

/** SQLite's own check, of the whole file or of one table. */
const wrongInTree = (db: Database, asked: string): string | null => {
  const said = String(db.pragma(`quick_check(${asked})`, { simple: true }));
  return said === 'ok' ? null : said.replaceAll('\n', ' ');
};

const wrongKept = (db: Database): string | null =>
  isKeptWhole(db) ? null : 'the kept state does not fit its check sum';

/** What SQLite's own check and the kept state tell: 200 MB in half a second of a fast core, each row and its sum in eight. */
export const wrongAtAGlance = (db: Database): string | null => wrongInTree(db, '1') ?? wrongKept(db);

/** The same in a first step, then in steps each row and each text of settings by its sum, numbers without a gap. */
export function* wholeCheck(db: Database): Generator<undefined, string | null> {
  const wrong = wrongAtAGlance(db);
  if (wrong !== null) return wrong;
  yield;
  return yield* rowCheck(db, ROWS_A_STEP);
}

/** All of that in one go, however long it takes. */
export const wrongInside = (db: Database): string | null => {
  const check = wholeCheck(db);
  let step = check.next();
  while (step.done !== true) step = check.next();
  return step.value;
};

/** A row each, and one for each day of record. */
const SHORT_TABLES = ['begun', 'kept', 'days'];

/**
 * What is wrong with a large book, a short step for each `next`, with writes between. SQLite's own check cannot be cut into
 * steps: it is asked of the short tables only. What the rest of the book says is read whole all the same, so that a
 * row that is wrong, a page that cannot be read and an entry that is lost are found. A reading that is lost with its
 * whole page is not, nor is damage where no row stands: in the list of free pages, the map that shrinks the file, the
 * index of the settings. Those are found when the book is opened anew after a write that failed, and by a backup.
 */
export function* largeBookCheck(db: Database, rowsAStep: number): Generator<undefined, string | null> {
  for (const table of SHORT_TABLES) {
    const wrong = wrongInTree(db, table);
    if (wrong !== null) return wrong;
  }
  const wrong = wrongKept(db);
  if (wrong !== null) return wrong;
  yield;
  return yield* rowCheck(db, rowsAStep);
}
