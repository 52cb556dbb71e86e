import { setImmediate as nextTurn } from 'node:timers/promises';
import type { LineSource } from '../../firmware-host/devices/line.ts';
import type { Timers } from '../../firmware-host/devices/timers.ts';
import { virtualTime, type VirtualTime } from '../../firmware-host/virtual-time.ts';
import type { BoardPeer } from '../../sim/board/board-peer.ts';
import { createUsb, type Usb } from '../../sim/board/firmata/usb.ts';
import { afterSeconds, monotonicMillis, secondsBetween } from '../../src/time/instant.ts';
import { STOCK, stockBoard, type BenchBoard, type BoardAsked, type BoardKind } from './bench-board.ts';

/** Two ports into which boards are plugged, and the clock by which their facts are waited for. */
export interface Bench {
  /** Of its boards. */
  readonly kind: BoardKind;
  /** A board of this kind, on the desk. */
  readonly newBoard: (asked?: BoardAsked) => BenchBoard;
  readonly timers: Timers;
  readonly lines: LineSource;
  readonly ports: readonly [string, string];
  readonly plug: (port: string, board: BoardPeer, serialNumber?: string) => Promise<void>;
  /** Pulls the cable out. A stock board lived on its power: its pins float from now on. One with a keeper has its own supply. */
  readonly unplug: (port: string) => Promise<void>;
  /** The line stays open and carries nothing in either direction. */
  readonly stall: (port: string) => void;
  /** Bytes to the host that no board has sent. */
  readonly disturb: (port: string, bytes: readonly number[]) => void;
  /** The world behind the pins has changed. */
  readonly look: () => void;
  readonly pass: (seconds: number) => Promise<void>;
  /** Bytes written to a port after it had been closed or pulled out. */
  readonly staleBytes: () => number;
  readonly end: () => Promise<void>;
}

export type OpenBench<On extends Bench = Bench> = () => Promise<On>;

const STEP_SECONDS = 0.05;

/** Waits until a fact holds. @throws Error naming the fact that did not hold in time */
export const until = async (
  bench: Bench,
  fact: string,
  holds: () => boolean,
  secondsMax: number,
): Promise<void> => {
  const begunAt = bench.timers.now();
  while (!holds()) {
    if (secondsBetween(begunAt, bench.timers.now()) > secondsMax)
      throw new Error(`not within ${secondsMax} s: ${fact}`);
    await bench.pass(STEP_SECONDS);
  }
};

/** Sockets whose boards lose their power with the cable. */
export const poweredUsb = (
  timers: Timers,
): Usb<BoardPeer> & {
  readonly pull: (port: string) => void;
  readonly boards: ReadonlyMap<string, BoardPeer>;
} => {
  const usb = createUsb(timers);
  const boards = new Map<string, BoardPeer>();
  return {
    ...usb,
    boards,
    plug: (port, board, serialNumber) => {
      boards.set(port, board);
      usb.plug(port, board, serialNumber);
    },
    pull: (port) => {
      usb.unplug(port);
      // Nobody lets it go on: it stays in its reset until its port is opened again.
      boards.get(port)?.reset(timers.now());
      boards.delete(port);
    },
  };
};

/** Moves virtual time on in steps, so that what waits for a promise gets its turn between them. */
export const passed = async (time: VirtualTime, seconds: number, stepSeconds: number): Promise<void> => {
  const end = afterSeconds(time.timers.now(), seconds);
  while (time.timers.now() < end) {
    time.advance(monotonicMillis(Math.min(end, afterSeconds(time.timers.now(), stepSeconds))));
    await nextTurn();
  }
};

/** A bench in this process, under a clock of its own. */
export const virtualBench = (): Promise<Bench> => {
  const time = virtualTime(1_000_000);
  const usb = poweredUsb(time.timers);
  return Promise.resolve({
    kind: STOCK,
    newBoard: ({ bootMillis } = {}) => stockBoard(bootMillis === undefined ? {} : { bootMillis }),
    timers: time.timers,
    lines: usb,
    ports: ['one', 'two'],
    plug: (port, board, serialNumber) => {
      usb.plug(port, board, serialNumber);
      return Promise.resolve();
    },
    unplug: (port) => {
      usb.pull(port);
      return Promise.resolve();
    },
    stall: usb.stall,
    disturb: (port, bytes) => {
      usb.disturb(port, Uint8Array.from(bytes));
    },
    look: usb.look,
    pass: (seconds) => passed(time, seconds, STEP_SECONDS),
    staleBytes: usb.staleBytes,
    end: () => Promise.resolve(),
  });
};
