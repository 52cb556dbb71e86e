import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  readTable,
  tableBytes,
  TABLE_BYTES_MAX,
  tableProblem,
  type KeeperTable,
} from '../../../src/farm/table-bytes.ts';

const TABLE: KeeperTable = {
  parts: [
    { fromMinute: 360, restSeconds: 1500, coolRestSeconds: 1800, floodSeconds: 1200 },
    { fromMinute: 1260, restSeconds: 9000, coolRestSeconds: 10_800, floodSeconds: 900 },
  ],
  longestRestSeconds: 12_600,
  returnLagSeconds: 480,
};
const BYTES = tableBytes(TABLE);
const put = (at: number, value: number): Uint8Array => {
  const bytes = Uint8Array.from(BYTES);
  new DataView(bytes.buffer).setUint16(at, value, true);
  return bytes;
};
const isReadable = (bytes: Uint8Array, longestOn?: number): boolean =>
  readTable(bytes, longestOn).kind === 'table';

const tables: fc.Arbitrary<KeeperTable> = fc
  .record({
    froms: fc.uniqueArray(fc.integer({ min: 0, max: 1439 }), { minLength: 1, maxLength: 8 }),
    rests: fc.array(fc.tuple(fc.integer({ min: 180, max: 21_600 }), fc.integer({ min: 180, max: 21_600 })), {
      minLength: 8,
      maxLength: 8,
    }),
    floods: fc.array(fc.integer({ min: 30, max: 3600 }), { minLength: 8, maxLength: 8 }),
    longestRestSeconds: fc.integer({ min: 21_600, max: 43_200 }),
    returnLagSeconds: fc.integer({ min: 60, max: 1800 }),
  })
  .map(({ froms, rests, floods, ...rest }) => ({
    parts: [...froms]
      .sort((a, b) => a - b)
      .map((fromMinute, place) => ({
        fromMinute,
        restSeconds: Math.min(...rests[place]!),
        coolRestSeconds: Math.max(...rests[place]!),
        floodSeconds: floods[place]!,
      })),
    ...rest,
  }));

describe('a keeper table in bytes', () => {
  it('is laid out as the page says: 6 bytes, then 8 for each part, least byte first', () => {
    expect([...BYTES]).toEqual([
      1, 2, 0x38, 0x31, 0xe0, 0x01, 0x68, 0x01, 0xdc, 0x05, 0x08, 0x07, 0xb0, 0x04, 0xec, 0x04, 0x28, 0x23,
      0x30, 0x2a, 0x84, 0x03,
    ]);
  });

  it('of any table that a board would take reads back as that table', () => {
    fc.assert(
      fc.property(tables, (table) => {
        const bytes = tableBytes(table);
        expect(bytes.length).toBeLessThanOrEqual(TABLE_BYTES_MAX);
        expect(readTable(bytes)).toEqual({ kind: 'table', table });
      }),
    );
  });

  it('is read, or refused in words, whatever the bytes are', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 80 }), (bytes) => {
        const read = readTable(bytes);
        if (read.kind === 'table') expect([...tableBytes(read.table)]).toEqual([...bytes]);
        else expect(read.why).toMatch(/\w+ \w+/);
      }),
    );
  });

  it.each([
    ['a rest of 180 s', put(8, 180), true],
    ['a rest of 179 s', put(8, 179), false],
    ['a rest longer than the one in the cool', put(8, 1801), false],
    ['a rest in the cool longer than the longest rest', put(10, 21_600), false],
    ['a flood of 30 s', put(12, 30), true],
    ['a flood of 29 s', put(12, 29), false],
    ['a flood of 3600 s', put(12, 3600), true],
    ['a flood of 3601 s', put(12, 3601), false],
    ['a longest rest as long as the longest in the cool', put(2, 10_800), true],
    ['a shorter one', put(2, 10_799), false],
    ['a longest rest of 43 200 s', put(2, 43_200), true],
    ['a longest rest of 43 201 s', put(2, 43_201), false],
    ['a return lag of 60 s', put(4, 60), true],
    ['a return lag of 59 s', put(4, 59), false],
    ['a return lag of 1800 s', put(4, 1800), true],
    ['a return lag of 1801 s', put(4, 1801), false],
    ['a last part from 23:59', put(14, 1439), true],
    ['a last part from 24:00', put(14, 1440), false],
    ['two parts from the same minute', put(14, 360), false],
    ['parts in the wrong order', put(14, 359), false],
  ])('with %s is taken: %#', (_, bytes, taken) => {
    expect(isReadable(bytes)).toBe(taken);
  });

  it('of another schema, of no part, of nine, or of another length is refused', () => {
    const [other, none, nine] = [2, 1, 1].map((schema, place) =>
      Uint8Array.from(BYTES, (byte, at) => (at === 0 ? schema : at === 1 ? [2, 0, 9][place]! : byte)),
    );
    for (const bytes of [
      other!,
      none!,
      nine!,
      BYTES.slice(0, -1),
      Uint8Array.from([...BYTES, 0]),
      new Uint8Array(),
    ])
      expect(isReadable(bytes)).toBe(false);
  });

  it('holds its floods to the longest-on of the board: 1200 s pass with 1200 and not with 1199', () => {
    expect([isReadable(BYTES, 1200), isReadable(BYTES, 1199)]).toEqual([true, false]);
    expect(tableProblem(TABLE, 1199)).toBe('a flood of 1200 s; allowed is 30 to 1199 s');
  });

  it('read from the middle of other bytes is the same', () => {
    const around = Uint8Array.from([9, 9, 9, ...BYTES]);
    expect(readTable(around.subarray(3))).toEqual({ kind: 'table', table: TABLE });
  });
});
