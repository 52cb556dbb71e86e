import { frameIn, KEEPER_SYSEX, type Frame } from './keeper/frame.ts';

/**
 * Lets only whole, well-formed Firmata messages pass from a serial line to the Firmata client, which trusts
 * every byte it is given: it would index pins that do not exist and collect an endless message for ever.
 * Message formats: Firmata protocol 2.8, protocol.md. Frames of a keeper are taken out on the way: the client would drop them.
 */

const ANALOG = 0xe0;
const DIGITAL = 0x90;
const VERSION = 0xf9;
const SYSEX_START = 0xf0;
const SYSEX_END = 0xf7;

const FIRMWARE = 0x79;
const STRING = 0x71;
const CAPABILITIES = 0x6c;
const ANALOG_MAPPING = 0x6a;
const PIN_END = 0x7f;

/** Longest message that any board of this kind sends: 128 pins with eight modes each. */
const MESSAGE_BYTES_MAX = 128 * 17 + 3;
const PINS_MAX = 128;
const NO_CHANNEL = 0x7f;

/** What has passed so far and decides what may pass next. */
export interface FirmataGate {
  /** The whole messages that became complete with these bytes, back to back. */
  readonly passed: (bytes: Uint8Array) => Uint8Array;
  /** Bytes that belonged to no well-formed message. */
  readonly droppedBytes: () => number;
  readonly passedMessages: () => number;
  /** Messages that were begun and not well-formed, and runs of bytes that no message had begun. */
  readonly spoiltMessages: () => number;
  /** Whether version and firmware were told: three stray bytes may pass for a version, hardly for both. */
  readonly speaksFirmata: () => boolean;
}

/** Pins of a capability answer, or null when it is no such thing. */
const capabilityPins = (data: readonly number[]): number | null => {
  let pins = 0;
  let inPin = 0;
  for (const byte of data) {
    if (byte === PIN_END && inPin % 2 === 0) {
      pins += 1;
      inPin = 0;
    } else inPin += 1;
  }
  return inPin === 0 && pins > 0 && pins <= PINS_MAX ? pins : null;
};

/** `keeperSaid` gets every well-formed keeper frame. */
export const createFirmataGate = (keeperSaid: (frame: Frame) => void = () => undefined): FirmataGate => {
  let message: number[] = [];
  let dropped = 0;
  let passedCount = 0;
  let spoiltCount = 0;
  /** What follows a message that went wrong is the rest of it. */
  let isRest = false;
  let versionSeen = false;
  let firmwareSeen = false;
  let pins: number | null = null;
  let channels: number | null = null;

  const drop = (): void => {
    if (message.length > 0) spoiltCount += 1;
    isRest ||= message.length > 0;
    dropped += message.length;
    message = [];
  };
  const dropStray = (): void => {
    if (!isRest) spoiltCount += 1;
    isRest = true;
    dropped += 1;
  };

  const sysexPasses = (): boolean => {
    const [, command, ...rest] = message;
    const data = rest.slice(0, -1);
    if (!versionSeen || command === undefined) return false;
    switch (command) {
      case FIRMWARE:
        if (data.length < 2 || data.length % 2 !== 0) return false;
        firmwareSeen = true;
        return true;
      case STRING:
        return data.length % 2 === 0;
      case CAPABILITIES: {
        const found = capabilityPins(data);
        if (pins !== null || found === null) return false;
        pins = found;
        return true;
      }
      case ANALOG_MAPPING: {
        if (pins === null || channels !== null || data.length !== pins) return false;
        channels = data.filter((channel) => channel !== NO_CHANNEL).length;
        return true;
      }
      default:
        return false;
    }
  };

  const channelPasses = (): boolean => {
    const first = message[0] ?? 0;
    const kind = first & 0xf0;
    const number = first & 0x0f;
    if (first === VERSION) {
      versionSeen = true;
      return true;
    }
    if (!versionSeen || pins === null || channels === null) return false;
    if (kind === ANALOG) return number < channels;
    return kind === DIGITAL && number * 8 < pins;
  };

  const begins = (byte: number): boolean => {
    const kind = byte & 0xf0;
    return kind === ANALOG || kind === DIGITAL || byte === VERSION || byte === SYSEX_START;
  };

  /** True when the message was a keeper's, whether well-formed or not. */
  const keeperTakes = (): boolean => {
    if (!versionSeen || message[1] !== KEEPER_SYSEX) return false;
    const frame = frameIn(message.slice(2, -1));
    if (frame === null) {
      drop();
      return true;
    }
    message = [];
    passedCount += 1;
    keeperSaid(frame);
    return true;
  };

  const finish = (passes: boolean, out: number[]): void => {
    if (!passes) {
      drop();
      return;
    }
    out.push(...message);
    passedCount += 1;
    message = [];
  };

  const take = (byte: number, out: number[]): void => {
    const inSysex = message[0] === SYSEX_START;
    if (byte >= 0x80 && !(inSysex && byte === SYSEX_END)) {
      drop();
      if (begins(byte)) {
        message.push(byte);
        isRest = false;
      } else dropStray();
      return;
    }
    if (message.length === 0) {
      dropStray();
      return;
    }
    message.push(byte);
    if (inSysex) {
      if (byte === SYSEX_END) {
        if (!keeperTakes()) finish(sysexPasses(), out);
      } else if (message.length >= MESSAGE_BYTES_MAX) drop();
    } else if (message.length === 3) finish(channelPasses(), out);
  };

  return {
    passed: (bytes) => {
      const out: number[] = [];
      for (const byte of bytes) take(byte, out);
      return Uint8Array.from(out);
    },
    droppedBytes: () => dropped,
    passedMessages: () => passedCount,
    spoiltMessages: () => spoiltCount,
    speaksFirmata: () => firmwareSeen,
  };
};
