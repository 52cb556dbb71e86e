import { createHash } from 'node:crypto';
import { readdir, readFile, readlink } from 'node:fs/promises';
import { createServer } from 'node:net';

export type Claim =
  | { readonly kind: 'claimed' }
  /** `pid` is null where the process belongs to another user, and cannot be found by this one. */
  | { readonly kind: 'taken'; readonly pid: number | null };

/** A name may have 107 letters. */
const NAME_LETTERS = 32;

const nameFor = (folder: string): string =>
  `rillkeeper-${createHash('sha256').update(folder).digest('hex').slice(0, NAME_LETTERS)}`;

/** The kernel's number of the socket with that name; `@` stands for a zero byte, and Node.js 20 fills the name up with them (proc(5), /proc/net/unix). */
const socketNumber = async (name: string): Promise<string | null> => {
  const sockets = await readFile('/proc/net/unix', 'utf8').catch(() => '');
  const line = sockets.split('\n').find((one) => one.replace(/@+$/, '').endsWith(` @${name}`));
  return line?.trim().split(/\s+/)[6] ?? null;
};

const holds = async (pid: string, socket: string): Promise<boolean> => {
  const open = await readdir(`/proc/${pid}/fd`).catch((): readonly string[] => []);
  const links = await Promise.all(open.map((fd) => readlink(`/proc/${pid}/fd/${fd}`).catch(() => '')));
  return links.includes(`socket:[${socket}]`);
};

/** Who holds the name. The kernel is asked and not the owner, who may hang or be stopped. */
const ownerOf = async (name: string): Promise<number | null> => {
  const socket = await socketNumber(name);
  if (socket === null) return null;
  const processes = (await readdir('/proc').catch((): readonly string[] => [])).filter((one) =>
    /^\d+$/.test(one),
  );
  for (const pid of processes) if (await holds(pid, socket)) return Number(pid);
  return null;
};

/**
 * Claims a state folder for this process until it ends, however it ends: a name in the kernel, not a file, so
 * that no power cut leaves a claim behind that nobody holds. Where the system has no such names (only Linux has) the lock of
 * the serial port alone keeps hosts apart.
 */
export const claimed = (folder: string): Promise<Claim> =>
  new Promise((answer) => {
    if (process.platform !== 'linux') {
      answer({ kind: 'claimed' });
      return;
    }
    const name = nameFor(folder);
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

/** `process 4711`, or that it is another user's. */
export const ownerWords = (pid: number | null): string =>
  pid === null ? 'a process of another user' : `process ${pid}`;
