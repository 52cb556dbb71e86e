import { createHash } from 'node:crypto';
import { createServer } from 'node:net';

/**
 * Claims a state folder for this process until it ends, however it ends: a name in the kernel, not a file, so
 * that no power cut leaves a claim behind that nobody holds. False when another process has it. Where the
 * system has no such names (only Linux has) the lock of the serial port alone keeps hosts apart.
 */
export const claimed = (folder: string): Promise<boolean> =>
  new Promise((answer) => {
    if (process.platform !== 'linux') {
      answer(true);
      return;
    }
    const name = createHash('sha256').update(folder).digest('hex').slice(0, NAME_LETTERS);
    const server = createServer();
    server.unref();
    server.once('error', (error: NodeJS.ErrnoException) => {
      answer(error.code !== 'EADDRINUSE');
    });
    server.listen(`\0rillkeeper-${name}`, () => {
      answer(true);
    });
  });

/** A name may have 107 letters. */
const NAME_LETTERS = 32;
