// CRC-16/CCITT-FALSE: polynomial 0x1021, start 0xFFFF, not reflected; "123456789" gives 0x29B1.
#pragma once
#include "bytes.h"

namespace keeper {

constexpr uint16_t CRC_START = 0xFFFF;

CALLED inline uint16_t crcWith(uint16_t crc, uint8_t byte) {
  crc = static_cast<uint16_t>((crc >> 8) | (crc << 8));
  crc = static_cast<uint16_t>(crc ^ byte);
  crc = static_cast<uint16_t>(crc ^ ((crc & 0xFF) >> 4));
  crc = static_cast<uint16_t>(crc ^ (crc << 12));
  return static_cast<uint16_t>(crc ^ ((crc & 0xFF) << 5));
}

CALLED inline uint16_t crcOf(const uint8_t* bytes, uint8_t count) {
  uint16_t crc = CRC_START;
  for (uint8_t at = 0; at < count; ++at) crc = crcWith(crc, bytes[at]);
  return crc;
}

}  // namespace keeper
