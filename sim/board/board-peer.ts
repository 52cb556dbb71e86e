/** What becomes of bytes that nobody hears. */
export interface BoardTally {
  /** Came while the port was closed, or the board off or starting. */
  readonly unheardBytes: number;
  /** Came faster than the board fetched them. */
  readonly overrunBytes: number;
}

/**
 * A board at the far end of a serial line, made of software or emulated. Instants are milliseconds on one counter
 * that never runs backwards.
 */
export interface BoardPeer {
  /** The host opens the port, which resets most boards (DTR); the first time it also gives power. */
  readonly open: (now: number) => void;
  /** The host lets go of the port. The board runs on, heard by nobody; what waited for the host is gone. */
  readonly close: (now: number) => void;
  /** The board resets; the port stays as it is. */
  readonly reset: (now: number) => void;
  readonly receive: (bytes: Uint8Array, now: number) => void;
  /** Lets time pass. Changes of the world are seen at these calls only. */
  readonly advance: (now: number) => void;
  /** Bytes to the host since last taken. */
  readonly take: () => Uint8Array;
  /** When the board next does something by itself, as far as its pins stand now. */
  readonly nextDue: (now: number) => number | null;
  readonly tally: () => BoardTally;
}
