import { accessSync, constants, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { userName } from '../user-name.ts';
import { EXIT } from './exit-code.ts';
import { Refusal } from './refusal.ts';

/** What stands at a path. @throws Error where that cannot be seen */
export const kindAt = (path: string): 'file' | 'folder' | 'other' | 'nothing' => {
  try {
    const found = statSync(path);
    if (found.isFile()) return 'file';
    return found.isDirectory() ? 'folder' : 'other';
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === 'ENOENT' || code === 'ENOTDIR') return 'nothing';
    throw error;
  }
};

export const refusePlace = (option: string, path: string, what: string): never => {
  throw new Refusal(`${option}: ${JSON.stringify(path)} ${what}`, EXIT.usage);
};

/** @throws Refusal where it cannot be seen */
const seenAt = (option: string, path: string, seen: string): ReturnType<typeof kindAt> => {
  try {
    return kindAt(seen);
  } catch (error) {
    return refusePlace(option, path, `cannot stand there (${(error as Error).message}); name another file.`);
  }
};

/** Asked before a file is written for somebody: no folder is made for it. @throws Refusal */
export const refuseWithoutFolder = (option: string, path: string): void => {
  const folder = dirname(path);
  if (seenAt(option, path, folder) !== 'folder')
    refusePlace(option, path, `has no folder to stand in; make ${JSON.stringify(folder)} first.`);
  try {
    accessSync(folder, constants.W_OK);
  } catch {
    refusePlace(
      option,
      path,
      `cannot stand there: ${userName()} may not write into ${JSON.stringify(folder)}. Name a file in another folder.`,
    );
  }
};

/**
 * The same for a file that takes the place of no other; `example` is a name for one.
 * @throws Refusal
 */
export const refuseUnlessNew = (option: string, path: string, example: string): void => {
  const there = seenAt(option, path, path);
  if (there === 'folder')
    refusePlace(option, path, `is a folder; name a file in it, such as ${join(path, example)}.`);
  if (there !== 'nothing')
    refusePlace(option, path, 'is there already, and it is left as it is; name another file.');
  refuseWithoutFolder(option, path);
};
