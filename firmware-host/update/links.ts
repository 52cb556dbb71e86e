import { constants } from 'node:fs';
import { access, lstat, readdir, readlink, realpath, rename, rm, stat, symlink } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { syncFolder } from '../storage/sync-folder.ts';

/**
 * The folders of the program lie side by side, and links beside them say which is which. hardware-notes/way-back.sh, which runs
 * where no version of this program can be trusted to, reads and writes the same three.
 */
export const LINKS = {
  /** The folder that the service starts. */
  current: 'current',
  /** The one before it: the way back, while there is one. */
  before: 'before',
  /** The one that did not start, after the way back was gone; a clean stop takes it away. */
  wentBack: 'went-back',
} as const;

export type Link =
  | { readonly kind: 'none' }
  | { readonly kind: 'link'; readonly to: string }
  /** A file or folder stands where the link should be. */
  | { readonly kind: 'no-link' };

export const linkAt = async (path: string): Promise<Link> => {
  try {
    const found = await lstat(path);
    return found.isSymbolicLink() ? { kind: 'link', to: await readlink(path) } : { kind: 'no-link' };
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === 'ENOENT' || code === 'ENOTDIR') return { kind: 'none' };
    throw error;
  }
};

const FRESH = /\.\d+\.new$/;

/** What an update left that was cut between making a link and giving it its name. */
const removeLeftOver = async (root: string): Promise<void> => {
  const names: readonly string[] = Object.values(LINKS);
  for (const name of await readdir(root)) {
    if (FRESH.test(name) && names.includes(name.replace(FRESH, ''))) await rm(join(root, name));
  }
};

/** A reader, a kill and a power cut find the old link or the new one: rename(2) leaves no moment without. */
const point = async (root: string, name: string, to: string): Promise<void> => {
  const fresh = join(root, `${name}.${process.pid}.new`);
  await symlink(to, fresh);
  try {
    await rename(fresh, join(root, name));
  } catch (error) {
    await rm(fresh, { force: true });
    throw error;
  }
  await syncFolder(root);
};

/** Whether links can be made in this folder. */
export const canSwitch = (root: string): Promise<boolean> =>
  access(root, constants.W_OK | constants.X_OK).then(
    () => true,
    () => false,
  );

/** Where a link leads: a folder beside it goes by its name, however the link is written; any other by its whole path. */
export type Target =
  | { readonly kind: 'nowhere' }
  | { readonly kind: 'beside'; readonly name: string }
  | { readonly kind: 'elsewhere'; readonly path: string };

export const targetOf = async (root: string, name: string): Promise<Target> => {
  const path = await realpath(join(root, name)).catch(() => null);
  if (path === null) return { kind: 'nowhere' };
  return dirname(path) === (await realpath(root))
    ? { kind: 'beside', name: basename(path) }
    : { kind: 'elsewhere', path };
};

/** Whether both paths lead to one folder that is there. */
export const isSameFolder = async (one: string, other: string): Promise<boolean> => {
  try {
    const [first, second] = await Promise.all([stat(one), stat(other)]);
    return first.ino === second.ino && first.dev === second.dev;
  } catch {
    return false;
  }
};

/**
 * A folder that has been in force for less than this may be about to fail: hardware-notes/way-back.sh counts three failures in
 * ten minutes. It is no way back, where there is another.
 */
const PROVED_MINUTES = 30;

const isProved = async (root: string): Promise<boolean> => {
  if ((await linkAt(join(root, LINKS.before))).kind !== 'link') return true;
  const { mtimeMs } = await lstat(join(root, LINKS.current));
  return Date.now() - mtimeMs >= PROVED_MINUTES * 60_000;
};

/**
 * The service starts `folder` from its next start on. `before` is set first: cut in between, it names the folder that is still
 * in force, and the way back from there leads nowhere else.
 * @returns the name of the folder to which the service goes back where this one fails; null where there is none
 * @throws Error of the file system; the folder before is in force then
 */
export const switchTo = async (folder: string): Promise<string | null> => {
  const root = dirname(folder);
  const current = await targetOf(root, LINKS.current);
  await removeLeftOver(root);
  if (current.kind === 'beside' && (await isProved(root))) await point(root, LINKS.before, current.name);
  await point(root, LINKS.current, basename(folder));
  await rm(join(root, LINKS.wentBack), { force: true });
  const before = await targetOf(root, LINKS.before);
  return before.kind === 'beside' && before.name !== basename(folder) ? before.name : null;
};
