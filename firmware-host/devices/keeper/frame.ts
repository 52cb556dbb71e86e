import { assert } from '../../../src/units/assertion.ts';
import { crc16 } from './crc.ts';

/** Frames of the keeper: docs/board-protocol.md, "Frames". They travel as Firmata sysex of the user range. */

export const KEEPER_SYSEX = 0x0a;
/** Type, number, body and checksum together. */
export const FRAME_BYTES_MAX = 84;

const SYSEX_START = 0xf0;
const SYSEX_END = 0xf7;
/** Type and number before the body, the checksum after it. */
const AROUND_BODY = 4;

export interface Frame {
  readonly type: number;
  /** Number of the question; its answer carries the same one. */
  readonly seq: number;
  readonly body: Uint8Array;
}

/**
 * The whole sysex message, ready for the line.
 * @throws BrokenAssertion when the body is too long: a mistake of ours
 */
export const sysexOf = ({ type, seq, body }: Frame): Uint8Array => {
  assert(body.length + AROUND_BODY <= FRAME_BYTES_MAX, `a keeper frame with ${body.length} bytes of body`);
  const plain = [type, seq, ...body];
  const crc = crc16(plain);
  const frame = [...plain, crc >> 8, crc & 0xff];
  const halves = frame.flatMap((byte) => [byte & 0x7f, byte >> 7]);
  return Uint8Array.from([SYSEX_START, KEEPER_SYSEX, ...halves, SYSEX_END]);
};

/** The frame in the data bytes between sysex id and end, or null when anything at all is wrong with it. */
export const frameIn = (data: readonly number[]): Frame | null => {
  const length = data.length / 2;
  if (!Number.isInteger(length) || length < AROUND_BODY || length > FRAME_BYTES_MAX) return null;
  const bytes = new Uint8Array(length);
  for (let at = 0; at < length; at += 1) {
    const low = data[2 * at] ?? 0;
    const high = data[2 * at + 1] ?? 0;
    // The second half carries one bit; anything else in it was never sent.
    if (low > 0x7f || high > 1) return null;
    bytes[at] = low | (high << 7);
  }
  const plain = bytes.subarray(0, -2);
  const [crcHigh = 0, crcLow = 0] = bytes.subarray(-2);
  if (crc16(plain) !== ((crcHigh << 8) | crcLow)) return null;
  const [type = 0, seq = 0, ...body] = plain;
  return { type, seq, body: Uint8Array.from(body) };
};
