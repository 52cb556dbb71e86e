// Spans of whole seconds. Nothing here counts absolute time, so nothing wraps: an age stops at FOREVER.
#pragma once
#include "bytes.h"

namespace keeper {

using Seconds = uint16_t;

// An age that is unknown, or longer than can be told; longer than any rest that a table may hold.
constexpr Seconds FOREVER = 0xFFFF;

inline Seconds older(Seconds age) { return age == FOREVER ? age : static_cast<Seconds>(age + 1); }
CALLED inline void grow(Seconds& age) { age = older(age); }
inline Seconds olderBy(Seconds age, Seconds by) {
  return age > FOREVER - by ? FOREVER : static_cast<Seconds>(age + by);
}
inline Seconds less(Seconds left) { return left == 0 ? Seconds{0} : static_cast<Seconds>(left - 1); }
CALLED inline void shrink(Seconds& left) { left = less(left); }
CALLED inline Seconds least(Seconds a, Seconds b) { return a < b ? a : b; }

}  // namespace keeper
