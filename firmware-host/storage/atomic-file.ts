import { mkdir, open, readFile, rename, rm } from 'node:fs/promises';
import { dirname } from 'node:path';

/**
 * Writes a file so that a reader, and a power cut, finds the old text or the new, never half of one.
 * @throws Error of the file system; the old file is untouched then
 */
export const writeWhole = async (path: string, text: string): Promise<void> => {
  await mkdir(dirname(path), { recursive: true });
  const fresh = `${path}.${process.pid}.new`;
  try {
    const file = await open(fresh, 'w');
    try {
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
