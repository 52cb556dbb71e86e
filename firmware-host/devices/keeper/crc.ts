const POLYNOMIAL = 0x1021;
const START = 0xffff;

/**
 * CRC-16/CCITT-FALSE: polynomial 0x1021, start 0xFFFF, not reflected, nothing xored at the end. Of the ASCII text
 * "123456789" it is 0x29B1 (Catalogue of parametrised CRC algorithms, CRC-16/IBM-3740, alias CRC-16/CCITT-FALSE).
 */
export const crc16 = (bytes: Iterable<number>): number => {
  let crc = START;
  for (const byte of bytes) {
    crc ^= byte << 8;
    for (let bit = 0; bit < 8; bit += 1) {
      crc = (crc & 0x8000) === 0 ? crc << 1 : (crc << 1) ^ POLYNOMIAL;
    }
    crc &= 0xffff;
  }
  return crc;
};
