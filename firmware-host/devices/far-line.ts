import type { AtOpening, Line, LineEvents, OpenLine } from './line.ts';

/**
 * Lines for a thread that cannot have serial ports. The serial driver hangs every port at the main loop of the process
 * (`uv_default_loop()` in poller.cpp of @serialport/bindings-cpp 13.0.0): one opened in a worker ends the whole process
 * with its first byte. So the main thread has the port, and the bytes go between the two as messages.
 */
export type LineAsked =
  | { readonly kind: 'open'; readonly id: number; readonly name: string; readonly atOpening?: AtOpening }
  | { readonly kind: 'write'; readonly id: number; readonly bytes: Uint8Array }
  | { readonly kind: 'close'; readonly id: number };

export type LineSaid =
  | { readonly kind: 'opened'; readonly id: number }
  | { readonly kind: 'heard'; readonly id: number; readonly bytes: Uint8Array }
  | { readonly kind: 'lost'; readonly id: number; readonly why: string }
  | { readonly kind: 'closed'; readonly id: number };

export interface FarLines {
  readonly open: OpenLine;
  /** What the thread that has the ports answers. */
  readonly said: (said: LineSaid) => void;
}

/** The side without ports. */
export const farLines = (ask: (asked: LineAsked) => void): FarLines => {
  const open = new Map<number, { readonly events: LineEvents; readonly closed: () => void }>();
  let last = 0;
  return {
    open: (name, events, atOpening) => {
      last += 1;
      const id = last;
      let isOver = false;
      let ended = (): void => undefined;
      const closing = new Promise<void>((done) => {
        ended = done;
      });
      open.set(id, { events, closed: ended });
      ask({ kind: 'open', id, name, ...(atOpening === undefined ? {} : { atOpening }) });
      return {
        write: (bytes) => {
          if (!isOver) ask({ kind: 'write', id, bytes });
        },
        close: () => {
          if (!isOver) ask({ kind: 'close', id });
          isOver = true;
          return closing;
        },
      } satisfies Line;
    },
    said: (said) => {
      const line = open.get(said.id);
      if (line === undefined) return;
      switch (said.kind) {
        case 'opened':
          line.events.opened();
          return;
        case 'heard':
          line.events.heard(said.bytes);
          return;
        case 'lost':
          line.events.lost(said.why);
          return;
        case 'closed':
          open.delete(said.id);
          line.closed();
      }
    },
  };
};

export interface NearLines {
  readonly asked: (asked: LineAsked) => void;
  /** The other side is gone, and closes nothing any more. */
  readonly closeAll: () => Promise<void>;
}

/** The side with ports. Writing, reading and opening never wait here: the system does it beside the loop. */
export const nearLines = (open: OpenLine, say: (said: LineSaid) => void): NearLines => {
  const lines = new Map<number, Line>();
  return {
    asked: (asked) => {
      const { id } = asked;
      switch (asked.kind) {
        case 'open': {
          const events: LineEvents = {
            opened: () => {
              if (lines.has(id)) say({ kind: 'opened', id });
            },
            heard: (bytes) => {
              if (lines.has(id)) say({ kind: 'heard', id, bytes });
            },
            lost: (why) => {
              if (lines.has(id)) say({ kind: 'lost', id, why });
            },
          };
          lines.set(id, open(asked.name, events, asked.atOpening));
          return;
        }
        case 'write':
          lines.get(id)?.write(asked.bytes);
          return;
        case 'close': {
          const line = lines.get(id);
          lines.delete(id);
          void Promise.resolve(line?.close()).then(() => {
            say({ kind: 'closed', id });
          });
        }
      }
    },
    closeAll: async () => {
      const left = [...lines.values()];
      lines.clear();
      await Promise.all(left.map((line) => line.close()));
    },
  };
};
