import type { Line, LineEvents, LineSource } from '../devices/line.ts';

/** What an operating system keeps for a process that does not read; the rest is lost. */
const UNREAD_BYTES_MAX = 4096;

/** The lines of a process that can be stopped or lose its power. */
export interface HostLines extends LineSource {
  readonly sleep: () => void;
  readonly wake: () => void;
  /** The power is gone: from now on nothing is heard and nothing written. */
  readonly cut: () => void;
}

/** Lines of `source`; `heard` and `written` stand on the line and may change what goes over it. */
export const hostLines = (
  source: LineSource,
  heard: (bytes: Uint8Array) => Uint8Array,
  written: (bytes: Uint8Array) => Uint8Array,
): HostLines => {
  let state: 'awake' | 'asleep' | 'dead' = 'awake';
  let unread: (() => void)[] = [];
  let unreadBytes = 0;
  const told = (tell: () => void, bytes = 0): void => {
    if (state === 'awake') tell();
    if (state !== 'asleep' || unreadBytes + bytes > UNREAD_BYTES_MAX) return;
    unreadBytes += bytes;
    unread.push(tell);
  };
  const open = (name: string, events: LineEvents): Line => {
    const line = source.open(name, {
      opened: () => {
        told(events.opened);
      },
      heard: (bytes) => {
        const through = heard(bytes);
        if (through.length > 0)
          told(() => {
            events.heard(through);
          }, through.length);
      },
      lost: (why) => {
        told(() => {
          events.lost(why);
        });
      },
    });
    return {
      write: (bytes) => {
        if (state !== 'dead') line.write(written(bytes));
      },
      close: line.close,
    };
  };
  return {
    open,
    candidates: source.candidates,
    sleep: () => {
      if (state === 'awake') state = 'asleep';
    },
    wake: () => {
      if (state !== 'asleep') return;
      state = 'awake';
      const waiting = unread;
      unread = [];
      unreadBytes = 0;
      for (const tell of waiting) tell();
    },
    cut: () => {
      state = 'dead';
    },
  };
};
