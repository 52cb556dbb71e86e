import { join } from 'node:path';
import { z } from 'zod';
import { readWhole } from '../storage/atomic-file.ts';
import { writeFirst } from '../storage/write-in-time.ts';
import { isWithin, startSchema, type Start } from './starts.ts';

/** When a host of this farm last ended itself to be started anew: the next one must know, or it would again at once. */
const file = z.object({ renewed: startSchema });

const renewalFile = (folder: string): string => join(folder, 'renewed.json');

const read = async (folder: string): Promise<readonly Start[]> => {
  try {
    const text = await readWhole(renewalFile(folder));
    const parsed = text === null ? null : file.safeParse(JSON.parse(text));
    return parsed?.success === true ? [parsed.data.renewed] : [];
  } catch {
    // What cannot be read counts for nothing; before the next one it must be written anew.
    return [];
  }
};

/** What each folder knows; after a disk became read-only they may differ. */
export const readRenewals = async (folders: readonly string[]): Promise<readonly Start[]> =>
  (await Promise.all(folders.map(read))).flat();

export const wasRenewed = (withinHours: number, renewals: readonly Start[], now: Start): boolean =>
  renewals.some((renewal) => isWithin(withinHours * 60, renewal, now));

/** Why not, where no folder takes it. */
export const writeRenewal = (folders: readonly string[], now: Start): Promise<string | null> =>
  writeFirst(folders.map(renewalFile), `${JSON.stringify({ renewed: now })}\n`);
