import type { Database } from 'better-sqlite3';

export interface Limits {
  /** Days of record: a day on which nothing was written does not count. */
  readonly entryDays: number;
  readonly readingDays: number;
  readonly megabytes: number;
}

/** More than a year of floods, two months of readings, a small part of any card. */
export const USUAL_LIMITS: Limits = { entryDays: 400, readingDays: 60, megabytes: 200 };

/** Deleted in one step: some milliseconds, so that a write behind it does not wait. */
const ROWS_A_STEP = 500;
const PAGES_A_STEP = 256;
/** However small the limit: what happened last stays. */
const ENTRIES_LEAST = 1000;

export type Step = 'did-some' | 'nothing-to-do';

/** One small step towards the limits; asked again until there is nothing to do. @throws SqliteError */
export const trimBook = (db: Database, limits: Limits): Step => {
  const first = (column: string, days: number): number =>
    db
      .prepare<[number], { first: number }>(
        `SELECT ${column} AS first FROM days WHERE ${column} IS NOT NULL ORDER BY ${column} DESC LIMIT 1 OFFSET ?`,
      )
      .get(days - 1)?.first ?? 0;
  const remove = (table: 'entries' | 'readings', before: number): number => {
    const column = table === 'entries' ? 'seq' : 'id';
    return db
      .prepare(
        `DELETE FROM ${table} WHERE ${column} < ?
           AND ${column} < (SELECT coalesce(min(${column}), 0) FROM ${table}) + ${ROWS_A_STEP}`,
      )
      .run(before).changes;
  };
  const number = (pragma: string): number => Number(db.pragma(pragma, { simple: true }));
  const last = (table: string, column: string): number =>
    db.prepare<[], { last: number }>(`SELECT coalesce(max(${column}), 0) AS last FROM ${table}`).get()
      ?.last ?? 0;

  if (remove('readings', first('first_reading', limits.readingDays)) > 0) return 'did-some';
  if (remove('entries', first('first_seq', limits.entryDays)) > 0) return 'did-some';
  const used = (number('page_count') - number('freelist_count')) * number('page_size');
  if (used > limits.megabytes * 1024 ** 2) {
    if (remove('readings', last('readings', 'id')) > 0) return 'did-some';
    if (remove('entries', last('entries', 'seq') - ENTRIES_LEAST) > 0) return 'did-some';
  }
  // What was freed goes back to the disk; a little stays for what comes next.
  if (number('freelist_count') > 2 * PAGES_A_STEP) {
    db.pragma(`incremental_vacuum(${PAGES_A_STEP})`);
    return 'did-some';
  }
  return 'nothing-to-do';
};
