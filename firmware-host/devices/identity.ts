/** Who a board says it is. */
export interface BoardIdentity {
  readonly firmwareName: string;
  readonly firmwareVersion: string;
  /** Of the Firmata protocol that it speaks. */
  readonly protocolVersion: string;
  /** Of its USB port, where that has one. */
  readonly serialNumber: string | null;
}

/** Whether two connections reach the same board: by USB serial number where both have one, else by firmware name. */
const sameBoard = (a: BoardIdentity, b: BoardIdentity): boolean =>
  a.serialNumber !== null && b.serialNumber !== null
    ? a.serialNumber === b.serialNumber
    : a.firmwareName === b.firmwareName;

const named = ({ firmwareName, serialNumber }: BoardIdentity): string =>
  `"${firmwareName}"${serialNumber === null ? '' : `, serial number ${serialNumber}`}`;

/**
 * Why this board must not be driven, or null when it may: by the identity that the farm file wants, then by the
 * board that was driven before.
 */
export const strangerWhy = (
  found: BoardIdentity,
  wanted: string | undefined,
  before: BoardIdentity | null,
): string | null => {
  if (wanted !== undefined && found.serialNumber !== wanted && found.firmwareName !== wanted) {
    return `another board answers: ${named(found)}; the farm file wants "${wanted}" (board.identity)`;
  }
  if (before !== null && !sameBoard(found, before)) {
    return `another board answers: ${named(found)}; this host was driving ${named(before)}. Restart it to take another board`;
  }
  return null;
};

/** What a board with a keeper calls its firmware: docs/board-protocol.md. */
const KEEPER_FIRMWARE = 'RillkeeperBoard';

/** Whether the board floods by a table of its own when the host is gone. */
export const hasKeeper = ({ firmwareName }: BoardIdentity): boolean => firmwareName === KEEPER_FIRMWARE;

/** Firmware without a table of floods of its own: when the host is gone nobody keeps the plants. */
export const STOCK_WARNING =
  'This board runs stock firmware: when this computer or its cable fails, nobody keeps the plants, and a pump that runs may run on until the board loses power or is reset.';

/** Firmware with one. */
export const KEEPER_WORDS =
  'This board keeps the plants by a table of its own when this computer or its cable fails.';

/** What whoever drives such a board must know. */
export const firmwareWords = (identity: BoardIdentity): string =>
  hasKeeper(identity) ? KEEPER_WORDS : STOCK_WARNING;
