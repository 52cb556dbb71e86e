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

export const foundIn = (db: Database): FoundInBook => {
  const last = db
    .prepare<[], { wall: number | null; kind: string }>(
      'SELECT wall, kind FROM entries ORDER BY seq DESC LIMIT 1',
    )
    .get();
  const kept = db.prepare<[], { json: string }>('SELECT json FROM kept').get();
  return {
    cleanStop: last?.kind === 'stopped',
    lastEntryWall: last === undefined ? null : last.wall === null ? 'unknown' : wallMillis(last.wall),
    keptState: kept?.json ?? null,
  };
};
