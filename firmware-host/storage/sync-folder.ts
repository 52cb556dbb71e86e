import { open } from 'node:fs/promises';

/** Names that were changed in a folder outlast a power cut after it. @throws Error of the file system */
export const syncFolder = async (path: string): Promise<void> => {
  const folder = await open(path, 'r');
  try {
    await folder.sync();
  } finally {
    await folder.close();
  }
};
