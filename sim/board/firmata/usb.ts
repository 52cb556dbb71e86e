import type { BoardPeer } from '../board-peer.ts';
import type { FirmataPeer } from './peer.ts';

/** A clock that a simulation moves on, or the real one. */
export interface Waiting {
  readonly now: () => number;
  readonly setTimeout: (run: () => void, millis: number) => unknown;
}

/** What the host hears of an opened port. */
export interface PortEvents {
  readonly opened: () => void;
  readonly heard: (bytes: Uint8Array) => void;
  readonly lost: (why: string) => void;
}

export interface OpenedPort {
  readonly write: (bytes: Uint8Array) => void;
  readonly close: () => Promise<void>;
}

/** The USB sockets of a machine that is not there, with boards plugged into them. */
export interface Usb<Peer extends BoardPeer = FirmataPeer> {
  /** Plugs a board in; a port of this name is there from now on. */
  readonly plug: (name: string, board: Peer, serialNumber?: string) => void;
  /** Pulls it out: whoever had opened the port is told, and nothing more comes through. */
  readonly unplug: (name: string) => void;
  /** The line stays open and carries nothing, as a peer that hangs. */
  readonly stall: (name: string) => void;
  /** The world behind the boards has moved: whatever they have to say of it is carried now. */
  readonly look: () => void;
  /** Bytes to the host that no board has sent. */
  readonly disturb: (name: string, bytes: Uint8Array) => void;
  readonly open: (name: string, events: PortEvents) => OpenedPort;
  readonly candidates: () => Promise<
    readonly { readonly name: string; readonly serialNumber: string | null; readonly says: string }[]
  >;
  /** Bytes written to a port by somebody who had closed it, or been told that it is gone: nobody may do that. */
  readonly staleBytes: () => number;
}

interface Socket {
  readonly board: BoardPeer;
  readonly serialNumber: string | null;
  events: PortEvents | null;
  flow: 'flowing' | 'stalled';
  /** When the board is looked at next without being asked. */
  dueAt: number | null;
}

/** Of the clock. */
const LEAST_MILLIS = 1;

export const createUsb = (clock: Waiting): Usb<BoardPeer> => {
  const sockets = new Map<string, Socket>();
  let staleBytes = 0;

  /** Lets the board live up to now, carries what it has said, and comes back when it has more to say. */
  const serve = (socket: Socket): void => {
    const { board, events } = socket;
    if (events === null) return;
    const now = clock.now();
    board.advance(now);
    const bytes = board.take();
    if (bytes.length > 0 && socket.flow === 'flowing') events.heard(bytes);
    const due = board.nextDue(now);
    if (due !== null) serveAt(socket, due);
  };
  const serveAt = (socket: Socket, due: number): void => {
    const now = clock.now();
    const dueAt = Math.max(due, now + LEAST_MILLIS);
    if (socket.dueAt !== null && socket.dueAt <= dueAt) return;
    socket.dueAt = dueAt;
    clock.setTimeout(() => {
      if (socket.dueAt !== dueAt) return;
      socket.dueAt = null;
      serve(socket);
    }, dueAt - now);
  };

  return {
    plug: (name, board, serialNumber) => {
      sockets.set(name, {
        board,
        serialNumber: serialNumber ?? null,
        events: null,
        flow: 'flowing',
        dueAt: null,
      });
    },
    unplug: (name) => {
      const socket = sockets.get(name);
      sockets.delete(name);
      const events = socket?.events ?? null;
      if (socket !== undefined) socket.events = null;
      socket?.board.close(clock.now());
      if (events !== null)
        clock.setTimeout(() => {
          events.lost('unplugged');
        }, 2);
    },
    stall: (name) => {
      const socket = sockets.get(name);
      if (socket !== undefined) socket.flow = 'stalled';
    },
    look: () => {
      for (const socket of sockets.values()) serve(socket);
    },
    disturb: (name, bytes) => {
      sockets.get(name)?.events?.heard(bytes);
    },
    open: (name, events) => {
      const socket = sockets.get(name);
      if (socket?.events !== null) {
        const why = socket === undefined ? 'no such port' : 'another program has this port';
        clock.setTimeout(() => {
          events.lost(why);
        }, 0);
        return { write: () => undefined, close: () => Promise.resolve() };
      }
      let over = false;
      const own: PortEvents = {
        ...events,
        lost: (why) => {
          over = true;
          events.lost(why);
        },
      };
      socket.events = own;
      socket.flow = 'flowing';
      clock.setTimeout(() => {
        if (socket.events !== own) return;
        socket.board.open(clock.now());
        events.opened();
        serve(socket);
      }, 1);
      return {
        write: (bytes) => {
          if (over) staleBytes += bytes.length;
          // Between the pull and its news bytes go nowhere, as on a real line.
          if (socket.events !== own || socket.flow === 'stalled') return;
          socket.board.receive(bytes, clock.now());
          serveAt(socket, clock.now());
        },
        close: () => {
          over = true;
          if (socket.events === own) {
            socket.events = null;
            socket.board.close(clock.now());
          }
          return Promise.resolve();
        },
      };
    },
    candidates: () =>
      Promise.resolve(
        [...sockets].map(([name, { serialNumber }]) => ({ name, serialNumber, says: 'a software board' })),
      ),
    staleBytes: () => staleBytes,
  };
};
