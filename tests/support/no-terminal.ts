import type { Console } from '../../firmware-host/cli/console.ts';

/** Where nobody reads: neither data nor talk. */
export const NO_TERMINAL: Console = {
  out: () => undefined,
  talk: () => undefined,
  atTerminal: false,
  outAtTerminal: false,
  columns: 100,
  unread: new AbortController().signal,
  lost: () => null,
};
