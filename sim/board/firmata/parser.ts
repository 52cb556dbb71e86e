import { COMMAND, fromSevenBitGroups } from './bytes.ts';
import { sysexMessage, type HostMessage } from './host-message.ts';

/** Identity and payload of a sysex frame together; the buffer of stock firmware on an ATmega328P. */
export const SYSEX_BYTES_MAX = 64;

/**
 * Why bytes were thrown away: `stray` data outside of any message, an `unknown` command, a message `cut`
 * short by the next command, an `endless` sysex, a sysex of `wrong-length`.
 */
export type DropReason = 'stray' | 'unknown' | 'cut' | 'endless' | 'wrong-length';

/** Every byte heard is used in a message, dropped for a reason, or held for a message not yet complete. */
export interface ParserTally {
  readonly heardBytes: number;
  readonly usedBytes: number;
  readonly heldBytes: number;
  readonly droppedBytes: Readonly<Record<DropReason, number>>;
}

export interface Parser {
  /** The messages that these bytes complete, in order. Takes any bytes. */
  readonly push: (bytes: Uint8Array) => readonly HostMessage[];
  /** Drops a message that is only half heard. */
  readonly forget: () => void;
  readonly tally: () => ParserTally;
}

const COMMAND_BIT = 0x80;
const CHANNEL_MASK = 0x0f;
const CHANNEL_COMMANDS_END = 0xf0;

/** How many data bytes follow a command, or `null` for a command that no host sends. */
const dataBytesAfter = (command: number): number | null => {
  switch (command) {
    case COMMAND.digitalPort:
    case COMMAND.analog:
    case COMMAND.setPinMode:
    case COMMAND.setPinValue:
      return 2;
    case COMMAND.reportAnalog:
    case COMMAND.reportDigital:
      return 1;
    case COMMAND.version:
    case COMMAND.reset:
      return 0;
    default:
      return null;
  }
};

const withoutChannel = (byte: number): number => (byte < CHANNEL_COMMANDS_END ? byte & ~CHANNEL_MASK : byte);

const plainMessage = (byte: number, data: readonly number[]): HostMessage | null => {
  const channel = byte & CHANNEL_MASK;
  const [first = 0, second = 0] = data;
  switch (withoutChannel(byte)) {
    case COMMAND.digitalPort:
      return { kind: 'digital-port-write', port: channel, bits: fromSevenBitGroups(data) };
    case COMMAND.analog:
      return { kind: 'analog-write', pin: channel, value: fromSevenBitGroups(data) };
    case COMMAND.reportAnalog:
      return { kind: 'report-analog', channel, wanted: first !== 0 };
    case COMMAND.reportDigital:
      return { kind: 'report-digital', port: channel, wanted: first !== 0 };
    case COMMAND.setPinMode:
      return { kind: 'set-pin-mode', pin: first, mode: second };
    case COMMAND.setPinValue:
      return { kind: 'set-pin-value', pin: first, level: second === 0 ? 0 : 1 };
    case COMMAND.version:
      return { kind: 'version-query' };
    case COMMAND.reset:
      return { kind: 'reset' };
    default:
      return null;
  }
};

/**
 * Turns what a host sends into messages, byte by byte. Any command byte begins anew, also inside a sysex
 * frame: a lost end of sysex costs that frame only. (Stock firmware is deafer: it swallows all until the
 * next 0xF7.)
 */
export const createParser = (): Parser => {
  const dropped: Record<DropReason, number> = { stray: 0, unknown: 0, cut: 0, endless: 0, 'wrong-length': 0 };
  let heardBytes = 0;
  let usedBytes = 0;
  /** The command under way and its data; `skipping` is inside a sysex frame that grew too long. */
  let command: number | 'none' | 'skipping' = 'none';
  let data: number[] = [];

  const heldBytes = (): number => (typeof command === 'number' ? 1 + data.length : 0);
  const forget = (): void => {
    dropped.cut += heldBytes();
    command = 'none';
    data = [];
  };
  const finish = (message: HostMessage | null, bytes: number): HostMessage | null => {
    if (message) usedBytes += bytes;
    else dropped['wrong-length'] += bytes;
    command = 'none';
    data = [];
    return message;
  };

  const endSysex = (): HostMessage | null => {
    if (command === 'skipping') {
      dropped.endless += 1;
      command = 'none';
      return null;
    }
    if (command !== COMMAND.startSysex) {
      forget();
      dropped.stray += 1;
      return null;
    }
    const [id, ...payload] = data;
    return finish(id === undefined ? null : sysexMessage(id, payload), data.length + 2);
  };

  const hearCommand = (byte: number): HostMessage | null => {
    if (byte === COMMAND.endSysex) return endSysex();
    forget();
    if (byte === COMMAND.startSysex) {
      command = byte;
      return null;
    }
    const wanted = dataBytesAfter(withoutChannel(byte));
    if (wanted === null) {
      dropped.unknown += 1;
      return null;
    }
    command = byte;
    return wanted === 0 ? finish(plainMessage(byte, []), 1) : null;
  };

  const hearData = (byte: number): HostMessage | null => {
    if (typeof command === 'string') {
      dropped[command === 'skipping' ? 'endless' : 'stray'] += 1;
      return null;
    }
    data.push(byte);
    if (command === COMMAND.startSysex) {
      if (data.length <= SYSEX_BYTES_MAX) return null;
      dropped.endless += heldBytes();
      command = 'skipping';
      data = [];
      return null;
    }
    if (data.length < (dataBytesAfter(withoutChannel(command)) ?? 0)) return null;
    return finish(plainMessage(command, data), heldBytes());
  };

  return {
    push: (bytes) => {
      const messages: HostMessage[] = [];
      for (const byte of bytes) {
        heardBytes += 1;
        const message = byte >= COMMAND_BIT ? hearCommand(byte) : hearData(byte);
        if (message) messages.push(message);
      }
      return messages;
    },
    forget,
    tally: () => ({ heardBytes, usedBytes, heldBytes: heldBytes(), droppedBytes: { ...dropped } }),
  };
};
