import {
  closeSync,
  fsyncSync,
  ftruncateSync,
  openSync,
  rmSync,
  statfsSync,
  statSync,
  writeSync,
} from 'node:fs';
import { reservePath } from './book-path.ts';

/** For alarms with their pages and log. */
export const RESERVE_BYTES = 1024 ** 2;
/** The reserve is laid in only where it leaves this many times as much to others. */
const ROOM = 3;

export const freeBytes = (folder: string): number => {
  const { bavail, bsize } = statfsSync(folder);
  return bavail * bsize;
};

export const hasReserve = (folder: string): boolean =>
  (statSync(reservePath(folder), { throwIfNoEntry: false })?.size ?? 0) >= RESERVE_BYTES;

export const releaseReserve = (folder: string): void => {
  rmSync(reservePath(folder), { force: true });
};

/** Lays it in where there is room. @throws Error of the file system */
export const layInReserve = (folder: string): void => {
  if (hasReserve(folder) || freeBytes(folder) < RESERVE_BYTES * ROOM) return;
  const file = openSync(reservePath(folder), 'w');
  try {
    // Written and not only lengthened: a hole in a file takes no room.
    const written = writeSync(file, Buffer.alloc(RESERVE_BYTES, 0xa5));
    if (written < RESERVE_BYTES) ftruncateSync(file, 0);
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
};
