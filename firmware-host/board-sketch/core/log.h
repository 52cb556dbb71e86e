// What happened, for a host that was away. Kinds and details: docs/board-protocol.md, "Log".
#pragma once
#include "bytes.h"

namespace keeper {

enum class Kind : uint8_t {
  Run = 1,
  Reset = 2,
  Owner = 3,
  HoldBegan = 4,
  HoldEnded = 5,
  Button = 6,
  Mains = 7,
  Tank = 8,
  TableStored = 9,
};

struct AS_ON_THE_WIRE Entry {
  // Seconds of uptime; negative: so many before the last reset.
  int32_t at;
  Kind kind;
  uint8_t detail;
  uint16_t value;
};

static_assert(sizeof(Entry) == 8, "as on the wire");
constexpr uint8_t ENTRIES = 32;

// Lies in memory that a reset does not clear, beside `Memory`, whose checksum also covers `next` and `kept`.
struct Log {
  Entry entry[ENTRIES];

  CALLED Entry& at(uint16_t number) { return entry[static_cast<uint8_t>(number) % ENTRIES]; }
  const Entry& at(uint16_t number) const { return const_cast<Log*>(this)->at(number); }
};

}  // namespace keeper
