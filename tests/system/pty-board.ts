import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { realTimers } from '../../firmware-host/devices/timers.ts';
import type { BoardPeer } from '../../sim/board/board-peer.ts';
import { createFirmataPeer, type FirmataPeer } from '../../sim/board/firmata/peer.ts';
import type { Level } from '../../sim/board/firmata/pin-bank.ts';
import { UNO_PIN_TABLE } from '../../sim/board/firmata/uno-pins.ts';
import { createUsb } from '../../sim/board/firmata/usb.ts';
import { ownFolder } from './rillkeeper.ts';

/** A board on a desk whose pins the test sets and reads. */
export interface Desk {
  readonly peer: FirmataPeer;
  readonly analog: Map<number, number>;
  /** What hangs on a digital pin; a pin not listed is open. */
  readonly digital: Map<number, 0 | 1>;
  readonly levels: Map<number, Level>;
  /** Levels that the pin had, in order. */
  readonly history: (pin: number) => readonly Level[];
  /** When it changed to each of them, ms of the monotonic clock of this process. */
  readonly changes: (pin: number) => readonly { readonly level: Level; readonly at: number }[];
}

export const deskBoard = (): Desk => {
  const analog = new Map<number, number>();
  const digital = new Map<number, 0 | 1>();
  const levels = new Map<number, Level>();
  const driven: { readonly pin: number; readonly level: Level; readonly at: number }[] = [];
  const peer = createFirmataPeer({
    firmwareName: 'DeskFirmata.ino',
    firmwareVersion: { major: 2, minor: 5 },
    pins: UNO_PIN_TABLE,
    bootMillis: 200,
    world: {
      readDigital: (pin) => digital.get(pin) ?? 'floating',
      readAnalog: (channel) => analog.get(channel) ?? 0,
      drive: (pin, level) => {
        levels.set(pin, level);
        driven.push({ pin, level, at: performance.now() });
      },
    },
  });
  return {
    peer,
    analog,
    digital,
    levels,
    history: (pin) => driven.flatMap((one) => (one.pin === pin ? [one.level] : [])),
    changes: (pin) => driven.filter((one) => one.pin === pin),
  };
};

export interface PtyBoard {
  /** What a person would name the port. */
  readonly path: string;
  readonly unplug: () => Promise<void>;
}

/** Puts a board, or nothing, behind a pseudo-terminal. @throws Error when socat is not installed (apt-get install socat) */
export const onPty = async (peer: BoardPeer | null): Promise<PtyBoard> => {
  const path = join(ownFolder(), 'board');
  const child = spawn('socat', ['-', `PTY,link=${path},raw,echo=0`], { stdio: ['pipe', 'pipe', 'ignore'] });
  await Promise.race([once(child, 'spawn'), once(child, 'error')]);
  if (child.pid === undefined) throw new Error('socat is not installed: apt-get install socat');
  child.stdin.on('error', () => undefined);
  while (!existsSync(path)) await sleep(10);
  if (peer !== null) {
    const usb = createUsb(realTimers);
    usb.plug('board', peer);
    // The host's first bytes come when it opens the port; a board that resets on opening misses them.
    let port: ReturnType<typeof usb.open> | null = null;
    const join = (): ReturnType<typeof usb.open> =>
      usb.open('board', {
        opened: () => undefined,
        heard: (bytes) => child.stdin.write(bytes),
        lost: () => undefined,
      });
    child.stdout.on('data', (bytes: Buffer) => {
      port ??= join();
      port.write(bytes);
    });
  }
  return {
    path,
    unplug: async () => {
      child.kill('SIGKILL');
      // A link that is left leads to the next terminal of that number, which a host that still looks for this one would take.
      rmSync(path, { force: true });
      if (child.exitCode === null && child.signalCode === null) await once(child, 'exit');
    },
  };
};
