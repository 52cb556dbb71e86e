import { spawn, type ChildProcess } from 'node:child_process';

/** More than this of what a program says is not kept. */
const SAID_LENGTH_MAX = 4096;
/** What is killed has ended by then, unless the system cannot end it. */
const KILLED_MILLIS = 200;

/**
 * Programs that were killed and have not ended: one that waits for a dead disk cannot. Until it has, no other of its name is
 * begun, or they would pile up.
 */
const hanging = new Set<string>();

const begun = (program: string, words: readonly string[]): ChildProcess | null => {
  try {
    const child = spawn(program, words, { stdio: ['ignore', 'pipe', 'ignore'] });
    // Before anything else: an error that nobody hears ends the host.
    child.on('error', () => undefined);
    // It keeps no host from ending.
    child.unref();
    return child;
  } catch {
    // Without memory, or with too large an environment, spawn throws instead.
    return null;
  }
};

/**
 * What a program said until it ended well; null for whatever else becomes of it. Never throws, and never waits longer than
 * `millisMax` and 0.2 s more, whatever the program does with a signal.
 *
 * One wait has no bound: the thread that begins a program stands until the system has loaded it, and so does the pump, where
 * a dying card takes seconds for that. Of the threads that are there anyway none fits: that of the herald is not in every host,
 * that of the book answers one question at a time. A watchdog of the board, or of the service manager, ends a stand that lasts.
 */
export const saidBriefly = (
  program: string,
  words: readonly string[],
  millisMax: number,
): Promise<string | null> => {
  const child = hanging.has(program) ? null : begun(program, words);
  if (child === null) return Promise.resolve(null);
  return new Promise((end) => {
    let said = '';
    let late = setTimeout(() => {
      child.kill('SIGKILL');
      // A child of its own may hold the line open.
      child.stdout?.destroy();
      late = setTimeout(() => {
        hanging.add(program);
        end(null);
      }, KILLED_MILLIS);
    }, millisMax);
    const ended = (what: string | null): void => {
      clearTimeout(late);
      hanging.delete(program);
      end(what);
    };
    child.stdout?.setEncoding('utf8').on('data', (text: string) => {
      said = (said + text).slice(0, SAID_LENGTH_MAX);
    });
    child.on('error', () => {
      ended(null);
    });
    child.once('close', (code) => {
      ended(code === 0 ? said : null);
    });
  });
};
