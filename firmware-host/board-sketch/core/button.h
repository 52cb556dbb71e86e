// A button, looked at every 50 ms while it is down or has just moved. One that never comes up has been pressed once; a finger
// that was on it before the first look has pressed nothing.
#pragma once
#include <stdint.h>

namespace keeper {

enum class Press : uint8_t { None, Short, Long };

class Button {
 public:
  static constexpr uint8_t LOOK_MILLIS = 50;

  Press look(bool down) {
    if (!seen_) {
      seen_ = true;
      ignored_ = down;
    }
    if (!down) {
      const bool pressed = downFor_ > 1 && downFor_ <= LONG_LOOKS && !ignored_;
      downFor_ = 0;
      ignored_ = false;
      return pressed ? Press::Short : Press::None;
    }
    if (downFor_ <= LONG_LOOKS) ++downFor_;
    else return Press::None;
    return downFor_ > LONG_LOOKS && !ignored_ ? Press::Long : Press::None;
  }
  // Whether it wants to be looked at again soon: until it has come up, or it would never be pressed again.
  bool busy() const { return downFor_ > 0; }

 private:
  // Three seconds.
  static constexpr uint8_t LONG_LOOKS = 60;
  uint8_t downFor_ = 0;
  bool ignored_ = false;
  bool seen_ = false;
};

}  // namespace keeper
