import { createHash } from 'node:crypto';
import { closeSync, openSync, readSync, statSync } from 'node:fs';
import type { Database } from 'better-sqlite3';
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

interface Row {
  readonly number: number;
  readonly wall: number | null;
  readonly at: number;
  readonly boot: string;
  readonly kind: string;
  readonly json: string;
  readonly sum: number;
}

const wrongRow = (db: Database, what: string, select: string): string | null => {
  for (const row of db.prepare<[], Row>(select).iterate()) {
    if (rowSum(row.number, row.wall, row.at, row.boot, row.kind, row.json) !== row.sum) {
      return `${what} ${row.number} does not fit its check sum`;
    }
  }
  return null;
};

export const isKeptWhole = (db: Database): boolean => {
  const kept = db.prepare<[], { json: string; sum: number }>('SELECT json, sum FROM kept').get();
  return kept === undefined || rowSum(kept.json) === kept.sum;
};

/** The text of a farm file that was in force is known by its SHA-256: the entry that names it has no other proof of it. */
const wrongSettings = (db: Database): string | null => {
  const settings = db.prepare<[], { sha256: string; text: string }>('SELECT sha256, text FROM settings');
  for (const { sha256, text } of settings.iterate()) {
    if (createHash('sha256').update(text).digest('hex') !== sha256)
      return 'settings in force do not fit their SHA-256';
  }
  return null;
};

/** What is wrong with an open book: SQLite's own check, then numbers without a gap, then each row and each text of settings by its sum. */
export const wrongInside = (db: Database): string | null => {
  const said = String(db.pragma('quick_check(1)', { simple: true }));
  if (said !== 'ok') return said.replaceAll('\n', ' ');
  const numbers = db
    .prepare<[], { count: number; least: number | null; most: number | null }>(
      'SELECT count(*) AS count, min(seq) AS least, max(seq) AS most FROM entries',
    )
    .get();
  const { count, least, most } = numbers ?? { count: 0, least: null, most: null };
  if (least !== null && most !== null && most - least + 1 !== count)
    return 'entries are missing between others';
  if (!isKeptWhole(db)) return 'the kept state does not fit its check sum';
  return (
    wrongRow(db, 'entry', 'SELECT seq AS number, wall, at, boot, kind, json, sum FROM entries') ??
    wrongRow(
      db,
      'reading',
      "SELECT id AS number, wall, at, boot, 'reading' AS kind, json, sum FROM readings",
    ) ??
    wrongSettings(db)
  );
};
