// A host at the other end of the line, after firmware-host/devices/keeper/*.ts in whole seconds. The hello and the log are left
// out: they change nothing on the board, and nothing of when the pump is claimed but the time that they take.
#pragma once
#include <cstring>
#include <utility>

#include "board_state.h"
#include "line.h"

namespace explored {

enum class Phase : uint8_t { Dead, Status, Claim, Settle, Own, Wait };
// Refused: by a hold, for good. Deferred: by one that is as good as over.
enum class Wish : uint8_t { None, Off, On, OnRefused, OnDeferred };
enum class HoldWish : uint8_t { None, Hold, Release };

// hand-shake.ts: SETTLE_SECONDS 5, YIELD_SECONDS 5; own-step.ts: LOST_SECONDS 2; link-step.ts: SILENT_BEATS_MAX 3;
// pump-wish.ts: TOLERANCE_SECONDS 3, SAME_END_SECONDS 12. Shortened as the board's spans are. A wait of n seconds is over with the nth, so it counts n - 1.
#ifdef SPANS_OF_THE_HOST
constexpr uint8_t SETTLE_SPAN = 5, YIELD_SPAN = 4, LOST_SPAN = 1, SILENT_BEATS = 3, TOLERANCE = 3, SAME_END = 12, HOLD_SPAN = 2;
#else
constexpr uint8_t SETTLE_SPAN = 2, YIELD_SPAN = 2, LOST_SPAN = 1, SILENT_BEATS = 2, TOLERANCE = 1, SAME_END = 1, HOLD_SPAN = 2;
#endif
constexpr uint8_t UNKNOWN_REST = REST;

// Out: void operator()(const Message&).
struct LineHost {
  Phase phase;
  // Of the own claim, or of the status by which it is claimed.
  uint8_t behind, inForce;
  uint8_t wait, settled, silent;
  // Which questions are open, one bit each (question.ts).
  uint8_t open;
  Wish wish;
  uint8_t wishLeft;
  // Of a start that was refused for a time: until it may be asked for again.
  uint8_t rests;
  HoldWish hold;
  // Whether the button has been pressed long since the last status, and since the hold or release was ordered.
  uint8_t pressed, holdPressed;
  // What the controller knows: how long it is since the last flood ended, and for how long one that it found still runs.
  uint8_t rested, found, fresh;

  static uint8_t bit(Asked asked) { return static_cast<uint8_t>(1u << static_cast<uint8_t>(asked)); }
  bool asks(Asked asked) const { return (open & bit(asked)) != 0; }

  Message said(Say say, Asked asked, uint8_t value = 0) const {
    Message message = {};
    message.say = say;
    message.asked = asked;
    message.behind = behind;
    message.inForce = inForce;
    message.value = value;
    return message;
  }
  // link-state.ts, stateAtOpening; ask.ts, intoAsking.
  template <class Out>
  void opens(Out out) {
    into(Phase::Status);
    asks(Say::Status, out);
  }
  // Set when what was asked before has no answer any more; for the explorer, and no part of the state.
  static bool& askedAnew() {
    static bool anew = false;
    return anew;
  }
  void into(Phase next) {
    askedAnew() = true;
    phase = next;
    open = 0;
    settled = 0;
    wish = Wish::None;
    wishLeft = rests = 0;
    hold = HoldWish::None;
    holdPressed = 0;
    if (next != Phase::Wait) wait = 0;
    rested = found = fresh = 0;
    if (next == Phase::Status || next == Phase::Wait) behind = inForce = pressed = 0;
  }
  void waits(uint8_t seconds) {
    into(Phase::Wait);
    wait = seconds;
  }
  template <class Out>
  void asks(Say what, Out out) {
    open = bit(Asked::Latest);
    out(said(what, Asked::Latest));
  }
  // keeper-link.ts, letGo: nothing waits for the answer.
  template <class Out>
  void letsGo(Out out) {
    if (phase == Phase::Own || phase == Phase::Settle) out(said(Say::LetGo, Asked::None));
    dies();
  }
  // Somebody at the board; no host knows before the next status.
  void buttonPressed() {
    if (phase != Phase::Dead && phase != Phase::Status && phase != Phase::Wait) pressed = 1;
    if (hold != HoldWish::None) holdPressed = 1;
  }
  void dies() { std::memset(this, 0, sizeof(*this)); }

  // link-step.ts, beat, and own-step.ts, ticked: a completed tick each second. `floods`: whether the plan makes one that is due.
  template <class Out>
  void second(bool floods, Out out) {
    if (phase == Phase::Dead) return;
    if (phase == Phase::Own) owns(floods, out);
    silent = open == 0 ? uint8_t{0} : static_cast<uint8_t>(silent + 1);
    if (silent > SILENT_BEATS) {
      silent = 0;
      opens(out);
      return;
    }
    switch (phase) {
      case Phase::Status:
        asks(Say::Status, out);
        break;
      case Phase::Claim:
        asks(Say::Claim, out);
        break;
      case Phase::Settle:
        if (++settled > SETTLE_SPAN) {
          out(said(Say::LetGo, Asked::None));
          waits(YIELD_SPAN);
        } else {
          asks(Say::Status, out);
        }
        break;
      case Phase::Wait:
        if (wait > 0) --wait;
        else opens(out);
        break;
      case Phase::Own:
      case Phase::Dead:
        break;
    }
  }

  template <class Out>
  void owns(bool floods, Out out) {
    // A command is said again until the next tick; then the status decides.
    open = static_cast<uint8_t>(open & ~(bit(Asked::Pump) | bit(Asked::Hold)));
    // The second in which it came to own the pump may be the one that the status has counted already.
    const bool passed = std::exchange(fresh, uint8_t{0}) == 0;
    if (!passed) {
    } else if (found > 0) {
      --found;
      rested = 0;
    } else if (wish != Wish::On && rested < UNKNOWN_REST) {
      ++rested;
    }
    if (rests > 0) --rests;
    if (rests == 0 && wish == Wish::OnDeferred) wish = Wish::On;
    const bool asked = wantsWater();
    if (asked && --wishLeft == 0) {
      rested = 0;
      wants(Wish::Off, 0, out);
    } else if (!asked && floods && found == 0 && rested >= REST) {
      wants(Wish::On, FLOOD_SPAN, out);
    }
    open = static_cast<uint8_t>((open & ~bit(Asked::Before)) | (asks(Asked::Latest) ? bit(Asked::Before) : 0) |
                                bit(Asked::Latest));
    out(said(Say::Heartbeat, Asked::Latest));
  }
  bool wantsWater() const { return wish == Wish::On || wish == Wish::OnRefused || wish == Wish::OnDeferred; }
  bool wouldFlood() const {
    const uint8_t more = found == 0 && fresh == 0 ? 1 : 0;
    const bool soon = found <= (fresh == 0 ? 1 : 0) && rested + more >= REST;
    return phase == Phase::Own && !wantsWater() && soon;
  }

  // own-step.ts, commanded: the controller's word.
  template <class Out>
  void wants(Wish what, uint8_t seconds, Out out) {
    wish = what;
    wishLeft = seconds;
    rests = 0;
    saysPump(out);
  }
  // own-step.ts, sayPump and sayHold.
  template <class Out>
  void saysPump(Out out) {
    open = static_cast<uint8_t>(open | bit(Asked::Pump));
    if (wish == Wish::Off) out(said(Say::Off, Asked::Pump));
    else out(said(Say::On, Asked::Pump, wishLeft));
  }
  template <class Out>
  void saysHold(Out out) {
    open = static_cast<uint8_t>(open | bit(Asked::Hold));
    Message message = hold == HoldWish::Release ? said(Say::Release, Asked::Hold) : said(Say::Hold, Asked::Hold, HOLD_SPAN);
    message.pressed = holdPressed;
    out(message);
  }
  // own-step.ts, commanded.
  template <class Out>
  void person(HoldWish what, Out out) {
    hold = what;
    holdPressed = pressed;
    if (what == HoldWish::Hold) {
      // A flood that a person ends is none that the plan makes up for.
      if (wantsWater()) rested = 0;
      wish = Wish::Off;
      wishLeft = rests = 0;
    }
    saysHold(out);
  }

  // question.ts: an answer that nobody asked, or that was answered before, changes nothing.
  template <class Out>
  void heard(const Message& message, Out out) {
    if (phase == Phase::Dead || message.asked == Asked::None || !asks(message.asked)) return;
    const bool aboutState = message.asked == Asked::Latest || message.asked == Asked::Before;
    if ((message.say == Say::StatusAnswer) != (aboutState && phase != Phase::Claim)) return;
    // A newer status settles the older question.
    const uint8_t closes = bit(message.asked) | (message.asked == Asked::Latest ? bit(Asked::Before) : 0);
    open = static_cast<uint8_t>(open & ~closes);
    silent = 0;
    if (message.say == Say::StatusAnswer) heardStatus(message, out);
    else heardAck(message, out);
  }

  template <class Out>
  void heardStatus(const Message& status, Out out) {
    pressed = status.pressed;
    switch (phase) {
      case Phase::Status:
        // hand-shake.ts, statusInHandShake and claim.
        into(Phase::Claim);
        behind = status.behind;
        asks(Say::Claim, out);
        break;
      case Phase::Settle:
        if (status.behind != behind || status.owner == 0) {
          waits(0);
          break;
        }
        // hand-shake.ts, up; kept.ts.
        into(Phase::Own);
        rested = status.rested;
        found = status.on != 0 ? status.left : uint8_t{0};
        fresh = 1;
        break;
      case Phase::Own:
        // own-step.ts, statusOwning.
        if (status.owner == 0 || status.behind != behind) {
          waits(LOST_SPAN);
          break;
        }
        if (hold != HoldWish::None && !asks(Asked::Hold)) saysHold(out);
        comparesPump(status, out);
        break;
      default:
        break;
    }
  }

  // pump-wish.ts, wishUnderHold and isUnmet.
  template <class Out>
  void comparesPump(const Message& status, Out out) {
    const bool refusedAlready = wish == Wish::OnRefused || wish == Wish::OnDeferred;
    if (wantsWater() && !refusedAlready && status.held != 0 && status.on == 0) heldFor(status.held);
    if (asks(Asked::Pump)) return;
    const bool off = wish == Wish::Off && status.on != 0;
    const int more = status.left - wishLeft;
    const bool on = wish == Wish::On && rests == 0 && (status.on == 0 ? wishLeft > TOLERANCE : more > TOLERANCE || -more > TOLERANCE);
    if (off || on) saysPump(out);
  }

  template <class Out>
  void heardAck(const Message& ack, Out out) {
    const Result result = static_cast<Result>(ack.result);
    if (phase == Phase::Claim && ack.of == static_cast<uint8_t>(Say::Claim)) {
      // hand-shake.ts, claimAnswered.
      if (result != Result::Done) {
        waits(0);
        return;
      }
      into(Phase::Settle);
      behind = ack.behind;
      inForce = ack.inForce;
      asks(Say::Status, out);
      return;
    }
    if (phase != Phase::Own) return;
    // own-step.ts, ackOwning.
    if (result == Result::Stale) {
      waits(LOST_SPAN);
      return;
    }
    if (ack.asked == Asked::Hold) {
      hold = HoldWish::None;
      holdPressed = 0;
      return;
    }
    // pump-wish.ts, answeredWish.
    if (!wantsWater()) return;
    if (result == Result::Held) {
      heldFor(ack.value);
      return;
    }
    wish = Wish::On;
    rests = result == Result::Resting ? static_cast<uint8_t>(ack.value + 1) : uint8_t{0};
    if (result == Result::Done && ack.value + TOLERANCE < wishLeft) wishLeft = ack.value;
  }
  // pump-wish.ts, stands.
  void heldFor(uint8_t seconds) {
    wish = seconds > SAME_END ? Wish::OnRefused : Wish::OnDeferred;
    rests = wish == Wish::OnDeferred ? static_cast<uint8_t>(seconds + 1) : uint8_t{0};
  }
};

}  // namespace explored
