import { readlink } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { LINKS } from '../update/links.ts';
import type { Counted } from './starts.ts';

/** As hardware-notes/way-back.sh counts them. */
const FAILURES = 3;

/** The folder in which `dist` lies, whatever link led there: Node.js loads a program by its real path. */
const OWN_FOLDER = dirname(import.meta.dirname);

/**
 * Why this version runs although a later one was asked for, in words for a person; null where nothing went back. The link is
 * made by hardware-notes/way-back.sh, and taken away after a clean stop. Never throws: the host must start.
 */
export const wentBackFrom = async (folder = OWN_FOLDER): Promise<string | null> => {
  try {
    const failed = await readlink(join(dirname(folder), LINKS.wentBack));
    return basename(failed) === basename(folder)
      ? null
      : `${basename(failed)} failed ${FAILURES} times within 10 min, so ${basename(folder)} runs again`;
  } catch {
    return null;
  }
};

/** Said as the cause, also where those failures made a crash loop. Not all of them came as far as to be counted. */
export const withWayBack = (counted: Counted, wentBack: string | null): Counted =>
  wentBack === null
    ? counted
    : { ...counted, starts: Math.max(counted.starts, FAILURES + 1), safeMode: wentBack };
