import { readFile, stat } from 'node:fs/promises';
import { claimantOf, heldNames, isHeld, named, portClaimed, type Claim, type Claimant } from './one-host.ts';
import { slug } from './state-folder.ts';

/** By its name everybody on the machine can see that a process is a host, also one of another user, and of which farm. */
const hostName = (pid: number, farm: string): string => `rillkeeper-host-${pid}-${slug(farm)}`;

const isHost = (pid: number): Promise<boolean> =>
  isHeld((name) => name.startsWith(`rillkeeper-host-${pid}-`));

/** Of a file system, as /proc/locks writes it and as stat(2) gives it (makedev(3)). */
const fileSystem = (device: number): string =>
  [(device >>> 8) & 0xfff, (device & 0xff) | ((device >>> 12) & 0xfff00)]
    .map((part) => part.toString(16).padStart(2, '0'))
    .join(':');

/**
 * Who has the port locked, as each program has that opens it by the serial library of this one. The kernel tells every user
 * (proc(5), /proc/locks).
 */
const lockerOf = async (port: string): Promise<number | null> => {
  const [device, locks] = await Promise.all([
    stat(port).catch(() => null),
    readFile('/proc/locks', 'utf8').catch(() => ''),
  ]);
  if (device === null) return null;
  const place = `${fileSystem(device.dev)}:${device.ino}`;
  const line = locks.split('\n').find((one) => one.includes(' FLOCK ') && one.includes(` ${place} `));
  const pid = Number(line?.trim().split(/\s+/)[4]);
  return Number.isInteger(pid) && pid > 0 ? pid : null;
};

/** The host that has the port open; a command that looks at a board for a while is none. */
const hostOn = async (port: string): Promise<number | null> => {
  const pid = await lockerOf(port);
  return pid !== null && pid !== process.pid && (await isHost(pid)) ? pid : null;
};

const taken = (pid: number): Claim => ({ kind: 'taken', pid });

/** The host that drives the board on a port, whatever its farm, its user and its state folder. */
export const boardTaken = async (port: string): Promise<Claim | null> => {
  const pid = await hostOn(port);
  return pid === null ? null : taken(pid);
};

/** Looking for any board: not beside a host of the same farm, and not where hosts have all that is there. */
const anyBoard = async (farm: string, listed: readonly string[]): Promise<Claim> => {
  const hosts = await Promise.all(listed.map(hostOn));
  for (const pid of hosts) {
    if (pid !== null && (await isHeld((name) => name === hostName(pid, farm)))) return taken(pid);
  }
  const [first] = hosts;
  return typeof first === 'number' && !hosts.includes(null) ? taken(first) : { kind: 'claimed' };
};

export interface BoardAsked {
  /** The port as it was named; null: whichever board is there. */
  readonly port: string | null;
  readonly farm: string;
  /** The serial ports of this machine. */
  readonly listed: readonly string[];
}

/**
 * Claims the board for this process: state folders tell hosts of one user apart, but the service and a person at the keyboard have
 * different ones, and the board is the same. Not the farm's name is claimed, which two growers may share, and which a trial
 * of the same file on another board has too.
 */
export const boardClaimed = async ({ port, farm, listed }: BoardAsked): Promise<Claim> => {
  const claim =
    port === null ? await anyBoard(farm, listed) : ((await boardTaken(port)) ?? (await portClaimed(port)));
  if (claim.kind === 'claimed') await named(hostName(process.pid, farm));
  return claim;
};

/** The process of a host that runs a farm on a real board, whatever its user and its state folder. */
export const hostOfFarm = async (farm: string): Promise<number | null> => {
  const wanted = slug(farm);
  for (const name of await heldNames()) {
    const [, pid, its] = /^rillkeeper-host-(\d+)-(.+)$/.exec(name) ?? [];
    if (its === wanted) return Number(pid);
  }
  return null;
};

/** The host that runs a farm with a state folder. A command may have that folder for a while too, and is none. */
export const hostThere = async (folder: string, farm: string): Promise<Claimant | null> => {
  const found = await claimantOf(folder);
  if (found === null) return null;
  const { pid } = found;
  const isItsName = (name: string): boolean =>
    name.startsWith('rillkeeper-host-') &&
    (pid === null ? name.endsWith(`-${slug(farm)}`) : name === hostName(pid, farm));
  return (await isHeld(isItsName)) ? found : null;
};
