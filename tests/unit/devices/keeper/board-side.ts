/**
 * The board's side of a keeper frame, written from docs/board-protocol.md, "Frames", and not from the host's code, so
 * that one checks the other.
 */

export interface Asked {
  readonly type: number;
  readonly seq: number;
  readonly body: readonly number[];
}

/** The checksum as long division of the bits by 1 0001 0000 0010 0001, with sixteen ones before them. */
export const crcBits = (bytes: readonly number[]): number => {
  const bits = bytes.flatMap((byte) => [7, 6, 5, 4, 3, 2, 1, 0].map((at) => (byte >> at) & 1));
  const divided = [...bits, ...Array.from({ length: 16 }, () => 0)];
  // A start of ones is the same as turning the first sixteen bits over.
  for (let at = 0; at < 16; at += 1) divided[at] = 1 - divided[at]!;
  const divisor = [1, 0, 0, 0, 1, 0, 0, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1];
  for (let at = 0; at < bits.length; at += 1) {
    if (divided[at] === 0) continue;
    divisor.forEach((bit, place) => {
      divided[at + place] = divided[at + place]! ^ bit;
    });
  }
  return divided.slice(-16).reduce((value, bit) => 2 * value + bit, 0);
};

const low = (value: number): number => value & 0xff;
export const u16 = (value: number): readonly number[] => [low(value), low(value >> 8)];
export const u32 = (value: number): readonly number[] => [
  low(value),
  low(value >> 8),
  low(value >> 16),
  low(value >> 24),
];
export const asU16 = (body: readonly number[], at: number): number => body[at]! + 256 * body[at + 1]!;

/** The data bytes between `F0 0A` and `F7`. */
export const dataOf = (type: number, seq: number, body: readonly number[]): readonly number[] => {
  const frame = [type, seq, ...body];
  const crc = crcBits(frame);
  return [...frame, crc >> 8, crc & 0xff].flatMap((byte) => [byte & 0x7f, byte >> 7]);
};

export const sysexFrame = (type: number, seq: number, body: readonly number[]): readonly number[] => [
  0xf0,
  0x0a,
  ...dataOf(type, seq, body),
  0xf7,
];

/** Keeper frames in what a host has written; everything else is left out. @throws Error on a spoilt one */
export const framesIn = (bytes: Iterable<number>): readonly Asked[] => {
  const found: Asked[] = [];
  let message: number[] | null = null;
  for (const byte of bytes) {
    if (byte === 0xf0) message = [];
    else if (byte === 0xf7 && message !== null) {
      if (message[0] === 0x0a) found.push(asked(message.slice(1)));
      message = null;
    } else message?.push(byte);
  }
  return found;
};

const asked = (data: readonly number[]): Asked => {
  const bytes = Array.from({ length: data.length / 2 }, (_, at) => data[2 * at]! + 128 * data[2 * at + 1]!);
  const frame = bytes.slice(0, -2);
  if (crcBits(frame) !== 256 * bytes.at(-2)! + bytes.at(-1)!) throw new Error('a frame with a bad checksum');
  const [type, seq, ...body] = frame;
  return { type: type!, seq: seq!, body };
};
