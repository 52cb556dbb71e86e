import { bodyReader, type BodyReader } from './body-reader.ts';

/** What a keeper says of itself: docs/board-protocol.md, "Status". */

export const STATUS_BYTES = 49;
const UNKNOWN = 0xffff;
const MINUTES_A_DAY = 1440;

/** Which slot holds the table in force. */
export type TableSlot = 0 | 1 | 'flash';

/** MCUSR as the firmware found it: ATmega328P data sheet, "MCU Status Register". */
export const RESET_CAUSES = [
  ['power-on', 1],
  ['external', 2],
  ['brown-out', 4],
  ['watchdog', 8],
] as const;
export type ResetCause = (typeof RESET_CAUSES)[number][0];

export const SELF_TESTS = ['flash', 'EEPROM', 'RAM', 'clock', 'setup'] as const;
export type SelfTest = (typeof SELF_TESTS)[number];

export interface KeeperStatus {
  readonly epoch: number;
  readonly owner: 'keeper' | 'host';
  /** Since the reset. */
  readonly uptimeSeconds: number;
  readonly pump: {
    /** Asked is not seen. */
    readonly asked: 'on' | 'off';
    /** It still runs at most; 0 when off. */
    readonly secondsLeft: number;
    /** Since it was asked on or off; null when unknown or too long ago. */
    readonly secondsSince: number | null;
  };
  /** What the contacts say; null where none is fitted. */
  readonly seen: {
    readonly readBackClosed: boolean | null;
    readonly waterBack: boolean | null;
    readonly pumpCurrent: boolean | null;
    readonly floatLow: boolean | null;
    readonly leak: boolean | null;
    readonly overflow: boolean | null;
    readonly mainsLost: boolean | null;
  };
  readonly flags: {
    readonly timeKnown: boolean;
    readonly tankLow: boolean;
    readonly floatSuspect: boolean;
    readonly missedFlood: boolean;
    readonly notSetUp: boolean;
    readonly noStoredTable: boolean;
    readonly selfTestFailed: boolean;
    readonly clockSuspect: boolean;
    readonly firstFloodDue: boolean;
    readonly handTestAsked: boolean;
  };
  readonly lastFlood: { readonly startedSecondsAgo: number; readonly ranSeconds: number } | null;
  readonly holdSecondsLeft: number;
  readonly leaseSecondsLeft: number;
  readonly minuteOfDay: number | null;
  /** Until the keeper would flood; null when it would not. */
  readonly secondsToFlood: number | null;
  readonly table: { readonly slot: TableSlot; readonly seq: number; readonly crc: number };
  /** Number that the next entry of the log will have. */
  readonly logNext: number;
  readonly resetCauses: readonly ResetCause[];
  /** Since power-on. */
  readonly resets: number;
  readonly fuses: {
    readonly low: number;
    readonly high: number;
    readonly extended: number;
    readonly lock: number;
  };
  readonly framesDropped: number;
  readonly bytesLost: number;
  /** Of stack and heap, never used since the reset. */
  readonly roomBytes: number;
  readonly failedTests: readonly SelfTest[];
  /** Long ones of the button since power-on, round at 65536. */
  readonly longPresses: number;
}

const seenOf = (bits: number): KeeperStatus['seen'] => {
  const so = (bit: number): boolean | null =>
    (bits & (1 << (bit + 8))) === 0 ? null : (bits & (1 << bit)) !== 0;
  return {
    readBackClosed: so(1),
    waterBack: so(2),
    pumpCurrent: so(3),
    floatLow: so(4),
    leak: so(5),
    overflow: so(6),
    mainsLost: so(7),
  };
};

const flagsOf = (bits: number): KeeperStatus['flags'] => {
  const so = (bit: number): boolean => (bits & (1 << bit)) !== 0;
  return {
    timeKnown: so(0),
    tankLow: so(1),
    floatSuspect: so(2),
    missedFlood: so(3),
    notSetUp: so(4),
    noStoredTable: so(5),
    selfTestFailed: so(6),
    clockSuspect: so(7),
    firstFloodDue: so(8),
    handTestAsked: so(9),
  };
};

const known = (value: number): number | null => (value === UNKNOWN ? null : value);

const lastFloodOf = ({ u16 }: BodyReader): KeeperStatus['lastFlood'] => {
  const startedSecondsAgo = known(u16(15));
  return startedSecondsAgo === null ? null : { startedSecondsAgo, ranSeconds: u16(17) };
};

const slotOf = (value: number): TableSlot | null => {
  if (value === 2) return 'flash';
  return value === 0 || value === 1 ? value : null;
};

/** Null when it is no status: of another length, or with an owner or a slot that there is not. */
export const statusIn = (body: Uint8Array): KeeperStatus | null => {
  if (body.length !== STATUS_BYTES) return null;
  const reader = bodyReader(body);
  const { u8, u16, u32 } = reader;
  const slot = slotOf(u8(26));
  const owner = u8(2);
  if (slot === null || owner > 1) return null;
  const minute = u16(22);
  return {
    epoch: u16(0),
    owner: owner === 1 ? 'host' : 'keeper',
    uptimeSeconds: u32(3),
    pump: {
      asked: (u16(7) & 1) === 1 ? 'on' : 'off',
      secondsLeft: u16(11),
      secondsSince: known(u16(13)),
    },
    seen: seenOf(u16(7)),
    flags: flagsOf(u16(9)),
    lastFlood: lastFloodOf(reader),
    holdSecondsLeft: u16(19),
    leaseSecondsLeft: u8(21),
    // A time that there is not is no time.
    minuteOfDay: minute < MINUTES_A_DAY ? minute : null,
    secondsToFlood: known(u16(24)),
    table: { slot, seq: u16(27), crc: u16(29) },
    logNext: u16(31),
    resetCauses: RESET_CAUSES.flatMap(([cause, bit]) => ((u8(33) & bit) === 0 ? [] : [cause])),
    resets: u16(34),
    fuses: { low: u8(36), high: u8(37), extended: u8(38), lock: u8(39) },
    framesDropped: u16(40),
    bytesLost: u16(42),
    roomBytes: u16(44),
    failedTests: SELF_TESTS.filter((_, bit) => (u8(46) & (1 << bit)) !== 0),
    longPresses: u16(47),
  };
};
