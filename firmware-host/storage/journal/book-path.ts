import { join } from 'node:path';

/** The book of a state folder. Beside it lie SQLite's own `-wal` and `-shm` while it is open. */
export const bookPath = (folder: string): string => join(folder, 'book.sqlite');

/** Room that is held free for alarms, and given up when the disk is full. */
export const reservePath = (folder: string): string => join(folder, 'book.reserve');
