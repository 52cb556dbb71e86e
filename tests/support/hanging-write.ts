import { execFileSync } from 'node:child_process';
import { mkdirSync } from 'node:fs';
import { open } from 'node:fs/promises';
import { dirname } from 'node:path';

/**
 * Makes the next whole write of this process to a file hang, as on a disk that does not come back: a pipe that nobody reads lies
 * where the fresh text is written first.
 * @returns lets it come back
 */
export const hangingWrite = (path: string): (() => Promise<void>) => {
  const pipe = `${path}.${process.pid}.new`;
  mkdirSync(dirname(path), { recursive: true });
  execFileSync('mkfifo', [pipe]);
  return async () => {
    const reader = await open(pipe, 'r');
    await reader.close();
  };
};
