import { rm, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';
import { readWhole, writeWhole } from '../storage/atomic-file.ts';

/** Who may write in the state folder stands at the host; a text or a posting never gets here. */
export const hostWordFile = (folder: string): string => join(folder, 'word.json');

const said = { who: z.string().min(1).max(80), atMillis: z.number() };
const hostWord = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('clock-right'), ...said }),
  /** The kinds of the alarms that were shown to whoever acknowledges. */
  z.strictObject({ kind: z.literal('acknowledge'), alarms: z.array(z.string()).max(60), ...said }),
  /** No minutes: what was put off is to be told again now. */
  z.strictObject({
    kind: z.literal('shelve'),
    alarm: z.string().max(60),
    minutes: z.number().min(0),
    ...said,
  }),
]);
export type HostWord = z.infer<typeof hostWord>;

/** What was said about a clock that has been another since is about that clock no more. Common practice, no source. */
export const WORD_SECONDS = 60;

/** Leaves a word for the host, in a file of whoever has the folder. @throws Error of the file system; no folder is made */
export const sayToHost = async (folder: string, word: HostWord): Promise<void> => {
  const { uid, gid } = await stat(folder);
  const own = process.getuid?.() === 0 ? { uid, gid, mode: 0o600 } : undefined;
  await writeWhole(hostWordFile(folder), JSON.stringify(word), own);
};

/**
 * Null where nobody has said anything, or where it is too old or no word at all, and gone afterwards. That the clock is right
 * stays unheard while nobody doubts it: whoever said so is told that no host took it.
 */
const takenWord = async (folder: string, wallMillis: number, doubts: boolean): Promise<HostWord | null> => {
  const text = await readWhole(hostWordFile(folder));
  if (text === null) return null;
  const read = hostWord.safeParse(parsed(text));
  if (read.success && read.data.kind === 'clock-right' && !doubts) return null;
  await rm(hostWordFile(folder), { force: true });
  if (!read.success || Math.abs(wallMillis - read.data.atMillis) > WORD_SECONDS * 1000) return null;
  return read.data;
};

const parsed = (text: string): unknown => {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
};

/**
 * Listens for somebody at the host. `look` starts one look, unless one is under way still: of a disk that hangs nobody waits
 * here.
 */
export interface HostWordWatch {
  readonly look: (doubts: 'clock' | 'nothing') => void;
  /** What was said since the last call; null when nothing was. */
  readonly said: () => HostWord | null;
}

export const hostWordWatch = (folder: string, wallMillis: () => number): HostWordWatch => {
  let looking = false;
  let heard: HostWord | null = null;
  return {
    look: (doubts) => {
      if (looking) return;
      looking = true;
      takenWord(folder, wallMillis(), doubts === 'clock')
        .then((word) => {
          heard = word ?? heard;
        })
        // What cannot be read says nothing; whoever said it is told that no host took it.
        .catch(() => undefined)
        .finally(() => {
          looking = false;
        });
    },
    said: () => {
      const word = heard;
      heard = null;
      return word;
    },
  };
};
