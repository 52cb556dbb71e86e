import {
  chmodSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  realpathSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeEach, describe, expect, it } from 'vitest';
import {
  isOnlyThere,
  switchPort,
  usbPortOf,
  type SystemRoots,
} from '../../../firmware-host/devices/usb-port.ts';
import { linuxPorts } from '../../../firmware-host/devices/usb-ports.ts';

/**
 * A tree as Linux shows it: a board `1-1.2` in the second port of a hub `1-1`, which is in the first of the machine. Names
 * by the Linux kernel documentation, ABI/testing/sysfs-bus-usb, and driver-api/usb/usb (naming of devices).
 */
const tree = (tty: string, isUnder: 'interface' | 'port-folder') => {
  const root = realpathSync(mkdtempSync(join(tmpdir(), 'rillkeeper-sys-')));
  const roots: SystemRoots = { sys: join(root, 'sys'), dev: join(root, 'dev') };
  const hub = join(roots.sys, 'devices/usb1/1-1');
  const port = join(hub, '1-1:1.0/1-1-port2');
  const board = join(hub, '1-1.2');
  const line = join(board, '1-1.2:1.0', ...(isUnder === 'interface' ? [] : [tty]));
  mkdirSync(port, { recursive: true });
  mkdirSync(join(line, 'tty', tty), { recursive: true });
  for (const device of [hub, board]) writeFileSync(join(device, 'idVendor'), '2341\n');
  writeFileSync(join(port, 'disable'), '0\n');
  symlinkSync(port, join(board, 'port'));
  symlinkSync(board, join(port, 'device'));
  symlinkSync(line, join(line, 'tty', tty, 'device'));
  mkdirSync(join(roots.sys, 'class/tty'), { recursive: true });
  symlinkSync(join(line, 'tty', tty), join(roots.sys, 'class/tty', tty));
  mkdirSync(join(roots.dev, 'serial/by-id'), { recursive: true });
  mkdirSync(join(roots.dev, 'pts'));
  const node = join(roots.dev, tty);
  writeFileSync(node, '');
  return {
    roots,
    root,
    hub,
    port,
    board,
    node,
    state: (): string => readFileSync(join(port, 'disable'), 'utf8')[0]!,
  };
};

describe('the USB port of a serial line', () => {
  it.each([
    ['ttyACM0', 'interface'],
    ['ttyUSB0', 'port-folder'],
  ] as const)(
    '%s is the port into which its device is plugged, not that of the hub above',
    async (tty, isUnder) => {
      const { roots, port, node } = tree(tty, isUnder);
      expect(await usbPortOf(node, roots)).toBe(port);
      const byId = join(roots.dev, 'serial/by-id/usb-board-if00');
      symlinkSync(node, byId);
      expect(await usbPortOf(byId, roots)).toBe(port);
    },
  );

  it('is none of a pseudo-terminal, a line of the machine itself, a path elsewhere, or no device at all', async () => {
    const { roots, root } = tree('ttyACM0', 'interface');
    const platform = join(roots.sys, 'devices/platform/serial/tty/ttyS0');
    mkdirSync(platform, { recursive: true });
    symlinkSync(join(roots.sys, 'devices/platform/serial'), join(platform, 'device'));
    symlinkSync(platform, join(roots.sys, 'class/tty/ttyS0'));
    const paths = ['pts/3', 'ttyS0'].map((name) => join(roots.dev, name));
    for (const path of paths) writeFileSync(path, '');
    // A link with the name of the board's line, in another folder.
    const elsewhere = join(root, 'ttyACM0');
    writeFileSync(elsewhere, '');
    const named = [...paths, elsewhere, join(roots.dev, 'ttyACM7'), 'tcp://shed:4000', 'auto', ''];
    expect(await Promise.all(named.map((line) => usbPortOf(line, roots)))).toEqual(named.map(() => null));
  });

  it('is only theirs while nothing else is plugged in', async () => {
    const { roots, port, node, board, hub } = tree('ttyACM0', 'interface');
    expect(await isOnlyThere(port, node, roots)).toBe(true);
    rmSync(node);
    expect(await isOnlyThere(port, node, roots)).toBe(false);
    rmSync(join(port, 'device'));
    expect(await isOnlyThere(port, node, roots)).toBe(true);
    // The board is in another port now, and a disk in this one.
    writeFileSync(node, '');
    rmSync(join(board, 'port'));
    const other = join(hub, '1-1:1.0/1-1-port3');
    mkdirSync(other);
    symlinkSync(other, join(board, 'port'));
    symlinkSync(hub, join(port, 'device'));
    expect(await isOnlyThere(port, node, roots)).toBe(false);
  });
});

describe('a USB port', () => {
  it('is switched off by 1 and on by 0', async () => {
    const { port, state } = tree('ttyACM0', 'interface');
    expect([await switchPort(port, 'off'), state()]).toEqual([null, '1']);
    expect([await switchPort(port, 'on'), state()]).toEqual([null, '0']);
  });

  it('that Linux before 6.0 shows without a switch says so, and none is made', async () => {
    const { port } = tree('ttyACM0', 'interface');
    rmSync(join(port, 'disable'));
    expect(await switchPort(port, 'off')).toBe('this system cannot switch it (Linux 6.0 or later can)');
    expect(() => readFileSync(join(port, 'disable'))).toThrow('ENOENT');
  });

  it('that may not be written names the page that tells how to give the right', async () => {
    const { port } = tree('ttyACM0', 'interface');
    rmSync(join(port, 'disable'));
    // To root no file is closed: one that takes nothing stands for it.
    if (process.getuid?.() === 0) mkdirSync(join(port, 'disable'));
    else {
      writeFileSync(join(port, 'disable'), '0\n');
      chmodSync(join(port, 'disable'), 0o444);
    }
    expect(await switchPort(port, 'off')).toMatch(/EISDIR|docs\/install-host\.md/);
  });
});

describe('the note of a port that is off', () => {
  let folder = '';
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'rillkeeper-note-'));
  });

  it('is read by the next host, until the port is on again', async () => {
    const { roots, port } = tree('ttyACM0', 'interface');
    const ports = linuxPorts(folder, roots);
    expect(await ports.leftOff()).toBeNull();
    expect(await ports.note(port)).toBeNull();
    expect(await linuxPorts(folder, roots).leftOff()).toBe(port);
    expect(await ports.note(null)).toBeNull();
    expect(await ports.leftOff()).toBeNull();
  });

  it.each(['', '/etc/passwd', 'SYS/devices/usb1', 'SYS/../etc/1-1-port2', 'SYSTEM/1-1-port2', '\0'])(
    'that holds %j is none',
    async (text) => {
      const { roots } = tree('ttyACM0', 'interface');
      writeFileSync(join(folder, 'usb-port-off'), text.replace(/^SYS/, roots.sys));
      expect(await linuxPorts(folder, roots).leftOff()).toBeNull();
    },
  );

  it('that cannot be written says why', async () => {
    const file = join(folder, 'file');
    writeFileSync(file, '');
    const { roots, port } = tree('ttyACM0', 'interface');
    expect(await linuxPorts(file, roots).note(port)).toMatch(/ENOTDIR|EEXIST/);
  });
});
