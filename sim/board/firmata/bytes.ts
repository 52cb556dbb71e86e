/**
 * Bytes of the Firmata protocol (github firmata/protocol, `protocol.md`, 2.8.0): command bytes have the
 * eighth bit set, data bytes have not, so every value travels in groups of 7 bits, least significant first.
 */

/** Command bytes; the first four carry a port or channel in their low 4 bits. */
export const COMMAND = {
  digitalPort: 0x90,
  reportAnalog: 0xc0,
  reportDigital: 0xd0,
  analog: 0xe0,
  startSysex: 0xf0,
  setPinMode: 0xf4,
  setPinValue: 0xf5,
  endSysex: 0xf7,
  version: 0xf9,
  reset: 0xff,
} as const;

/** First byte inside a sysex frame. */
export const SYSEX = {
  analogMappingQuery: 0x69,
  analogMappingResponse: 0x6a,
  capabilityQuery: 0x6b,
  capabilityResponse: 0x6c,
  pinStateQuery: 0x6d,
  pinStateResponse: 0x6e,
  extendedAnalog: 0x6f,
  string: 0x71,
  firmware: 0x79,
  samplingInterval: 0x7a,
  /** New in 2.8; answered with a `samplingInterval` frame. */
  samplingIntervalQuery: 0x7c,
} as const;

/** Pin modes that the software board knows; the protocol has more. */
export const PIN_MODE = { input: 0x00, output: 0x01, analog: 0x02, pwm: 0x03, pullUp: 0x0b } as const;
export type PinMode = (typeof PIN_MODE)[keyof typeof PIN_MODE];

/** Ends the list of modes of one pin in a capability response. */
export const END_OF_PIN = 0x7f;
/** Stands in the analog mapping for a pin without analog channel. */
export const NO_CHANNEL = 0x7f;

const GROUP_BITS = 7;
const GROUP_VALUES = 2 ** GROUP_BITS;

export interface Version {
  readonly major: number;
  readonly minor: number;
}

/** `value` in `count` groups of 7 bits, least significant first; higher bits are cut off. */
export const sevenBitGroups = (value: number, count: number): readonly number[] => {
  const groups: number[] = [];
  for (let rest = value; groups.length < count; rest = Math.floor(rest / GROUP_VALUES)) {
    groups.push(rest % GROUP_VALUES);
  }
  return groups;
};

/** The number that groups of 7 bits spell, least significant first; exact up to 7 groups. */
export const fromSevenBitGroups = (groups: readonly number[]): number =>
  groups.reduceRight((value, group) => value * GROUP_VALUES + group, 0);

/** Each code in two groups of 7 bits. */
export const toPairs = (codes: readonly number[]): readonly number[] =>
  codes.flatMap((code) => sevenBitGroups(code, 2));

/** The codes that pairs of 7-bit groups spell, or `null` when one is left without its partner. */
export const fromPairs = (groups: readonly number[]): readonly number[] | null =>
  groups.length % 2 === 1
    ? null
    : Array.from({ length: groups.length / 2 }, (_, pair) =>
        fromSevenBitGroups(groups.slice(2 * pair, 2 * pair + 2)),
      );

const codesOf = (text: string): readonly number[] =>
  Array.from({ length: text.length }, (_, place) => text.charCodeAt(place));

/** A frame from start to end of sysex; `payload` holds data bytes only. */
export const sysex = (id: number, payload: readonly number[]): readonly number[] => [
  COMMAND.startSysex,
  id,
  ...payload,
  COMMAND.endSysex,
];

/** What analog channel 0..15 reads, 14 bits. */
export const analogMessage = (channel: number, value: number): readonly number[] => [
  COMMAND.analog | channel,
  ...sevenBitGroups(value, 2),
];

/** Levels of the 8 pins of a port, lowest pin in bit 0. */
export const digitalPortMessage = (port: number, bits: number): readonly number[] => [
  COMMAND.digitalPort | port,
  ...sevenBitGroups(bits, 2),
];

export const versionMessage = ({ major, minor }: Version): readonly number[] => [
  COMMAND.version,
  major,
  minor,
];

export const firmwareMessage = ({ major, minor }: Version, name: string): readonly number[] =>
  sysex(SYSEX.firmware, [major, minor, ...toPairs(codesOf(name))]);

export const stringMessage = (text: string): readonly number[] => sysex(SYSEX.string, toPairs(codesOf(text)));

export const samplingIntervalMessage = (millis: number): readonly number[] =>
  sysex(SYSEX.samplingInterval, sevenBitGroups(millis, 2));

/** Modes and resolutions, pin by pin. */
export const capabilityMessage = (
  pins: readonly (readonly { readonly mode: number; readonly resolution: number }[])[],
): readonly number[] =>
  sysex(
    SYSEX.capabilityResponse,
    pins.flatMap((modes) => [...modes.flatMap(({ mode, resolution }) => [mode, resolution]), END_OF_PIN]),
  );

/** Analog channel of each pin, `null` where it has none. */
export const analogMappingMessage = (channels: readonly (number | null)[]): readonly number[] =>
  sysex(
    SYSEX.analogMappingResponse,
    channels.map((channel) => channel ?? NO_CHANNEL),
  );

/** State is what was written to a pin or its pull-up, not what it reads; as many groups as it needs. */
export const pinStateMessage = (pin: number, mode: number, state: number): readonly number[] => {
  const groups = Math.max(1, Math.ceil(state.toString(2).length / GROUP_BITS));
  return sysex(SYSEX.pinStateResponse, [pin, mode, ...sevenBitGroups(state, groups)]);
};

/** What stock firmware answers about a pin that the board does not have: the number alone. */
export const noSuchPinMessage = (pin: number): readonly number[] => sysex(SYSEX.pinStateResponse, [pin]);
