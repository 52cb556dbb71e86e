import { FLASH_BYTES, type ByteRange } from './flash-image.ts';

/** Text in which programs for small chips travel: Intel, "Hexadecimal Object File Format Specification", 1988. */

const DATA = 0;
const END = 1;
/** Where a program starts: nothing that a flash needs. */
const START_ADDRESSES: readonly number[] = [3, 5];
const RECORD_BYTES = 16;
/** Length, address, type and checksum around the data. */
const AROUND_DATA = 5;
const BLANK = 0xff;

const sumOf = (bytes: Iterable<number>): number => {
  let sum = 0;
  for (const byte of bytes) sum = (sum + byte) & 0xff;
  return sum;
};

/** The bytes of one record, or null when it is none. */
const recordIn = (line: string): readonly number[] | null => {
  if (!/^:(?:[0-9A-Fa-f]{2})+$/.test(line)) return null;
  const bytes = (line.slice(1).match(/../g) ?? []).map((pair) => Number.parseInt(pair, 16));
  return bytes.length === (bytes[0] ?? 0) + AROUND_DATA && sumOf(bytes) === 0 ? bytes : null;
};

/**
 * The whole flash, blank where the text says nothing.
 * @throws RangeError naming the line that is no record, or does not belong into this flash; or when the end is missing
 */
export const parseIntelHex = (text: string): Uint8Array => {
  const image = new Uint8Array(FLASH_BYTES).fill(BLANK);
  const lines = text.split(/\r?\n/);
  for (const [place, line] of lines.entries()) {
    if (line === '') continue;
    const record = recordIn(line);
    if (record === null) throw new RangeError(`line ${place + 1} is no record of Intel hex`);
    const [length = 0, high = 0, low = 0, type] = record;
    if (type === END) return image;
    if (type !== undefined && START_ADDRESSES.includes(type)) continue;
    const at = (high << 8) | low;
    if (type !== DATA || at + length > FLASH_BYTES)
      throw new RangeError(`line ${place + 1} does not belong into a flash of ${FLASH_BYTES} bytes`);
    image.set(record.slice(4, 4 + length), at);
  }
  throw new RangeError('the record that ends Intel hex is missing');
};

const recordOf = (type: number, at: number, data: readonly number[]): string => {
  const bytes = [data.length, at >> 8, at & 0xff, type, ...data];
  const whole = [...bytes, -sumOf(bytes) & 0xff];
  return `:${whole.map((byte) => byte.toString(16).toUpperCase().padStart(2, '0')).join('')}`;
};

/** The bytes of the ranges as text; nothing is said of the rest of the image. */
export const intelHexOf = (image: Uint8Array, ranges: readonly ByteRange[]): string => {
  const records = ranges.flatMap(({ from, to }) =>
    Array.from({ length: Math.ceil((to - from) / RECORD_BYTES) }, (_, place) => {
      const at = from + RECORD_BYTES * place;
      return recordOf(DATA, at, [...image.subarray(at, Math.min(at + RECORD_BYTES, to))]);
    }),
  );
  return `${[...records, recordOf(END, 0, [])].join('\n')}\n`;
};
