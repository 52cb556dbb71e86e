import { existsSync } from 'node:fs';
import { mkdir, rename, rm } from 'node:fs/promises';
import { dirname } from 'node:path';
import { writeWhole } from '../atomic-file.ts';
import { calibrationFile } from '../calibration-file.ts';
import { syncFolder } from '../sync-folder.ts';
import { bookOutOf, type Backup } from './backup-file.ts';
import { bookPath } from './book-path.ts';

export interface RestoreAsked {
  readonly file: string;
  readonly backup: Backup;
  readonly folder: string;
  readonly farmFile: string;
  readonly nowMillis: number;
}

/** What lay there before, under its new name. */
export type MovedAway = readonly string[];

/** A name beside `path` that is free. */
const besideFrom = (path: string, nowMillis: number): string => {
  const stamp = new Date(nowMillis)
    .toISOString()
    .replace(/\.\d+Z$/, 'Z')
    .replaceAll(':', '-');
  let to = `${path}.before-${stamp}`;
  for (let number = 2; existsSync(to); number += 1) to = `${path}.before-${stamp}-${number}`;
  return to;
};

/**
 * Puts a backup that has been checked in its place. All of it is made ready beside the place first; then names are
 * changed, and changed back when one cannot be. What lay there before is moved away, never deleted.
 * @throws Error of SQLite or the file system, and then everything is as it was
 */
export const restoreFolder = async (asked: RestoreAsked): Promise<MovedAway> => {
  const { file, backup, folder, farmFile, nowMillis } = asked;
  const fresh = `${folder}.${process.pid}.new`;
  const freshFarm = `${farmFile}.${process.pid}.restored`;
  const undo: (() => Promise<void>)[] = [];
  const moved: string[] = [];
  const named = async (from: string, to: string): Promise<void> => {
    await rename(from, to);
    undo.unshift(() => rename(to, from));
  };
  const movedAway = async (path: string): Promise<void> => {
    if (!existsSync(path)) return;
    const to = besideFrom(path, nowMillis);
    await named(path, to);
    moved.push(to);
  };
  try {
    await rm(fresh, { recursive: true, force: true });
    await mkdir(fresh, { recursive: true });
    await bookOutOf(file, bookPath(fresh));
    for (const { role, content } of backup.files) {
      await writeWhole(role === 'farm' ? freshFarm : calibrationFile(fresh), content.toString('utf8'));
    }
    await syncFolder(fresh);
    await movedAway(folder);
    await named(fresh, folder);
    await movedAway(farmFile);
    await named(freshFarm, farmFile);
    await syncFolder(dirname(folder));
    await syncFolder(dirname(farmFile));
    return moved;
  } catch (error) {
    for (const step of undo) await step();
    throw error;
  } finally {
    await rm(fresh, { recursive: true, force: true });
    await rm(freshFarm, { force: true });
  }
};
