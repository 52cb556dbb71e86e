import { existsSync, readdirSync, readFileSync, readlinkSync } from 'node:fs';

/** Anybody on the network may begin to talk to it. */
export interface OpenSocket {
  readonly table: 'tcp' | 'tcp6' | 'udp' | 'udp6';
  /** As the kernel writes it: address and port in hexadecimal. */
  readonly local: string;
}

/** What /proc/net tells of a socket that waits for whoever comes (proc(5)): LISTEN of TCP; a UDP socket with no other side. */
const WAITS = { tcp: '0A', tcp6: '0A', udp: '07', udp6: '07' } as const;
const TABLES = ['tcp', 'tcp6', 'udp', 'udp6'] as const;

/** A process that has ended, or a descriptor that was closed meanwhile, has nothing open. */
const orNone = <Found>(look: () => readonly Found[]): readonly Found[] => {
  try {
    return look();
  } catch {
    return [];
  }
};

/** The process and all that it has begun, and those in turn. */
export const familyOf = (pid: number): readonly number[] => {
  const begun = orNone(() => readdirSync(`/proc/${pid}/task`)).flatMap((thread) =>
    orNone(() => readFileSync(`/proc/${pid}/task/${thread}/children`, 'utf8').trim().split(/\s+/)),
  );
  return [pid, ...begun.filter((child) => child !== '').flatMap((child) => familyOf(Number(child)))];
};

/** The kernel's numbers of the sockets that a process has open. */
export const socketsOf = (pid: number): ReadonlySet<string> =>
  new Set(
    orNone(() => readdirSync(`/proc/${pid}/fd`))
      .flatMap((fd) => orNone(() => [readlinkSync(`/proc/${pid}/fd/${fd}`)]))
      .flatMap((link) => /^socket:\[(\d+)\]$/.exec(link)?.[1] ?? []),
  );

const openIn = (table: OpenSocket['table'], pid: number, own: ReadonlySet<string>): readonly OpenSocket[] => {
  const file = `/proc/${pid}/net/${table}`;
  // Without IPv6 the kernel has no tables of it; without IPv4 nothing here would be known.
  if (table.endsWith('6') && !existsSync(file)) return [];
  return readFileSync(file, 'utf8')
    .split('\n')
    .slice(1)
    .map((line) => line.trim().split(/\s+/))
    .filter((cells) => cells[3] === WAITS[table] && own.has(cells[9] ?? ''))
    .map((cells) => ({ table, local: cells[1] ?? '' }));
};

/** All of one process and of those that it has begun. @throws Error when that process is not there, or no /proc is */
export const openSockets = (pid: number): readonly OpenSocket[] => {
  if (!existsSync(`/proc/${pid}/fd`)) throw new Error(`no process ${pid}`);
  return familyOf(pid).flatMap((each) => {
    const own = socketsOf(each);
    return own.size === 0 ? [] : TABLES.flatMap((table) => openIn(table, each, own));
  });
};
