// Numbers in bytes, little-endian as on the wire. The caller has checked the lengths.
#pragma once
#include <stdint.h>

// Called, not copied into every caller: the flash is small.
#define CALLED __attribute__((noinline))
// Laid out in memory as on the wire, on this chip and on every machine that is little-endian too.
#define AS_ON_THE_WIRE __attribute__((packed))

static_assert(__BYTE_ORDER__ == __ORDER_LITTLE_ENDIAN__, "what lies in memory is sent as it lies");

namespace keeper {

// Or the compiler may read before what was written as something else is there.
struct __attribute__((packed, may_alias)) TwoBytes {
  uint16_t value;
};
inline uint16_t twoBytes(const uint8_t* at) { return reinterpret_cast<const TwoBytes*>(at)->value; }

inline uint8_t* put(uint8_t* to, uint16_t value) {
  reinterpret_cast<TwoBytes*>(to)->value = value;
  return to + sizeof(value);
}

template <class Value>
const uint8_t* bytesOf(const Value& value) {
  return reinterpret_cast<const uint8_t*>(&value);
}

CALLED inline uint8_t* copied(uint8_t* to, const uint8_t* from, uint8_t count) {
  while (count-- > 0) *to++ = *from++;
  return to;
}

}  // namespace keeper
