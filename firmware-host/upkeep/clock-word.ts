import { rm } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';
import { readWhole, writeWhole } from '../storage/atomic-file.ts';

/** Who may write in the state folder stands at the host; a text or a posting never gets here. */
export const clockWordFile = (folder: string): string => join(folder, 'clock-right.json');

const clockWord = z.strictObject({ who: z.string().min(1).max(80), atMillis: z.number() });
export type ClockWord = z.infer<typeof clockWord>;

/** What was said about a clock that has been another since is about that clock no more. Common practice, no source. */
export const WORD_SECONDS = 60;

/** Says to the host that the clock is right. @throws Error of the file system */
export const sayClockRight = (folder: string, word: ClockWord): Promise<void> =>
  writeWhole(clockWordFile(folder), JSON.stringify(word));

/** Null where nobody has said anything, or where it is too old or no word at all. Either way it is gone afterwards. */
const takenWord = async (folder: string, wallMillis: number): Promise<ClockWord | null> => {
  const text = await readWhole(clockWordFile(folder));
  if (text === null) return null;
  await rm(clockWordFile(folder), { force: true });
  const read = clockWord.safeParse(JSON.parse(text));
  if (!read.success || Math.abs(wallMillis - read.data.atMillis) > WORD_SECONDS * 1000) return null;
  return read.data;
};

/**
 * Listens for somebody at the host who says that its clock is right. `look` starts one look, unless one is under way still:
 * of a disk that hangs nobody waits here.
 */
export interface ClockWordWatch {
  readonly look: () => void;
  /** What was said since the last call; null when nothing was. */
  readonly said: () => ClockWord | null;
}

export const clockWordWatch = (folder: string, wallMillis: () => number): ClockWordWatch => {
  let looking = false;
  let heard: ClockWord | null = null;
  return {
    look: () => {
      if (looking) return;
      looking = true;
      takenWord(folder, wallMillis())
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
