import { createHash } from 'node:crypto';
import type { Database } from 'better-sqlite3';
import { rowSum } from './row-sum.ts';

/** Some 20 ms of a fast core, ten times as much of a slow one with a memory card. */
export const ROWS_A_STEP = 2000;
/** Texts of settings are whole farm files, a hundred times as long as a row. */
const ROWS_A_TEXT = 100;

interface Row {
  readonly number: number;
  readonly wall: number | null;
  readonly at: number;
  readonly boot: string;
  readonly kind: string;
  readonly json: string;
  readonly sum: number;
}

interface Text {
  readonly number: number;
  readonly sha256: string;
  readonly text: string;
}

/** Behind which row a step begins, and how many it takes. */
type Stretch = [after: number, rows: number];

const wrongSum = (what: string, row: Row): string | null =>
  rowSum(row.number, row.wall, row.at, row.boot, row.kind, row.json) === row.sum
    ? null
    : `${what} ${row.number} does not fit its check sum`;

/** The text of a farm file that was in force is known by its SHA-256: the entry that names it has no other proof of it. */
const wrongText = ({ sha256, text }: Text): string | null =>
  createHash('sha256').update(text).digest('hex') === sha256
    ? null
    : 'settings in force do not fit their SHA-256';

/** Between two steps no statement is open, so that the book can be written. */
function* inSteps<Found extends { readonly number: number }>(
  stretch: (after: number, rows: number) => IterableIterator<Found>,
  rowsAStep: number,
  wrongIn: (row: Found, after: number) => string | null,
): Generator<undefined, string | null> {
  let after = -Infinity;
  for (let looked = rowsAStep; looked === rowsAStep;) {
    looked = 0;
    for (const row of stretch(after, rowsAStep)) {
      // A page that stands twice in a damaged tree: the check could go round and round.
      if (row.number <= after) return 'rows of the book are out of order';
      const wrong = wrongIn(row, after);
      if (wrong !== null) return wrong;
      after = row.number;
      looked += 1;
    }
    yield;
  }
  return null;
}

/**
 * Looks at each row and each text of settings by its sum, and for gaps between entries: a step for each `next`, in the
 * end what is wrong. Rows may be added behind and removed in front between two steps.
 */
export function* rowCheck(db: Database, rowsAStep: number): Generator<undefined, string | null> {
  const entries = db.prepare<Stretch, Row>(
    'SELECT seq AS number, wall, at, boot, kind, json, sum FROM entries WHERE seq > ? ORDER BY seq LIMIT ?',
  );
  const readings = db.prepare<Stretch, Row>(
    `SELECT id AS number, wall, at, boot, 'reading' AS kind, json, sum FROM readings WHERE id > ? ORDER BY id LIMIT ?`,
  );
  const texts = db.prepare<Stretch, Text>(
    'SELECT rowid AS number, sha256, text FROM settings WHERE rowid > ? ORDER BY rowid LIMIT ?',
  );
  const first = db.prepare<[], { seq: number }>('SELECT min(seq) AS seq FROM entries');
  const wrongEntry = (row: Row, after: number): string | null =>
    // Where what was seen last is gone too, it was removed for its age.
    row.number !== after + 1 && first.get()?.seq !== row.number
      ? 'entries are missing between others'
      : wrongSum('entry', row);
  return (
    (yield* inSteps((...stretch) => entries.iterate(...stretch), rowsAStep, wrongEntry)) ??
    (yield* inSteps(
      (...stretch) => readings.iterate(...stretch),
      rowsAStep,
      (row) => wrongSum('reading', row),
    )) ??
    (yield* inSteps((...stretch) => texts.iterate(...stretch), Math.ceil(rowsAStep / ROWS_A_TEXT), wrongText))
  );
}
