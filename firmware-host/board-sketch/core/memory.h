// What the keeper must know after a reset that has not cut the power.
#pragma once
#include <stddef.h>
#include "span.h"
#include "table.h"

namespace keeper {

enum class Tank : uint8_t { Well = 0, Low = 1, Suspect = 2, Returning = 3 };
enum class RunKind : uint8_t { None = 0, Flood = 1, Sip = 2 };

// What is counted up each second, whatever happens.
enum Age : uint8_t {
  // Since the pump went off.
  OFF,
  // Since the start and the end of the last whole flood.
  FLOOD,
  RESTED,
  // Since the last two starts of the keeper's own.
  START,
  START_BEFORE,
  // Since the float went low, and since the last sip.
  LOW,
  SIP,
  // Since the last long press.
  PRESS,
  AGES,
};

// Without gaps, so that its sum is that of its members: wide ones first, single bytes even in number.
struct Memory {
  Seconds age[AGES];
  // The pump: for how long it has run, and may still; and from how many seconds on the run is a flood, by the table as it was
  // at its start.
  Seconds onFor;
  Seconds runLeft;
  Seconds enough;
  Seconds holdLeft;
  Seconds holdFor;
  Seconds handTest;
  Seconds retryIn;
  RunKind run;
  Tank tank;
  // Whether a sip has been tried since the float went low.
  uint8_t tried;
  uint8_t sips;
  uint8_t runByHost;
  uint8_t holdByButton;
  // Water alarm: the last flood of the keeper was missed.
  uint8_t missed;
  uint8_t retries;
  uint8_t catchUp;
  // The first start after power-on is still to come.
  uint8_t unstarted;
  uint16_t epoch;
  uint16_t minute;
  // How long the last whole flood was.
  Seconds floodRan;
  uint16_t logNext;
  // Long presses of the button: a host that has not heard of the last one does not know of its hold.
  uint16_t presses;
  uint16_t resets;
  uint32_t uptime;
  uint8_t second;
  uint8_t hadHost;
  uint8_t cause;
  uint8_t logKept;
  uint16_t check;
};
static_assert(offsetof(Memory, check) == 4 + (13 + AGES) * 2 + 14, "no gaps");

// The sum of all words but the check itself: quick enough for every second, and any one bit that turns over changes it.
inline uint16_t checkOf(const Memory& memory) {
  // Or the compiler may read before what was written as something else is there.
  typedef uint16_t __attribute__((may_alias)) Word;
  const Word* at = reinterpret_cast<const Word*>(&memory);
  uint16_t sum = 0x5AA5;
  for (uint8_t left = offsetof(Memory, check) / sizeof(*at); left > 0; --left) sum = static_cast<uint16_t>(sum + *at++);
  return sum;
}

// Every other step of the epoch has an entry in the log: a step that no log can hold tells a host that this one began anew.
constexpr uint16_t EPOCH_LEAP = 1000;

// With no power before, all is unknown; the pump is taken as just stopped. The epoch goes on from whatever was there.
inline void forget(Memory& memory) {
  const uint16_t epoch = static_cast<uint16_t>(memory.epoch + EPOCH_LEAP);
  memory = Memory{};
  memory.epoch = epoch;
  for (Seconds& age : memory.age) age = FOREVER;
  memory.age[OFF] = 0;
  memory.unstarted = 1;
  memory.minute = MINUTE_UNKNOWN;
}

}  // namespace keeper
