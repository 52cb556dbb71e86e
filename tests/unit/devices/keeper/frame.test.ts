import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { crc16 } from '../../../../firmware-host/devices/keeper/crc.ts';
import { FRAME_BYTES_MAX, frameIn, sysexOf } from '../../../../firmware-host/devices/keeper/frame.ts';
import { BrokenAssertion } from '../../../../src/units/assertion.ts';
import { crcBits, dataOf, sysexFrame } from './board-side.ts';

const bytes = fc.uint8Array({ maxLength: FRAME_BYTES_MAX - 4 });
const byte = fc.integer({ min: 0, max: 255 });
const anyFrame = fc.record({ type: byte, seq: byte, body: bytes });

describe('the checksum of a frame', () => {
  it('of "123456789" is 0x29B1, the check value of CRC-16/CCITT-FALSE in the catalogue of CRC algorithms', () => {
    const text = Array.from('123456789', (letter) => letter.charCodeAt(0));
    expect([crc16(text), crcBits(text)]).toEqual([0x29b1, 0x29b1]);
  });

  it('is that of a long division, for any bytes', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 90 }), (any) => {
        expect(crc16(any)).toBe(crcBits([...any]));
      }),
    );
  });
});

describe('a frame', () => {
  it('goes as F0 0A, each byte as its low seven bits and its top bit, then F7', () => {
    const sent = [...sysexOf({ type: 3, seq: 0x81, body: Uint8Array.of(0xff, 0x10) })];
    expect(sent.slice(0, 10)).toEqual([0xf0, 0x0a, 3, 0, 0x01, 1, 0x7f, 1, 0x10, 0]);
    expect(sent).toEqual(sysexFrame(3, 0x81, [0xff, 0x10]));
    expect(sent).toHaveLength(2 + 2 * 6 + 1);
  });

  it('comes back whole, whatever is in it', () => {
    fc.assert(
      fc.property(anyFrame, (frame) => {
        expect(frameIn([...sysexOf(frame)].slice(2, -1))).toEqual(frame);
      }),
    );
  });

  it('of 84 bytes passes and one of 85 is refused', () => {
    const body = (length: number): number[] => Array.from({ length: length - 4 }, () => 0x55);
    expect(frameIn(dataOf(0x41, 1, body(84)))?.body).toHaveLength(80);
    expect(frameIn(dataOf(0x41, 1, body(85)))).toBeNull();
    expect(() => sysexOf({ type: 1, seq: 1, body: Uint8Array.from(body(85)) })).toThrow(BrokenAssertion);
  });

  it.each([
    ['nothing', []],
    ['three bytes, which is less than type, number and checksum', [1, 0, 1, 0, 1, 0]],
    ['an odd number of halves', dataOf(1, 1, []).slice(1)],
    ['a top half of 2', [...dataOf(1, 1, []).slice(0, -1), 2]],
    ['a low half of 128', [128, ...dataOf(1, 1, []).slice(1)]],
    ['a checksum of the reflected kind', [1, 0, 1, 0, 0x0f, 1, 0x6e, 1]],
  ] as const)('is refused: %s', (_, data) => {
    expect(frameIn(data)).toBeNull();
  });

  it('with one bit turned over is refused', () => {
    fc.assert(
      fc.property(anyFrame, fc.nat(), fc.integer({ min: 0, max: 7 }), (frame, place, bit) => {
        const data = [...sysexOf(frame)].slice(2, -1);
        const at = place % data.length;
        data[at] = data[at]! ^ (1 << bit);
        expect(frameIn(data)).toBeNull();
      }),
      { numRuns: 2000 },
    );
  });

  it('with any two neighbouring bytes spoilt is refused: CRC-16 tells every burst of 16 bits', () => {
    fc.assert(
      fc.property(anyFrame, fc.nat(), fc.integer({ min: 1, max: 0xffff }), (frame, place, burst) => {
        const plain = [frame.type, frame.seq, ...frame.body];
        const crc = crcBits(plain);
        const whole = [...plain, crc >> 8, crc & 0xff];
        const at = place % (whole.length - 1);
        whole[at] = whole[at]! ^ (burst >> 8);
        whole[at + 1] = whole[at + 1]! ^ (burst & 0xff);
        expect(frameIn(whole.flatMap((one) => [one & 0x7f, one >> 7]))).toBeNull();
      }),
      { numRuns: 2000 },
    );
  });

  it('with a byte lost or doubled on the way is refused', () => {
    fc.assert(
      fc.property(anyFrame, fc.nat(), fc.boolean(), (frame, place, doubled) => {
        const data = [...sysexOf(frame)].slice(2, -1);
        const at = place % data.length;
        if (doubled) data.splice(at, 0, data[at]!);
        else data.splice(at, 1);
        expect(frameIn(data)).toBeNull();
      }),
      { numRuns: 2000 },
    );
  });
});
