import type { Database } from 'better-sqlite3';
import { wallMillis, type WallMillis } from '../../../src/time/instant.ts';

/** How the host before this one left its book. */
export interface FoundInBook {
  /** Its last entry says that it ended as it should. */
  readonly cleanStop: boolean;
  /** Of the newest entry; null in an empty book. */
  readonly lastEntryWall: WallMillis | 'unknown' | null;
  /** JSON text of the state that was kept last. */
  readonly keptState: string | null;
}

export const lastEntryIn = (db: Database): Omit<FoundInBook, 'keptState'> => {
  const last = db
    .prepare<[], { wall: number | null; kind: string }>(
      'SELECT wall, kind FROM entries ORDER BY seq DESC LIMIT 1',
    )
    .get();
  return {
    cleanStop: last?.kind === 'stopped',
    lastEntryWall: last === undefined ? null : last.wall === null ? 'unknown' : wallMillis(last.wall),
  };
};

export const keptIn = (db: Database): string | null =>
  db.prepare<[], { json: string }>('SELECT json FROM kept').get()?.json ?? null;

export const foundIn = (db: Database): FoundInBook => ({ ...lastEntryIn(db), keptState: keptIn(db) });

/** Where nothing has been written yet, what stands in `begun`. */
export const lastWritten = (db: Database): number =>
  db
    .prepare<[], { last: number }>(
      'SELECT coalesce((SELECT max(seq) FROM entries), (SELECT behind_seq FROM begun), 0) AS last',
    )
    .get()?.last ?? 0;
