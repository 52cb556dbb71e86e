import { createHash } from 'node:crypto';
import { readdirSync, rmSync } from 'node:fs';
import { open, rename } from 'node:fs/promises';
import { basename, dirname, extname, join } from 'node:path';
import { setImmediate as nextTurn } from 'node:timers/promises';
import Sqlite, { type Database } from 'better-sqlite3';
import { wholeCheck, wrongInside } from './book-check.ts';
import { whyOf } from './book-file.ts';
import { BOOK_VERSION, migrate, newerWords, versionOf } from './migrations.ts';

/**
 * A backup is one SQLite file: the book as it was, and beside its tables two more, one that says what it is, one that
 * holds the other files whole. "RLKB" stands in the header as application id.
 */
const APPLICATION_ID = 0x524c4b42;

const TABLES = `
  CREATE TABLE backup (id INTEGER PRIMARY KEY CHECK (id = 1), made_at TEXT NOT NULL, farm TEXT NOT NULL) STRICT;
  CREATE TABLE backup_files (role TEXT PRIMARY KEY, name TEXT NOT NULL, sha256 TEXT NOT NULL, content BLOB NOT NULL) STRICT;`;

/** `farm` is the farm file, `calibration` that of the probe. */
export type FileRole = 'farm' | 'calibration';

export interface BackedUpFile {
  readonly role: FileRole;
  readonly name: string;
  readonly content: Buffer;
}

export interface Backup {
  /** UTC. */
  readonly madeAt: string;
  readonly farm: string;
  readonly files: readonly BackedUpFile[];
}

/** Copied between two looks at whether it is to stop: some 400 kB, a twentieth of a second of a slow stick. */
const PAGES_A_STEP = 100;

const sha256 = (content: Buffer): string => createHash('sha256').update(content).digest('hex');

const synced = async (path: string): Promise<void> => {
  const file = await open(path, 'r');
  try {
    await file.sync();
  } finally {
    await file.close();
  }
};

const removed = (path: string): void => {
  for (const ending of ['', '-wal', '-shm', '-journal']) rmSync(path + ending, { force: true });
};

const isThere = (pid: number): boolean => {
  try {
    return process.kill(pid, 0);
  } catch (error) {
    // Of another user's process it is known that it is there.
    return (error as NodeJS.ErrnoException).code !== 'ESRCH';
  }
};

/** What processes left of their backups when they were killed, or the power went. */
const removeLeft = (to: string): void => {
  const ending = extname(to) === '' ? basename(to) : extname(to);
  for (const name of readdirSync(dirname(to))) {
    const left = /^(.*)\.(\d+)\.new(?:-wal|-shm|-journal)?$/.exec(name);
    if (left?.[1]?.endsWith(ending) === true && !isThere(Number(left[2])))
      rmSync(join(dirname(to), name), { force: true });
  }
};

/**
 * A copy of the book beside the host that writes it, as it is at one moment. That moment is held by a read: else SQLite
 * begins anew after each write of another connection (https://www.sqlite.org/c3ref/backup_finish.html), and a copy that
 * takes longer than the host's pause between two writes never ends.
 */
const copied = async (book: string, to: string, stop: AbortSignal): Promise<void> => {
  const source = new Sqlite(book, { readonly: true, fileMustExist: true });
  try {
    source.exec('BEGIN');
    source.prepare('SELECT 1 FROM begun').get();
    await source.backup(to, {
      progress: () => {
        stop.throwIfAborted();
        return PAGES_A_STEP;
      },
    });
  } finally {
    source.close();
  }
};

/** @throws Error when it was stopped */
const wrongInCopy = async (db: Database, stop: AbortSignal): Promise<string | null> => {
  const check = wholeCheck(db);
  for (;;) {
    const step = check.next();
    if (step.done === true) return step.value;
    await nextTurn();
    stop.throwIfAborted();
  }
};

/**
 * Writes a backup that is there whole or not at all: made under another name, checked, brought to the disk, renamed.
 * @throws Error of SQLite or the file system, also where there is no book; the reason of `stop` when that came first
 */
export const writeBackup = async (
  book: string,
  to: string,
  backup: Backup,
  stop: AbortSignal,
): Promise<void> => {
  const fresh = `${to}.${process.pid}.new`;
  removed(fresh);
  removeLeft(to);
  try {
    await copied(book, fresh, stop);
    const db = new Sqlite(fresh);
    try {
      const wrong = await wrongInCopy(db, stop);
      if (wrong !== null) throw new Error(`the book is damaged and was not copied: ${wrong}`);
      // One file without a log beside it, for a stick.
      db.pragma('journal_mode = DELETE');
      db.transaction(() => {
        db.exec(TABLES);
        db.prepare('INSERT INTO backup VALUES (1, ?, ?)').run(backup.madeAt, backup.farm);
        const insert = db.prepare('INSERT INTO backup_files VALUES (?, ?, ?, ?)');
        for (const { role, name, content } of backup.files) insert.run(role, name, sha256(content), content);
        db.pragma(`application_id = ${APPLICATION_ID}`);
      })();
    } finally {
      db.close();
    }
    await synced(fresh);
    await rename(fresh, to);
    await synced(dirname(to));
  } finally {
    removed(fresh);
  }
};

export type ReadBackup =
  | { readonly kind: 'good'; readonly backup: Backup; readonly entries: number }
  | { readonly kind: 'refused'; readonly why: string };

const contents = (db: Database): ReadBackup => {
  if (Number(db.pragma('application_id', { simple: true })) !== APPLICATION_ID) {
    return { kind: 'refused', why: 'it is no backup of rillkeeper' };
  }
  const version = versionOf(db);
  if (version > BOOK_VERSION) return { kind: 'refused', why: newerWords('it', version) };
  const wrong = wrongInside(db);
  if (wrong !== null) return { kind: 'refused', why: `it is damaged: ${wrong}` };
  const head = db
    .prepare<[], { madeAt: string; farm: string }>('SELECT made_at AS madeAt, farm FROM backup')
    .get();
  const files = db
    .prepare<[], BackedUpFile & { readonly sha256: string }>(
      'SELECT role, name, sha256, content FROM backup_files',
    )
    .all();
  const spoilt = files.find((file) => sha256(file.content) !== file.sha256);
  if (spoilt !== undefined)
    return { kind: 'refused', why: `it is damaged: ${spoilt.name} does not fit its SHA-256` };
  if (head === undefined) return { kind: 'refused', why: 'it does not say of which farm it is' };
  const entries =
    db.prepare<[], { count: number }>('SELECT count(*) AS count FROM entries').get()?.count ?? 0;
  return { kind: 'good', backup: { ...head, files }, entries };
};

/** All of a backup, each row and file checked by its sum. Changes nothing in it. */
export const readBackup = (path: string): ReadBackup => {
  try {
    const db = new Sqlite(path, { readonly: true, fileMustExist: true });
    try {
      return contents(db);
    } finally {
      db.close();
    }
  } catch (error) {
    return { kind: 'refused', why: whyOf(error) };
  }
};

/** The book out of a backup as a new file, without what only a backup has. @throws Error of SQLite or the file system */
export const bookOutOf = async (path: string, to: string): Promise<void> => {
  const source = new Sqlite(path, { readonly: true, fileMustExist: true });
  try {
    await source.backup(to);
  } finally {
    source.close();
  }
  const db = new Sqlite(to);
  try {
    db.exec('DROP TABLE backup; DROP TABLE backup_files; PRAGMA application_id = 0');
    migrate(db);
  } finally {
    db.close();
  }
  await synced(to);
};
