// Holds one run of the pump against what is seen: did water come back because of it?
#pragma once
#include "evidence.h"
#include "setup.h"
#include "times.h"

namespace keeper {

enum class Verdict : uint8_t { Confirmed = 0, Unproven = 1, Missed = 2, Sip = 3, CutShort = 4, ByHost = 5 };

class FloodWatch {
 public:
  void begin() { *this = FloodWatch{}; }
  // One more run while water of the last is still awaited: from the start of that it must come back.
  void again() { darkFor_ = 0; }

  void second(const Setup& setup, const Evidence& seen, bool running) {
    grow(age_);
    // Current tells only while the pump is on, and of no more than the pump.
    const Seen tells = setup.seesReturn() ? seen.seen[WATER] : running ? seen.seen[CURRENT] : Seen::Unknown;
    if (tells == Seen::No) {
      // Water from before that ends after the run says nothing of the run.
      if (running) clear_ = true;
      backFor_ = 0;
    }
    if (tells == Seen::Yes && clear_ && backFor_ < times::WATER_PROVES) ++backFor_;
    if (backFor_ >= times::WATER_PROVES) proven_ = true;
    if (running && seen.seen[MAINS] == Seen::No) grow(darkFor_);
    if (tells != Seen::Unknown) told_ = true;
  }

  bool proven() const { return proven_; }
  // Whether the pump had no power for most of a run.
  bool isDark(Seconds ran) const { return darkFor_ > ran / 2; }
  // Nothing that could still come would change the verdict.
  bool decided(const Setup& setup, Seconds returnLag) const {
    if (proven_) return true;
    if (!setup.seesReturn()) return true;
    return age_ >= returnLag;
  }
  // Where water never stopped coming back from before, or nothing can tell, nobody knows.
  CALLED Verdict verdict() const {
    if (proven_) return Verdict::Confirmed;
    return told_ && clear_ ? Verdict::Missed : Verdict::Unproven;
  }

 private:
  Seconds age_;
  Seconds darkFor_;
  uint8_t backFor_;
  bool clear_;
  bool proven_;
  bool told_;
};

}  // namespace keeper
