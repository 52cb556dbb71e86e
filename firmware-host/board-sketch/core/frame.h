// Keeper frames inside Firmata sysex: each byte as two of seven bits, and a checksum behind them.
#pragma once
#include "crc16.h"

namespace keeper {

constexpr uint8_t SYSEX_ID = 0x0A;
constexpr uint8_t SYSEX_START = 0xF0;
constexpr uint8_t SYSEX_END = 0xF7;
constexpr uint8_t FRAME_BYTES_MAX = 84;
// Type, seq and checksum.
constexpr uint8_t FRAME_BYTES_MIN = 4;

// Bytes of a frame without its checksum, when that is right; else 0.
inline uint8_t checkedFrame(const uint8_t* frame, uint8_t count) {
  if (count < FRAME_BYTES_MIN) return 0;
  // The checksum stands high byte first, so that its own checksum is nought.
  return crcOf(frame, count) == 0 ? static_cast<uint8_t>(count - 2) : uint8_t{0};
}

// Line: void write(uint8_t).
template <class Line>
void sendFrame(Line& line, const uint8_t* bare, uint8_t count) {
  const uint16_t crc = crcOf(bare, count);
  const auto pair = [&line](uint8_t byte) {
    line.write(byte & 0x7F);
    line.write(static_cast<uint8_t>(byte >> 7));
  };
  line.write(SYSEX_START);
  line.write(SYSEX_ID);
  for (uint8_t at = 0; at < count; ++at) pair(bare[at]);
  pair(static_cast<uint8_t>(crc >> 8));
  pair(static_cast<uint8_t>(crc));
  line.write(SYSEX_END);
}

}  // namespace keeper
