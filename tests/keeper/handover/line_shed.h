// The keeper itself, a host, and a line between them that loses, repeats and delays: the state of all three, and what may happen
// to it. The judge counts by what truly was: who owned the pump when an order was said, when the last flood ended.
#pragma once
#include "explorer.h"
#include "line_host.h"

namespace explored {

#ifndef LINE_ROOM
#define LINE_ROOM 2
#endif

struct State {
  BoardState board;
  LineHost host;
  Queue<LINE_ROOM> toBoard, toHost;
  // Whether the host's second has come since the board's; how long since the last whole flood ended; whether a fault allows one more.
  uint8_t hostsTurn, restTrue, onTrue;
};

enum Action : uint16_t {
  BOARD_SECOND, HOST_SECOND, HOST_SECOND_IDLE, HOST_HANGS,
  ARRIVES, LOST, REPEATED, ANSWER_ARRIVES, ANSWER_LOST, ANSWER_REPEATED,
  HOST_DIES, HOST_STARTS, HOST_RESTARTS, HOST_LETS_GO, HOST_HOLDS, HOST_RELEASES, LONG_PRESS, RESET, POWER_LOST, ACTIONS
};
inline const char* nameOf(uint16_t action) {
  static const char* const names[] = {
      "board's second", "host's second", "host's second, no flood", "host hangs", "arrives", "lost", "repeated",
      "answer arrives", "answer lost", "answer repeated", "host dies", "host starts", "host restarts", "host lets go",
      "host holds", "host releases", "long press", "reset", "power lost"};
  return names[action];
}

constexpr uint16_t EPOCH = 1000;

struct Shed {
  Board board;
  // For the account at the end.
  unsigned long ordersDone = 0, staleOrders = 0, takenOver = 0;
  // What was done that must never be; null when nothing was.
  const char* flaw = nullptr;

  // An epoch that has gone up, and whoever knew the one before.
  void passed(State& state, uint8_t by, bool otherOwnership) {
    const auto older = [by](uint8_t behind) { return static_cast<uint8_t>(behind + by > LONG_AGO ? LONG_AGO : behind + by); };
    LineHost& host = state.host;
    if (host.phase == Phase::Claim || host.phase == Phase::Settle || host.phase == Phase::Own) host.behind = older(host.behind);
    if (otherOwnership) host.inForce = 0;
    for (uint8_t at = 0; at < state.toBoard.count; ++at) {
      Message& message = state.toBoard.message[at];
      if (message.say != Say::Status) message.behind = older(message.behind);
      if (otherOwnership) message.inForce = 0;
    }
    for (uint8_t at = 0; at < state.toHost.count; ++at) {
      state.toHost.message[at].behind = older(state.toHost.message[at].behind);
      if (otherOwnership) state.toHost.message[at].inForce = 0;
    }
  }
  // Whatever is on its way was said before it.
  static void pressed(State& state) {
    state.host.buttonPressed();
    for (uint8_t at = 0; at < state.toBoard.count; ++at) {
      Message& message = state.toBoard.message[at];
      if (message.say == Say::Hold || message.say == Say::Release) message.pressed = 1;
    }
    for (uint8_t at = 0; at < state.toHost.count; ++at) {
      Message& message = state.toHost.message[at];
      if (message.say == Say::StatusAnswer) message.pressed = 1;
    }
  }
  // Answers to questions that the host has closed are answers to none.
  static void closed(State& state) {
    const auto forget = [&state](Message& message) {
      if (message.asked != Asked::None && !state.host.asks(message.asked)) message.asked = Asked::None;
    };
    for (uint8_t at = 0; at < state.toBoard.count; ++at) forget(state.toBoard.message[at]);
    for (uint8_t at = 0; at < state.toHost.count; ++at) forget(state.toHost.message[at]);
  }
  // A question that is asked again under the same name: what is on its way belongs to the older one.
  static void renamed(State& state, Asked from, Asked to) {
    const auto rename = [from, to](Message& message) {
      if (message.asked == from) message.asked = to;
    };
    for (uint8_t at = 0; at < state.toBoard.count; ++at) rename(state.toBoard.message[at]);
    for (uint8_t at = 0; at < state.toHost.count; ++at) rename(state.toHost.message[at]);
  }

  // What the host says in one event goes on the line behind it.
  struct Sender {
    State& state;
    void operator()(const Message& message) {
      if (LineHost::askedAnew()) {
        // Another question under the name of the one before: what is on its way is no answer to it.
        LineHost::askedAnew() = false;
        for (uint8_t at = 0; at < state.toBoard.count; ++at) state.toBoard.message[at].asked = Asked::None;
        for (uint8_t at = 0; at < state.toHost.count; ++at) state.toHost.message[at].asked = Asked::None;
      }
      state.toBoard.push(message);
    }
  };

  // A frame reaches the board, which answers it at once.
  void arrive(State& state, const Message& message) {
    Memory& memory = memoryOf(board);
    const uint16_t epoch = static_cast<uint16_t>(memory.epoch - message.behind);
    const BoardState before = state.board;
    const bool hosted = board.owner() == Owner::Host;
    Message answer = {};
    answer.asked = message.asked;
    answer.say = Say::Ack;
    answer.of = static_cast<uint8_t>(message.say);
    Answer given = {Result::Done, 0};
    bool renewed = false;
    switch (message.say) {
      case Say::Status:
        answer.say = Say::StatusAnswer;
        break;
      case Say::Heartbeat:
        renewed = board.heartbeat(epoch, static_cast<uint8_t>(times::LEASE_MAX), 0xFFFF, 0, 0);
        answer.say = Say::StatusAnswer;
        break;
      case Say::Claim:
        given = board.claim(epoch);
        break;
      case Say::On:
        given = board.pump(epoch, 1, message.value);
        break;
      case Say::Off:
        given = board.pump(epoch, 0, 0);
        break;
      case Say::Hold:
        given = board.hold(epoch, message.value, static_cast<uint16_t>(memory.presses - message.pressed));
        break;
      case Say::Release:
        given = board.hold(epoch, 0, static_cast<uint16_t>(memory.presses - message.pressed));
        break;
      case Say::LetGo:
        given = board.letGo(epoch);
        break;
      default:
        break;
    }
    const bool order = message.say != Say::Status && message.say != Say::Claim;
    BoardState after;
    if (!pack(board, after)) flaw = "the packing leaves something out";
    const bool moved = std::memcmp(&before, &after, sizeof(after)) != 0 || renewed;
    const bool taken = moved || (message.say != Say::Heartbeat && given.result != Result::Stale);
    if (order && taken) {
      ++ordersDone;
      if (message.inForce == 0 || !hosted) flaw = "an order of another ownership took effect";
    }
    if (order && !taken) ++staleOrders;
    if (message.pressed != 0 && after.holdLeft < before.holdLeft) flaw = "a press undone by an order that did not know of it";
    if (message.say == Say::Hold && before.holdByButton != 0 && after.holdLeft < before.holdLeft)
      flaw = "a hold of the button cut short by another hold";
    const bool claimed = message.say == Say::Claim && given.result == Result::Done;
    settleEpoch(state, claimed || hosted != (board.owner() == Owner::Host));
    if (answer.say == Say::StatusAnswer) {
      answer.owner = board.owner() == Owner::Host ? 1 : 0;
      answer.on = board.pumpOn() ? 1 : 0;
      answer.left = small(memory.runLeft);
      answer.rested = capped(memory.age[RESTED], UNKNOWN_REST);
      answer.held = small(memory.holdLeft);
    } else {
      answer.result = static_cast<uint8_t>(given.result);
      if (message.say == Say::On && given.result != Result::Stale) answer.value = small(given.value);
      answer.inForce = claimed ? 1 : 0;
    }
    // An answer that nobody waits for says nothing.
    if (answer.asked != Asked::None) state.toHost.push(answer);
  }
  void settleEpoch(State& state, bool otherOwnership) {
    const uint16_t by = static_cast<uint16_t>(memoryOf(board).epoch - EPOCH);
    if (by != 0 || otherOwnership) passed(state, small(least(by, LONG_AGO)), otherOwnership);
  }

  // Does it to `state`; false when it does not apply.
  bool act(State& state, uint16_t action) {
    unpack(state.board, false, board);
    memoryOf(board).epoch = EPOCH;
    memoryOf(board).check = checkOf(memoryOf(board));
    const BoardState before = state.board;
    const bool hosted = board.owner() == Owner::Host;
    LineHost& host = state.host;
    LineHost::askedAnew() = false;
    Sender out{state};
    switch (action) {
      case BOARD_SECOND:
        if (state.hostsTurn != 0) return false;
        board.second(lifeOf(board).seen);
        settleEpoch(state, hosted != (board.owner() == Owner::Host));
        if (hosted && board.owner() != Owner::Host) ++takenOver;
        state.hostsTurn = 1;
        break;
      case HOST_SECOND:
      case HOST_SECOND_IDLE:
        if (state.hostsTurn == 0) return false;
        if (host.phase == Phase::Dead && action == HOST_SECOND_IDLE) return false;
        if (action == HOST_SECOND_IDLE && !host.wouldFlood()) return false;
        if (host.phase == Phase::Own) {
          renamed(state, Asked::Before, Asked::None);
          renamed(state, Asked::Latest, Asked::Before);
        }
        host.second(action == HOST_SECOND, out);
        state.hostsTurn = 0;
        break;
      case HOST_HANGS:
        if (state.hostsTurn == 0 || host.phase == Phase::Dead) return false;
        state.hostsTurn = 0;
        break;
      case ARRIVES:
      case REPEATED:
      case LOST: {
        if (state.toBoard.count == 0) return false;
        const Message message = state.toBoard.pop();
        if (action == REPEATED) state.toBoard.push(message);
        if (action != LOST) arrive(state, message);
        break;
      }
      case ANSWER_ARRIVES:
      case ANSWER_REPEATED:
      case ANSWER_LOST: {
        if (state.toHost.count == 0) return false;
        const Message message = state.toHost.pop();
        if (action == ANSWER_REPEATED) state.toHost.push(message);
        if (action != ANSWER_LOST) host.heard(message, out);
        break;
      }
      case HOST_DIES:
        if (host.phase == Phase::Dead) return false;
        host.dies();
        break;
      case HOST_STARTS:
      case HOST_RESTARTS:
        if ((host.phase == Phase::Dead) != (action == HOST_STARTS)) return false;
        host.dies();
        host.opens(out);
        break;
      case HOST_LETS_GO:
        if (host.phase != Phase::Own && host.phase != Phase::Settle) return false;
        host.letsGo(out);
        break;
      case HOST_HOLDS:
      case HOST_RELEASES:
        if (host.phase != Phase::Own) return false;
        host.person(action == HOST_HOLDS ? HoldWish::Hold : HoldWish::Release, out);
        break;
      case LONG_PRESS:
        board.pressed(true);
        pressed(state);
        break;
      case RESET:
        board.begin(&theSetup(false), theTable(), 8, true);
        settleEpoch(state, true);
        break;
      case POWER_LOST:
        losePower(board, false);
        // Whatever the RAM held; that it is one that somebody still knows is taken for impossible, which is 1 in 65,536.
        passed(state, LONG_AGO, true);
        break;
      default:
        return false;
    }
    closed(state);
    if (!pack(board, state.board)) flaw = "the packing leaves something out";
    account(state, before, action);
    return true;
  }

  void account(State& state, const BoardState& before, uint16_t action) {
    const bool was = (before.kind & 3) != 0, is = (state.board.kind & 3) != 0;
    const uint8_t tick = action == BOARD_SECOND ? 1 : 0;
    const uint8_t ran = static_cast<uint8_t>(state.onTrue + tick);
    const uint8_t rest = capped(static_cast<Seconds>(state.restTrue + tick), REST);
    // A host counts a rest from its own word, which may come to the board late: by less than a lease, or it owns no pump.
    const uint8_t late = (state.board.kind & 4) != 0 ? small(times::LEASE_MAX) : uint8_t{0};
    if (!was && is && rest + late < REST) flaw = "a doubled flood";
    state.restTrue = rest;
    state.onTrue = is && was ? ran : uint8_t{0};
    if (state.onTrue > LONGEST_ON) flaw = "on for longer than longest-on";
    if (is && state.board.holdLeft > 0) flaw = "on under a hold";
    if (was && !is) {
      if (ran >= FLOOD_SPAN / 2) state.restTrue = 0;
      else if (action == RESET) state.restTrue = REST;
    }
    // A host that was not yet told of a person's stop goes on with its own flood where nothing holds it.
    if (action == POWER_LOST || (action == LONG_PRESS && was)) state.restTrue = REST;
  }
};

}  // namespace explored
