// Numbers in bytes, little-endian as on the wire. The caller has checked the lengths.
#pragma once
#include <stdint.h>

// Called, not copied into every caller: the flash is small.
#define CALLED __attribute__((noinline))
// Laid out in memory as on the wire, on this chip and on every machine that is little-endian too.
#define AS_ON_THE_WIRE __attribute__((packed))

static_assert(__BYTE_ORDER__ == __ORDER_LITTLE_ENDIAN__, "what lies in memory is sent as it lies");

namespace keeper {

CALLED inline uint16_t twoBytes(const uint8_t* at) { return static_cast<uint16_t>(at[0] | (at[1] << 8)); }

template <class Value>
const uint8_t* bytesOf(const Value& value) {
  return reinterpret_cast<const uint8_t*>(&value);
}

CALLED inline uint8_t* copied(uint8_t* to, const uint8_t* from, uint8_t count) {
  while (count-- > 0) *to++ = *from++;
  return to;
}

}  // namespace keeper
