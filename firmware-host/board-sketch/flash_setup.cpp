#include "flash_setup.h"

#include <avr/pgmspace.h>
#include "core/crc16.h"

namespace {

constexpr uint8_t PROGRAM_BYTES = 4;
constexpr uint8_t AREA_BYTES = PROGRAM_BYTES + keeper::SETUP_BYTES + keeper::TABLE_BYTES_MAX + 2;
constexpr uint16_t NEVER_SET = 0xFFFF;

// Filled in when the board is flashed: length and checksum of the program, setup, table, checksum of both. Volatile, or
// the compiler would take the emptiness for granted.
struct Area {
  uint8_t byte[AREA_BYTES];
};
#define FOUR 0xFF, 0xFF, 0xFF, 0xFF
#define SIXTEEN FOUR, FOUR, FOUR, FOUR
extern const volatile Area area;
const volatile Area area __attribute__((section(".setup"), used)) = {
    {SIXTEEN, SIXTEEN, SIXTEEN, SIXTEEN, SIXTEEN, SIXTEEN, SIXTEEN, SIXTEEN, SIXTEEN, FOUR}};
#undef SIXTEEN
#undef FOUR
static_assert(AREA_BYTES == 148, "as many bytes as are spelt out above");

uint8_t areaAt(uint8_t offset) { return pgm_read_byte(reinterpret_cast<uint16_t>(&area) + offset); }
uint16_t twoAt(uint8_t offset) {
  return pgm_read_word(reinterpret_cast<uint16_t>(&area) + offset);
}

}  // namespace

namespace flash_setup {

uint8_t byteAt(uint8_t offset) { return areaAt(static_cast<uint8_t>(PROGRAM_BYTES + offset)); }

bool present() { return byteAt(0) != 0xFF; }

bool read(keeper::Setup& setup, keeper::Table& table) {
  uint16_t crc = keeper::CRC_START;
  uint8_t* to = reinterpret_cast<uint8_t*>(&setup);
  for (uint8_t at = 0; at < keeper::SETUP_BYTES + keeper::TABLE_BYTES_MAX; ++at) {
    if (at == keeper::SETUP_BYTES) to = reinterpret_cast<uint8_t*>(&table);
    *to = byteAt(at);
    crc = keeper::crcWith(crc, *to++);
  }
  return crc == twoAt(AREA_BYTES - 2) && isGood(setup) &&
         isGood(table, keeper::tableBytes(table.parts), setup.longestOn);
}

bool programWhole() {
  const uint16_t length = twoAt(0);
  if (length == NEVER_SET) return false;
  uint16_t crc = keeper::CRC_START;
  for (uint16_t at = 0; at < length; ++at) crc = keeper::crcWith(crc, pgm_read_byte(at));
  return crc == twoAt(2);
}

}  // namespace flash_setup
