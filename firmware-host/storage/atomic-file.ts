import type { Stats } from 'node:fs';
import { mkdir, open, readFile, rename, rm } from 'node:fs/promises';
import { dirname } from 'node:path';

/** Of `mode`, the part that says who may do what, without the kind of file. */
const MODE_BITS = 0o7777;

/**
 * Writes a file so that a reader, and a power cut, finds the old text or the new, never half of one.
 * A file that is a person's own keeps its owner and mode when `kept` gives them.
 * @throws Error of the file system; the old file is untouched then
 */
export const writeWhole = async (
  path: string,
  text: string,
  kept?: Pick<Stats, 'uid' | 'gid' | 'mode'>,
): Promise<void> => {
  await mkdir(dirname(path), { recursive: true });
  const fresh = `${path}.${process.pid}.new`;
  try {
    const file = await open(fresh, 'w');
    try {
      if (kept !== undefined) {
        // The owner first: a new owner clears bits of the mode.
        await file.chown(kept.uid, kept.gid);
        await file.chmod(kept.mode & MODE_BITS);
      }
      await file.writeFile(text);
      await file.sync();
    } finally {
      await file.close();
    }
    await rename(fresh, path);
  } catch (error) {
    await rm(fresh, { force: true });
    throw error;
  }
};

/** The text of a file, or null where there is none. @throws Error when it is there and cannot be read */
export const readWhole = async (path: string): Promise<string | null> => {
  try {
    return await readFile(path, 'utf8');
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return null;
    throw error;
  }
};
