// A store like the board's EEPROM, whose power can fail at any write, and whose cells can be worn out.
#pragma once
#include <cstdint>
#include <cstring>

// What the byte holds on which the power failed (ATmega328P data sheet, "Preventing EEPROM Corruption", says only that
// it may be corrupt).
enum class Torn : uint8_t { Erased, HalfWritten, Random, Whole, Untouched };
constexpr Torn EVERY_TORN[] = {Torn::Erased, Torn::HalfWritten, Torn::Random, Torn::Whole, Torn::Untouched};

struct CutStore {
  static constexpr uint16_t BYTES = 1024;
  static constexpr uint32_t NEVER = 0xFFFFFFFF;

  uint8_t cell[BYTES];
  uint32_t writes;
  // The write on which the power fails, counted from 0; all after it do nothing.
  uint32_t cutAt;
  Torn torn;
  uint8_t noise;
  // A cell that keeps its value for ever; BYTES for none.
  uint16_t worn;

  void clear() {
    std::memset(cell, 0xFF, sizeof(cell));
    mend();
    worn = BYTES;
  }
  void mend() {
    writes = 0;
    cutAt = NEVER;
  }
  void cut(uint32_t at, Torn how, uint8_t random) {
    writes = 0;
    cutAt = at;
    torn = how;
    noise = random;
  }
  bool wasCut() const { return writes > cutAt; }

  uint8_t read(uint16_t at) const { return cell[at % BYTES]; }
  void write(uint16_t at, uint8_t value) {
    const uint32_t number = writes++;
    if (number > cutAt || at % BYTES == worn) return;
    cell[at % BYTES] = number == cutAt ? tornFrom(cell[at % BYTES], value) : value;
  }

 private:
  uint8_t tornFrom(uint8_t before, uint8_t value) const {
    switch (torn) {
      case Torn::Erased:
        return 0xFF;
      case Torn::HalfWritten:
        return static_cast<uint8_t>(value | noise);
      case Torn::Random:
        return noise;
      case Torn::Whole:
        return value;
      case Torn::Untouched:
        return before;
    }
    return noise;
  }
};
