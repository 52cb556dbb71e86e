import { spawn, type ChildProcessByStdio } from 'node:child_process';
import { once } from 'node:events';
import { existsSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Readable, Writable } from 'node:stream';
import { setTimeout as sleep } from 'node:timers/promises';
import type { LineCandidate, OpenLine } from '../../firmware-host/devices/line.ts';
import { serialLines } from '../../firmware-host/devices/serial-lines.ts';
import { realTimers } from '../../firmware-host/devices/timers.ts';
import type { OpenedPort } from '../../sim/board/firmata/usb.ts';
import { poweredUsb, type Bench } from './bench.ts';
import { STOCK, stockBoard } from './bench-board.ts';

type Child = ChildProcessByStdio<Writable, Readable, null>;

/** One end of a pseudo-terminal under a path, the other in a child of this process. */
interface Socket {
  readonly child: Child;
  readonly serialNumber: string | null;
  /** The board's side while the host has the port open. */
  board: OpenedPort | null;
}

/** What the host wrote last is still under way when it lets go of the port. */
const UNDER_WAY_MILLIS = 200;
const MISSING =
  'socat is not installed, and without it there is no serial line to test on: apt-get install socat';

const spawned = async (path: string): Promise<Child> => {
  const child = spawn('socat', ['-', `PTY,link=${path},raw,echo=0`], { stdio: ['pipe', 'pipe', 'ignore'] });
  await new Promise<void>((started, failed) => {
    child.once('spawn', started);
    child.once('error', (error) => {
      failed(new Error(MISSING, { cause: error }));
    });
  });
  // What is written to a cable that has just been pulled is lost, as it should be.
  child.stdin.on('error', () => undefined);
  for (let waited = 0; !existsSync(path); waited += 1) {
    if (waited > 500 || child.exitCode !== null) throw new Error(`socat made no line at ${path}`);
    await sleep(10);
  }
  return child;
};

/** Software boards behind real serial ports, on the clock of this machine. */
export const serialBench = async (): Promise<Bench> => {
  const folder = await mkdtemp(join(tmpdir(), 'rillkeeper-lines-'));
  const usb = poweredUsb(realTimers);
  const sockets = new Map<string, Socket>();

  /** The host has the port: its board resets, as when DTR falls. */
  const joined = (port: string): void => {
    const socket = sockets.get(port);
    if (socket === undefined) return;
    void socket.board?.close();
    socket.board = usb.open(port, {
      opened: () => undefined,
      heard: (bytes) => socket.child.stdin.write(bytes),
      lost: () => undefined,
    });
  };
  const open: OpenLine = (name, events) => {
    const line = serialLines.open(name, {
      ...events,
      opened: () => {
        joined(name);
        events.opened();
      },
    });
    return {
      write: line.write,
      close: async () => {
        const board = sockets.get(name)?.board;
        await line.close();
        setTimeout(() => void board?.close(), UNDER_WAY_MILLIS);
      },
    };
  };
  const unplug = async (port: string): Promise<void> => {
    const socket = sockets.get(port);
    if (socket === undefined) return;
    sockets.delete(port);
    usb.pull(port);
    socket.child.kill('SIGKILL');
    await once(socket.child, 'exit');
    // Its number may come back for another line; the name must not lead there.
    await rm(port, { force: true });
  };

  return {
    kind: STOCK,
    newBoard: ({ bootMillis } = {}) => stockBoard(bootMillis === undefined ? {} : { bootMillis }),
    timers: realTimers,
    lines: {
      open,
      candidates: () =>
        Promise.resolve(
          [...sockets].map(([name, { serialNumber }]): LineCandidate => ({
            name,
            serialNumber,
            says: 'a pseudo-terminal',
          })),
        ),
    },
    ports: [join(folder, 'one'), join(folder, 'two')],
    plug: async (port, board, serialNumber) => {
      const child = await spawned(port);
      const socket: Socket = { child, serialNumber: serialNumber ?? null, board: null };
      sockets.set(port, socket);
      usb.plug(port, board, serialNumber);
      child.stdout.on('data', (bytes: Buffer) => {
        socket.board?.write(bytes);
      });
    },
    unplug,
    stall: usb.stall,
    disturb: (port, bytes) => {
      usb.disturb(port, Uint8Array.from(bytes));
    },
    look: usb.look,
    pass: async (seconds) => {
      await sleep(seconds * 1000);
    },
    staleBytes: usb.staleBytes,
    end: async () => {
      await Promise.all([...sockets.keys()].map(unplug));
      await rm(folder, { recursive: true, force: true });
    },
  };
};
