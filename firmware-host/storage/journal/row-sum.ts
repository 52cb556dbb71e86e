import { crc32 } from 'node:zlib';

/** CRC-32 (ISO/IEC 3309, as in zlib) over what a row says. */
export const rowSum = (...cells: readonly (string | number | null)[]): number => crc32(JSON.stringify(cells));
