import { dirname, resolve } from 'node:path';
import { writeWhole } from './atomic-file.ts';

/** A slow card takes a small file in less; the host waits no longer for any of its own. Engineering judgement, no source. */
const PATIENCE_MILLIS = 2000;

/**
 * The places where a write has not come back. Node.js has four threads in all for the files and serial lines of a process, and a
 * disk that hangs keeps each that waits for it: had it all four, no board would be heard any more.
 */
const hanging = new Set<string>();

/** The state folders of all farms lie in one, and so on one disk. */
const placeOf = (path: string): string => dirname(dirname(resolve(path)));

/**
 * `writeWhole` for what the host writes beside the pump: nothing there may wait for a disk that hangs. A write that is given up
 * may still arrive; until it has, no other to the same place is begun.
 * @throws Error of the file system, or that the disk does not answer
 */
export const writeInTime = async (path: string, text: string): Promise<void> => {
  const place = placeOf(path);
  if (hanging.has(place)) throw new Error(`${place}: the disk still does not answer`);
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<'late'>((end) => {
    timer = setTimeout(end, PATIENCE_MILLIS, 'late');
  });
  const writing = writeWhole(path, text);
  try {
    if ((await Promise.race([writing, late])) !== 'late') return;
  } finally {
    clearTimeout(timer);
  }
  hanging.add(place);
  const back = (): void => void hanging.delete(place);
  writing.then(back, back);
  throw new Error(`${path}: the disk has not answered for ${PATIENCE_MILLIS / 1000} s`);
};

/** Writes into the first place that takes it in time; why not, where none does. Never throws. */
export const writeFirst = async (paths: readonly string[], text: string): Promise<string | null> => {
  let why = 'no folder is known for it';
  for (const path of paths) {
    try {
      await writeInTime(path, text);
      return null;
    } catch (error) {
      why = error instanceof Error ? error.message : String(error);
    }
  }
  return why;
};
