import type { Batch, Reopened, Wrote } from '../../../src/journal/disk.ts';
import Sqlite from 'better-sqlite3';
import { largeBookCheck } from './book-check.ts';
import { isDamage, openBook, SHORT_BYTES, whyOf, type OpenBook } from './book-file.ts';
import { bookPath } from './book-path.ts';
import type { FoundInBook } from './found.ts';
import { freeBytes, layInReserve, releaseReserve, RESERVE_BYTES } from './reserve.ts';
import { trimBook, type Limits, type Step } from './retention.ts';
import { ROWS_A_STEP } from './row-check.ts';

export interface KeeperAsked {
  readonly folder: string;
  /** Tells the monotonic clocks of different starts apart. */
  readonly boot: string;
  readonly limits: Limits;
  readonly checks?: Partial<Checks>;
}

export interface Checks {
  /** A book of more is checked after it was opened, in steps. */
  readonly shortBytes: number;
  readonly rowsAStep: number;
}

const USUAL_CHECKS: Checks = { shortBytes: SHORT_BYTES, rowsAStep: ROWS_A_STEP };

export type KeeperOpened =
  (Extract<Reopened, { kind: 'open' }> & FoundInBook) | Extract<Reopened, { kind: 'refused' }>;

/** Keeps the book of one folder, each call to its end: for a thread that has nothing else to do. */
export interface BookKeeper {
  /** `lastSeq` null at the first opening, else the last number that is known to be on the disk. */
  readonly open: (lastSeq: number | null, nowMillis: number) => KeeperOpened;
  readonly write: (batch: Batch) => Wrote;
  /** One small step of what may wait: age, size, reserve, the check of a large book. */
  readonly tend: () => Step;
  readonly close: () => void;
}

const isFull = (error: unknown): boolean =>
  error instanceof Sqlite.SqliteError && error.code === 'SQLITE_FULL';

export const createBookKeeper = ({ folder, boot, limits, checks }: KeeperAsked): BookKeeper => {
  const { shortBytes, rowsAStep } = { ...USUAL_CHECKS, ...checks };
  let book: OpenBook | null = null;
  /** Of a large book, until it is through. */
  let check: ReturnType<typeof largeBookCheck> | null = null;
  let isTurnToTidy = false;
  /** What the check of a large book found: told at the next write, and known until the book is opened anew. */
  let found: string | null = null;

  const close = (): void => {
    const before = book;
    book = null;
    check = null;
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

  const checkStep = (steps: NonNullable<typeof check>): void => {
    try {
      const step = steps.next();
      if (step.done !== true) return;
      found = step.value;
    } catch (error) {
      // Where the disk fails the next write tells, which counts.
      if (isDamage(error)) found = whyOf(error);
    }
    check = null;
  };
  const tidyStep = ({ db }: OpenBook): Step => {
    try {
      layInReserve(folder);
      return trimBook(db, limits);
    } catch {
      // A disk that is full or fails tells so at the next write, which counts.
      return 'nothing-to-do';
    }
  };

  return {
    open: (lastSeq, nowMillis) => {
      close();
      try {
        if (freeBytes(folder) === 0) releaseReserve(folder);
      } catch {
        // The folder is not there yet, or its disk is gone: opening will tell.
      }
      const asked = { path: bookPath(folder), lastSeq: lastSeq ?? 0, boot, nowMillis, shortBytes };
      const opening = lastSeq === null ? 'first' : 'again';
      const opened = openBook({ ...asked, opening, damage: found });
      if (opened.kind === 'refused') return opened;
      ({ book } = opened);
      check = book.checked ? null : largeBookCheck(book.db, rowsAStep);
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
      if (check === null) return tidyStep(book);
      // By turns: a check of minutes must not keep a full disk from getting room.
      isTurnToTidy = !isTurnToTidy;
      if (!isTurnToTidy || tidyStep(book) === 'nothing-to-do') checkStep(check);
      return 'did-some';
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
