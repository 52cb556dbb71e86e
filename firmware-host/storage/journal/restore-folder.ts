import { existsSync, type Stats } from 'node:fs';
import { chown, mkdir, readdir, rename, rm, stat } from 'node:fs/promises';
import { dirname, join } from 'node:path';
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

const statsOf = (path: string): Promise<Stats | null> => stat(path).catch(() => null);

/**
 * Whose the nearest folder is that is there, and so what is put into it: what root restores the service must be able to write.
 * Null for anybody but root, who alone can give a file away.
 */
const ownerAt = async (path: string): Promise<Stats | null> => {
  if (process.getuid?.() !== 0) return null;
  return (await statsOf(path)) ?? (dirname(path) === path ? null : ownerAt(dirname(path)));
};

/**
 * What tells of the past that the backup replaces: the book and what lies beside it, the calibration, what was being
 * delivered, counts of starts, the last status. All else is the machine's and stays where it is: its passwords, the note
 * that the card has refused a PIN, that of a USB port that is off, and backups, such as the one that is put back.
 */
const IS_OF_THE_PAST = /^(book\..*|(probe-calibration|delivery|starts|renewed|status)\.json)$/;

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
  const owner = await ownerAt(folder);
  const given = async (path: string): Promise<void> => {
    if (owner !== null) await chown(path, owner.uid, owner.gid);
  };
  const madeFolder = async (path: string): Promise<void> => {
    if (existsSync(path)) return;
    await mkdir(path, { recursive: true });
    await given(path);
    undo.unshift(() => rm(path, { recursive: true, force: true }));
  };
  const pastMovedAway = async (): Promise<void> => {
    const past = (await readdir(folder)).filter((name) => IS_OF_THE_PAST.test(name));
    if (past.length === 0) return;
    const to = besideFrom(folder, nowMillis);
    await madeFolder(to);
    for (const name of past) await named(join(folder, name), join(to, name));
    await syncFolder(to);
    moved.push(to);
  };
  const farmMovedAway = async (): Promise<void> => {
    if (!existsSync(farmFile)) return;
    const to = besideFrom(farmFile, nowMillis);
    await named(farmFile, to);
    moved.push(to);
  };
  try {
    await rm(fresh, { recursive: true, force: true });
    await mkdir(fresh, { recursive: true });
    await bookOutOf(file, bookPath(fresh));
    // A farm file that is replaced keeps its owner and mode; a service reads it, and need not be its owner.
    const farmBefore = owner === null ? undefined : ((await statsOf(farmFile)) ?? undefined);
    for (const { role, content } of backup.files) {
      const text = content.toString('utf8');
      await (role === 'farm'
        ? writeWhole(freshFarm, text, farmBefore)
        : writeWhole(calibrationFile(fresh), text));
    }
    for (const name of await readdir(fresh)) await given(join(fresh, name));
    await syncFolder(fresh);
    await madeFolder(folder);
    await pastMovedAway();
    for (const name of await readdir(fresh)) await named(join(fresh, name), join(folder, name));
    await farmMovedAway();
    await named(freshFarm, farmFile);
    await syncFolder(folder);
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
