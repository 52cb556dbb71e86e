import type { BoardCommand, Signals, TimeOfDay } from '../../src/ports/board.ts';

/** Whoever moves the pump of a connected board and shows signals on it: this host by itself, or with a keeper. */
export interface BoardDriver {
  readonly command: (command: BoardCommand) => void;
  readonly show: (signals: Signals) => void;
  /** A control tick has been completed. */
  readonly alive: (time: TimeOfDay | 'unknown') => void;
  /** Once a second. */
  readonly beat: () => void;
  /** The host's last word before it closes the line. */
  readonly letGo: () => void;
}
