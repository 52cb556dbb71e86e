import type { Batch, Reopened, Wrote } from '../../../src/journal/disk.ts';
import Sqlite from 'better-sqlite3';
import { wrongInside } from './book-check.ts';
import { openBook, whyOf, type OpenBook } from './book-file.ts';
import { bookPath } from './book-path.ts';
import type { FoundInBook } from './found.ts';
import { freeBytes, layInReserve, releaseReserve, RESERVE_BYTES } from './reserve.ts';
import { trimBook, type Limits } from './retention.ts';

export interface KeeperAsked {
  readonly folder: string;
  /** Tells the monotonic clocks of different starts apart. */
  readonly boot: string;
  readonly limits: Limits;
}

export type KeeperOpened =
  (Extract<Reopened, { kind: 'open' }> & FoundInBook) | Extract<Reopened, { kind: 'refused' }>;

/** Keeps the book of one folder, each call to its end: for a thread that has nothing else to do. */
export interface BookKeeper {
  /** `lastSeq` null at the first opening, else the last number that is known to be on the disk. */
  readonly open: (lastSeq: number | null, nowMillis: number) => KeeperOpened;
  readonly write: (batch: Batch) => Wrote;
  /** One small step of what may wait: age, size, reserve, the check of a large book. */
  readonly tend: () => 'did-some' | 'nothing-to-do';
  readonly close: () => void;
}

const isFull = (error: unknown): boolean =>
  error instanceof Sqlite.SqliteError && error.code === 'SQLITE_FULL';

export const createBookKeeper = ({ folder, boot, limits }: KeeperAsked): BookKeeper => {
  let book: OpenBook | null = null;
  let isChecked = true;
  /** What the check of a large book found, told at the next write. */
  let found: string | null = null;

  const close = (): void => {
    const before = book;
    book = null;
    try {
      before?.close();
    } catch {
      // A handle that cannot even be closed is given up; the next one is new.
    }
  };
  const failed = (why: string): Wrote => {
    close();
    return { kind: 'failed', why };
  };
  const hasRoom = (batch: Batch): boolean => {
    if (freeBytes(folder) >= RESERVE_BYTES) return true;
    if (batch.grave) releaseReserve(folder);
    return batch.grave;
  };

  return {
    open: (lastSeq, nowMillis) => {
      close();
      try {
        if (freeBytes(folder) === 0) releaseReserve(folder);
      } catch {
        // The folder is not there yet, or its disk is gone: opening will tell.
      }
      const asked = { path: bookPath(folder), lastSeq: lastSeq ?? 0, boot, nowMillis };
      const opened = openBook({ ...asked, check: lastSeq === null ? 'if-short' : 'whole' });
      if (opened.kind === 'refused') return opened;
      ({ book } = opened);
      isChecked = book.checked;
      found = null;
      return { kind: 'open', lastSeq: book.lastSeq, setAside: book.setAside, ...book.found };
    },
    write: (batch) => {
      if (book === null) return failed('the book is not open');
      if (found !== null) return failed(found);
      try {
        if (!hasRoom(batch)) return { kind: 'full', why: 'the disk is full' };
        book.write(batch);
        return { kind: 'durable' };
      } catch (error) {
        // Full means rolled back: nothing was written, and the handle stays good.
        return isFull(error) && !book.db.inTransaction
          ? { kind: 'full', why: `the disk is full: ${whyOf(error)}` }
          : failed(whyOf(error));
      }
    },
    tend: () => {
      if (book === null) return 'nothing-to-do';
      try {
        if (!isChecked) {
          isChecked = true;
          found = wrongInside(book.db);
          return 'did-some';
        }
        layInReserve(folder);
        return trimBook(book.db, limits);
      } catch {
        // A disk that is full or fails tells so at the next write, which counts.
        return 'nothing-to-do';
      }
    },
    close: () => {
      const before = book;
      try {
        // The second connection keeps closing from doing this.
        before?.db.pragma('wal_checkpoint(TRUNCATE)');
      } catch {
        // All of it is in the log, and is read from there.
      }
      close();
    },
  };
};
