/**
 * One opened serial line, or one that is being opened. It is used once: after `close` it stays closed, and
 * nothing that was written to it can reach another.
 */
export interface Line {
  readonly write: (bytes: Uint8Array) => void;
  /** Lets go of the port, after what was written has gone out. No event comes after this. */
  readonly close: () => Promise<void>;
}

export interface LineEvents {
  readonly opened: () => void;
  readonly heard: (bytes: Uint8Array) => void;
  /** Closed from the other side, or failed; comes at most once, and nothing after it. */
  readonly lost: (why: string) => void;
}

/**
 * What may become of a board when its line is opened: most reset when DTR rises, and a board that nobody knows is
 * recognised by what it says then. `spared`: DTR is left up when the line closes, also when this process dies, so
 * that the next opening moves nothing.
 */
export type AtOpening = 'may-reset' | 'spared';

/** Opens a line by its name; events come later, never during the call. */
export type OpenLine = (name: string, events: LineEvents, atOpening?: AtOpening) => Line;

/** What can be opened. */
export interface LineCandidate {
  readonly name: string;
  /** USB serial number, where the port has one. */
  readonly serialNumber: string | null;
  /** What the system says of it, for people. */
  readonly says: string;
}

/** Where lines come from: the serial ports of this machine, or those of a simulated shed. */
export interface LineSource {
  readonly open: OpenLine;
  /** What could be opened at this moment, most likely first. */
  readonly candidates: () => Promise<readonly LineCandidate[]>;
}
