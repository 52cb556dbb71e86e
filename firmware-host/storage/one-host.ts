import { createHash } from 'node:crypto';
import { readdir, readFile, readlink, realpath } from 'node:fs/promises';
import { connect, createServer } from 'node:net';
import { basename, dirname, join, resolve } from 'node:path';

export type Claim =
  | { readonly kind: 'claimed' }
  /** `pid` is null where the process belongs to another user, and cannot be found by this one. */
  | { readonly kind: 'taken'; readonly pid: number | null };

/** A name may have 107 letters. */
const NAME_LETTERS = 32;

const nameFor = (claim: string): string =>
  `rillkeeper-${createHash('sha256').update(claim).digest('hex').slice(0, NAME_LETTERS)}`;

/** Of a socket that waits for others, and is not the end of a connection to one, which has its name too (proc(5)). */
const LISTENS = '00010000';

/** `@` stands for a zero byte, and Node.js 20 fills a name up with them (proc(5), /proc/net/unix). */
const namedSockets = async (): Promise<readonly { readonly name: string; readonly socket: string }[]> => {
  const sockets = await readFile('/proc/net/unix', 'utf8').catch(() => '');
  return sockets.split('\n').flatMap((line) => {
    const [, , , flags, , , socket, name] = line.trim().split(/\s+/);
    return flags !== LISTENS || socket === undefined || name?.startsWith('@') !== true
      ? []
      : [{ socket, name: name.slice(1).replace(/@+$/, '') }];
  });
};

/** The names that whoever it is on this machine holds. */
export const heldNames = async (): Promise<readonly string[]> =>
  (await namedSockets()).map(({ name }) => name);

/** Whether somebody on this machine, whoever it is, holds a name that fits. */
export const isHeld = async (fits: (name: string) => boolean): Promise<boolean> =>
  (await heldNames()).some(fits);

const holds = async (pid: string, socket: string): Promise<boolean> => {
  const open = await readdir(`/proc/${pid}/fd`).catch((): readonly string[] => []);
  const links = await Promise.all(open.map((fd) => readlink(`/proc/${pid}/fd/${fd}`).catch(() => '')));
  return links.includes(`socket:[${socket}]`);
};

/** Who holds the name. The kernel is asked and not the owner, who may hang or be stopped. */
const ownerOf = async (wanted: string): Promise<number | null> => {
  const socket = (await namedSockets()).find(({ name }) => name === wanted)?.socket;
  if (socket === undefined) return null;
  const processes = (await readdir('/proc').catch((): readonly string[] => [])).filter((one) =>
    /^\d+$/.test(one),
  );
  for (const pid of processes) if (await holds(pid, socket)) return Number(pid);
  return null;
};

/**
 * Takes a name for this process until it ends, however it ends: a name in the kernel, not a file, so that no power cut leaves
 * one behind that nobody holds. All users of a machine share these names. Where the system has none (only Linux has) the lock
 * of the serial port alone keeps hosts apart.
 */
export const named = (name: string): Promise<Claim> =>
  new Promise((answer) => {
    if (process.platform !== 'linux') {
      answer({ kind: 'claimed' });
      return;
    }
    // Any program of this machine may knock at the name, and would else keep a descriptor of this one for each time.
    const server = createServer((socket) => socket.destroy());
    server.unref();
    server.once('error', (error: NodeJS.ErrnoException) => {
      if (error.code !== 'EADDRINUSE') answer({ kind: 'claimed' });
      else
        void ownerOf(name).then((pid) => {
          answer({ kind: 'taken', pid });
        });
    });
    server.listen(`\0${name}`, () => {
      answer({ kind: 'claimed' });
    });
  });

/** One path however it is spelled: from which folder, by which links. What is not there yet goes by the folder that is. */
const onePath = async (path: string): Promise<string> => {
  const whole = resolve(path);
  return realpath(whole).catch(async () =>
    dirname(whole) === whole ? whole : join(await onePath(dirname(whole)), basename(whole)),
  );
};

/** Claims a state folder for this process. */
export const claimed = async (folder: string): Promise<Claim> => named(nameFor(await onePath(folder)));

/** The loop of a process that turns cuts whoever knocks in much less, also on a busy small computer. */
const KNOCK_MILLIS = 5000;

const turns = (name: string): Promise<boolean> =>
  new Promise((answer) => {
    const socket = connect(`\0${name}`);
    const given = setTimeout(() => {
      answer(false);
      socket.destroy();
    }, KNOCK_MILLIS);
    socket.on('error', () => undefined).resume();
    socket.once('close', () => {
      clearTimeout(given);
      answer(true);
    });
  });

export interface Claimant {
  /** Null where the process belongs to another user. */
  readonly pid: number | null;
  /** Whether its loop still turns; one that is stopped or blocked only holds the name. */
  readonly answers: boolean;
}

/** Who has claimed a state folder, where somebody has; nothing is claimed by asking. */
export const claimantOf = async (folder: string): Promise<Claimant | null> => {
  const wanted = nameFor(await onePath(folder));
  if (!(await isHeld((name) => name === wanted))) return null;
  const [pid, answers] = await Promise.all([ownerOf(wanted), turns(wanted)]);
  return { pid, answers };
};

/** Claims a port as it was named. A link keeps its name when the board behind it gets another number. */
export const portClaimed = async (port: string): Promise<Claim> => {
  const whole = resolve(port);
  return named(nameFor(`port ${join(await onePath(dirname(whole)), basename(whole))}`));
};

/** `process 4711`, or that it is another user's. */
export const ownerWords = (pid: number | null): string =>
  pid === null ? 'a process of another user' : `process ${pid}`;
