import { mkdtempSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import type { Batch, Written } from '../../src/journal/disk.ts';
import { monotonicMillis, wallMillis } from '../../src/time/instant.ts';
import {
  createBookKeeper,
  type BookKeeper,
  type Checks,
} from '../../firmware-host/storage/journal/book-keeper.ts';
import { bookPath } from '../../firmware-host/storage/journal/book-path.ts';
import { USUAL_LIMITS, type Limits } from '../../firmware-host/storage/journal/retention.ts';

/** In memory: thousands of books are opened, and what a disk does is another test's. */
const MEMORY = '/dev/shm';
const folders: string[] = [];

export const bookFolderOf = (name: string): string => {
  const folder = mkdtempSync(join(MEMORY, `rillkeeper-${name}-`));
  folders.push(folder);
  return folder;
};

export const removeBookFolders = (): void => {
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
};

export const keeperIn = (
  folder: string,
  limits: Partial<Limits> = {},
  checks: Partial<Checks> = {},
): BookKeeper => createBookKeeper({ folder, boot: 'boot', limits: { ...USUAL_LIMITS, ...limits }, checks });

export const MIDNIGHT = Date.UTC(2026, 6, 14);

export const writtenOf = (kind: string, data: object, millis = 0): Written => ({
  at: monotonicMillis(millis),
  wall: wallMillis(MIDNIGHT + millis),
  kind,
  json: JSON.stringify(data),
});

export const batchOf = (firstSeq: number, entries: readonly Written[], rest: Partial<Batch> = {}): Batch => ({
  firstSeq,
  entries,
  readings: [],
  keptState: null,
  grave: false,
  ...rest,
});

/** What a stranger to this code reads out of a folder's book. */
export const entriesIn = (folder: string): readonly { seq: number; kind: string; json: string }[] => {
  const db = new Sqlite(bookPath(folder), { readonly: true, fileMustExist: true });
  try {
    return db
      .prepare<[], { seq: number; kind: string; json: string }>(
        'SELECT seq, kind, json FROM entries ORDER BY seq',
      )
      .all();
  } finally {
    db.close();
  }
};
