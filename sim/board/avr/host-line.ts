import type { Trace } from './trace.ts';
import type { Line } from './usart.ts';

export interface HostLine extends Line {
  /** Bytes that the host has written; they go one after another. */
  readonly put: (bytes: Uint8Array) => void;
  /** Bytes into nothing. */
  readonly lose: (count: number) => void;
  /** What is on its way to a chip that has lost its power is lost with it. */
  readonly clear: () => void;
  readonly unheard: () => number;
}

/** Far more than any host has on its way; the rest of what it writes is lost, and counted. */
const WAITING_MAX = 65_536;

/** The line between host and chip, seen from the host. */
export const createHostLine = (setup: {
  readonly byteCycles: number;
  readonly trace: Trace;
  readonly sent: (byte: number) => void;
}): HostLine => {
  const { byteCycles, trace, sent } = setup;
  let waiting: number[] = [];
  let nextIndex = 0;
  let unheard = 0;
  const left = (): number => waiting.length - nextIndex;
  return {
    byteCycles,
    next: () => {
      const byte = waiting[nextIndex];
      if (byte === undefined) {
        waiting = [];
        nextIndex = 0;
        return null;
      }
      nextIndex += 1;
      return byte;
    },
    heard: (byte, cycle) => {
      trace.note({ kind: 'heard', cycle, byte });
    },
    missed: () => {
      unheard += 1;
    },
    sent: (byte, cycle) => {
      trace.note({ kind: 'sent', cycle, byte });
      sent(byte);
    },
    put: (bytes) => {
      const room = Math.max(0, WAITING_MAX - left());
      waiting.push(...bytes.subarray(0, room));
      unheard += Math.max(0, bytes.length - room);
    },
    lose: (count) => {
      unheard += count;
    },
    unheard: () => unheard,
    clear: () => {
      unheard += left();
      waiting = [];
      nextIndex = 0;
    },
  };
};
