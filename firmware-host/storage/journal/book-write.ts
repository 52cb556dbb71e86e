import type { Database, Transaction } from 'better-sqlite3';
import type { Batch, Written } from '../../../src/journal/disk.ts';
import { rowSum } from './row-sum.ts';

const MILLIS_A_DAY = 86_400_000;

const wallCell = ({ wall }: Written): number | null => (wall === 'unknown' ? null : Math.round(wall));

/** The text of a farm file is kept once; the entry keeps its sum. */
const settingsParts = (
  json: string,
): { readonly sha256: string; readonly file: string; readonly text: string } =>
  JSON.parse(json) as { sha256: string; file: string; text: string };

const KEEP = 'INSERT OR REPLACE INTO kept VALUES (1, ?, ?)';

/** Keeps the state to begin with after a restart. @throws SqliteError */
export const keepIn = (db: Database, json: string): void => {
  db.prepare(KEEP).run(json, rowSum(json));
};

/** Writes a batch as one transaction of an open book. @throws SqliteError, and then nothing of it is in the book */
export const bookWriter = (db: Database, boot: string): ((batch: Batch) => void) => {
  const entry = db.prepare('INSERT INTO entries VALUES (?, ?, ?, ?, ?, ?, ?)');
  const reading = db.prepare('INSERT INTO readings VALUES (?, ?, ?, ?, ?, ?)');
  const lastReading = db.prepare<[], { id: number }>('SELECT coalesce(max(id), 0) AS id FROM readings');
  const settings = db.prepare('INSERT OR IGNORE INTO settings VALUES (?, ?, ?, ?)');
  const kept = db.prepare(KEEP);
  const day = db.prepare(
    `INSERT INTO days VALUES (?, ?, ?) ON CONFLICT (day) DO UPDATE SET
       first_seq = coalesce(first_seq, excluded.first_seq),
       first_reading = coalesce(first_reading, excluded.first_reading)`,
  );
  const seen = (wall: number | null, seq: number | null, id: number | null): void => {
    if (wall !== null) day.run(Math.floor(wall / MILLIS_A_DAY), seq, id);
  };
  const stored = (written: Written, wall: number | null): string => {
    if (written.kind !== 'settings') return written.json;
    const { sha256, file, text } = settingsParts(written.json);
    settings.run(sha256, wall, file, text);
    return JSON.stringify({ file, sha256 });
  };

  const write: Transaction<(batch: Batch) => void> = db.transaction((batch) => {
    batch.entries.forEach((written, place) => {
      const wall = wallCell(written);
      const seq = batch.firstSeq + place;
      const json = stored(written, wall);
      entry.run(
        seq,
        wall,
        written.at,
        boot,
        written.kind,
        json,
        rowSum(seq, wall, written.at, boot, written.kind, json),
      );
      seen(wall, seq, null);
    });
    let id = lastReading.get()?.id ?? 0;
    for (const written of batch.readings) {
      const wall = wallCell(written);
      id += 1;
      reading.run(
        id,
        wall,
        written.at,
        boot,
        written.json,
        rowSum(id, wall, written.at, boot, 'reading', written.json),
      );
      seen(wall, null, id);
    }
    if (batch.keptState !== null) kept.run(batch.keptState, rowSum(batch.keptState));
  });
  return (batch) => {
    write.immediate(batch);
  };
};
