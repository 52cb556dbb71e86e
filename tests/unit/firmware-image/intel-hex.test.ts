import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { intelHexOf, parseIntelHex } from '../../../firmware-host/firmware-image/intel-hex.ts';

/** Two bytes at 0x0100, and the end. Checksums by hand: 02 + 01 + 00 + 00 + 12 + 34 = 49, to 100 are B7 missing. */
const TWO = ':020100001234B7\n:00000001FF\n';

describe('Intel hex', () => {
  it('puts bytes where the record says, and leaves the rest blank', () => {
    const image = parseIntelHex(TWO);
    expect([...image.subarray(0xff, 0x103)]).toEqual([0xff, 0x12, 0x34, 0xff]);
    expect(image).toHaveLength(0x8000);
  });

  it('is written as it is read: 16 bytes a record, capitals, the end last', () => {
    expect(intelHexOf(parseIntelHex(TWO), [{ from: 0x100, to: 0x102 }])).toBe(TWO);
    const [first, second] = intelHexOf(new Uint8Array(0x8000), [{ from: 0, to: 17 }]).split('\n');
    expect(first).toBe(':1000000000000000000000000000000000000000F0');
    expect(second).toBe(':0100100000EF');
  });

  it.each([
    ['a wrong checksum', TWO.replace('B7', 'B8'), 'line 1 is no record'],
    ['a byte too few', TWO.replace('34B7', 'EB'), 'line 1 is no record'],
    ['a letter that is no digit', TWO.replace('12', '1G'), 'line 1 is no record'],
    ['no colon', TWO.slice(1), 'line 1 is no record'],
    ['no end', TWO.slice(0, 16), 'ends Intel hex is missing'],
    ['nothing', '', 'ends Intel hex is missing'],
    ['bytes past 32 kB', ':017FFF000081\n:0180000012' + '6D\n:00000001FF\n', 'line 2 does not belong'],
    [
      'a segment address, which no flash of 32 kB needs',
      ':020000021000EC\n:00000001FF\n',
      'line 1 does not belong',
    ],
  ])('with %s is refused, and the line named', (_, text, why) => {
    expect(() => parseIntelHex(text)).toThrow(why);
  });

  it('takes line ends of Windows, blank lines, small letters, and where the program starts', () => {
    const text = ':0400000300000000f9\r\n\r\n:020100001234b7\r\n:00000001ff\r\n';
    expect(parseIntelHex(text)).toEqual(parseIntelHex(TWO));
  });

  it('of any bytes in any range leads back to them', () => {
    const range = fc
      .tuple(fc.integer({ min: 0, max: 0x8000 }), fc.integer({ min: 0, max: 300 }))
      .map(([from, length]) => ({ from, to: Math.min(0x8000, from + length) }));
    fc.assert(
      fc.property(range, fc.uint8Array({ minLength: 300, maxLength: 300 }), ({ from, to }, bytes) => {
        const image = new Uint8Array(0x8000).fill(0xff);
        image.set(bytes.subarray(0, to - from), from);
        const again = parseIntelHex(intelHexOf(image, [{ from, to }]));
        expect(Buffer.compare(again, image)).toBe(0);
      }),
    );
  });
});
