import { readFile, realpath, stat, writeFile } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';

/** Where Linux shows its devices; a test has a tree of its own. */
export interface SystemRoots {
  readonly sys: string;
  readonly dev: string;
}
export const SYSTEM: SystemRoots = { sys: '/sys', dev: '/dev' };

const isThere = (path: string): Promise<boolean> =>
  stat(path).then(
    () => true,
    () => false,
  );

/** From the interface of a serial line up to the USB device that has it; a hub above it is another device. */
const usbDeviceAbove = async (folder: string, root: string): Promise<string | null> => {
  for (let at = folder; at.startsWith(`${root}/`); at = dirname(at)) {
    if (await isThere(join(at, 'idVendor'))) return at;
  }
  return null;
};

/**
 * The port of the hub into which the device behind a serial line is plugged, as a folder; null where the line is no USB device:
 * a pseudo-terminal, a line of the machine itself, a name that is no device. `/sys/class/tty/<name>/device` leads to the
 * device, and its link `port` to the port (Linux kernel documentation, ABI/testing/sysfs-bus-usb).
 */
export const usbPortOf = async (line: string, { sys, dev }: SystemRoots = SYSTEM): Promise<string | null> => {
  try {
    const [node, devices] = await Promise.all([realpath(line), realpath(dev)]);
    if (dirname(node) !== devices) return null;
    const tty = await realpath(join(sys, 'class/tty', basename(node), 'device'));
    const device = await usbDeviceAbove(tty, await realpath(sys));
    return device === null ? null : await realpath(join(device, 'port'));
  } catch {
    return null;
  }
};

/**
 * Whether nothing but the device behind this line would lose its power: the port is empty, or that device is plugged into it
 * still. Something else may have been plugged in meanwhile.
 */
export const isOnlyThere = async (
  port: string,
  line: string,
  roots: SystemRoots = SYSTEM,
): Promise<boolean> => !(await isThere(join(port, 'device'))) || (await usbPortOf(line, roots)) === port;

const WORDS: Readonly<Record<string, string>> = {
  ENOENT: 'this system cannot switch it (Linux 6.0 or later can)',
  EACCES: 'no right to switch it; docs/install-host.md says how to give it',
  EPERM: 'no right to switch it; docs/install-host.md says how to give it',
  EROFS: 'no right to switch it; docs/install-host.md says how to give it',
};

/**
 * Switches a port off or on (`disable`, Linux 6.0 and later, ABI/testing/sysfs-bus-usb); where the hub can, also its power.
 * Gives why not, null when it is done.
 */
export const switchPort = async (port: string, to: 'off' | 'on'): Promise<string | null> => {
  const file = join(port, 'disable');
  try {
    // Never made anew: what is not there cannot be switched.
    await readFile(file);
    await writeFile(file, to === 'off' ? '1' : '0', { flag: 'r+' });
    return null;
  } catch (error) {
    const { code, message } = error as NodeJS.ErrnoException;
    return WORDS[code ?? ''] ?? message;
  }
};
