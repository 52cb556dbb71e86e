// Seeded chance: the same seed gives the same run on every machine (SplitMix64, Steele, Lea and Flood 2014).
#pragma once
#include <cstdint>

class Chance {
 public:
  explicit Chance(uint64_t seed) : state_(seed) {}
  uint64_t next() {
    state_ += 0x9E3779B97F4A7C15u;
    uint64_t mixed = state_;
    mixed = (mixed ^ (mixed >> 30)) * 0xBF58476D1CE4E5B9u;
    mixed = (mixed ^ (mixed >> 27)) * 0x94D049BB133111EBu;
    return mixed ^ (mixed >> 31);
  }
  // From `low` to `high`, both included.
  uint32_t between(uint32_t low, uint32_t high) { return low + static_cast<uint32_t>(next() % (high - low + 1u)); }
  uint16_t span(uint32_t low, uint32_t high) { return static_cast<uint16_t>(between(low, high)); }
  uint8_t byte() { return static_cast<uint8_t>(next()); }
  bool oneIn(uint32_t many) { return next() % many == 0; }

 private:
  uint64_t state_;
};
