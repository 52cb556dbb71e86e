// What the keeper sees once a second, and contacts that must agree for a while before they are believed.
#pragma once
#include "bytes.h"
#include "sights.h"
#include "span.h"

namespace keeper {

struct Evidence {
  Seen seen[SIGHTS];
  // By the board's own thermistor; unknown counts as hot.
  Seen hot;
  bool so(Sight sight) const { return seen[sight] == Seen::Yes; }
};

// One contact, looked at once a second.
class Agreeing {
 public:
  CALLED Seen look(bool so, uint8_t seconds) {
    if (so != last_) {
      last_ = so;
      same_ = 0;
    }
    if (same_ < seconds) ++same_;
    if (same_ >= seconds) told_ = so ? Seen::Yes : Seen::No;
    return told_;
  }

 private:
  bool last_ = false;
  uint8_t same_ = 0;
  Seen told_ = Seen::Unknown;
};

// A flow meter: what it gave in the last fifteen seconds.
class PulseWindow {
 public:
  Seen look(uint8_t pulses, uint8_t areWater) {
    sum_ = static_cast<uint16_t>(sum_ - ring_[at_] + pulses);
    ring_[at_] = pulses;
    at_ = at_ == SPAN - 1 ? uint8_t{0} : static_cast<uint8_t>(at_ + 1);
    if (filled_ < SPAN) ++filled_;
    if (sum_ >= areWater) return Seen::Yes;
    return filled_ < SPAN ? Seen::Unknown : Seen::No;
  }

 private:
  static constexpr uint8_t SPAN = 15;
  uint8_t ring_[SPAN] = {};
  uint16_t sum_ = 0;
  uint8_t at_ = 0;
  uint8_t filled_ = 0;
};

}  // namespace keeper
