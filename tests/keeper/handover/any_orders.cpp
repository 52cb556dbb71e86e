// One board under everything that can happen to it: all orders at all times, of the ownership in force or stale, presses, resets,
// losses of power, a float that turns; to the fixpoint. Whatever a host and a line may do is less than that.
// Usage: any_orders [most states with a float [most without]]
#include <cstdlib>

#include "../core/chance.h"
#include "../core/facts.h"
#include "board_state.h"
#include "explorer.h"

using namespace explored;

// The longest that the crop may go without the pump when nobody speaks any more, but for a hold.
constexpr unsigned SILENT_BOUND = LONGEST_REST + times::LEASE_MAX + times::SETTLE + SHORTEST_OFF;
// With a host that owns the pump from the last moment of a rest and does nothing: what the table allows it, after that rest.
constexpr unsigned DRY_BOUND = REST + LONGEST_REST + times::OVERDUE_GRACE + 1;
static_assert(times::STARTS_SPAN <= LONGEST_REST && times::PROVEN_LIFE <= LONGEST_REST, "else they are the bound");

struct State {
  BoardState board;
  // What was truly so, counted without the board: since when the pump runs or rests, since the last whole flood, since the crop
  // had any water or a fault had its way.
  uint8_t onTrue, offTrue, restTrue, dry;
};

enum Action : uint16_t {
  SECOND, SECOND_LOW, SECOND_HIGH,
  CLAIM, LET_GO, OFF_ORDER, RELEASE, LONG_PRESS, SHORT_PRESS, RESET, POWER_LOST, UNAWARE_RELEASE,
  BEAT, ON = BEAT + 4, HOLD = ON + 8, UNAWARE_HOLD = HOLD + 4, STALE = UNAWARE_HOLD + 4, ACTIONS = STALE + 8
};
static const char* nameOf(uint16_t action) {
  static const char* const names[] = {"second", "second, float low", "second, float high", "claim", "let go", "off", "release",
                                      "long press", "short press", "reset", "power lost", "unaware release"};
  if (action < BEAT) return names[action];
  if (action < ON) return "heartbeat";
  if (action < HOLD) return "on";
  if (action < UNAWARE_HOLD) return "hold";
  if (action < STALE) return "unaware hold";
  return "stale order";
}

struct Explorer {
  bool withFloat;
  Reached<State> reached;
  Board board;
  unsigned long steps = 0;
  std::string broken;

  explicit Explorer(bool fitted) : withFloat(fitted) {}

  void fail(const char* what, uint32_t from, uint16_t action) {
    if (broken.empty()) broken = std::string(what) + " after: " + reached.way(from, nameOf) + ", " + nameOf(action);
  }

  // Does it; false when it does not apply here.
  bool act(uint16_t action) {
    Memory& memory = memoryOf(board);
    const uint16_t epoch = memory.epoch;
    // By a host that has not heard of the last long press.
    const uint16_t unaware = static_cast<uint16_t>(memory.presses - 1);
    Evidence seen = lifeOf(board).seen;
    switch (action) {
      case SECOND:
        board.second(seen);
        return true;
      case SECOND_LOW:
      case SECOND_HIGH:
        if (!withFloat) return false;
        seen.seen[FLOAT_LOW] = action == SECOND_LOW ? Seen::Yes : Seen::No;
        board.second(seen);
        return true;
      case CLAIM:
        board.claim(epoch);
        return true;
      case LET_GO:
        board.letGo(epoch);
        return true;
      case OFF_ORDER:
        board.pump(epoch, 0, 0);
        return true;
      case RELEASE:
        board.hold(epoch, 0, memory.presses);
        return true;
      case UNAWARE_RELEASE:
        board.hold(epoch, 0, unaware);
        return true;
      case LONG_PRESS:
      case SHORT_PRESS:
        board.pressed(action == LONG_PRESS);
        return true;
      case RESET:
        board.begin(&theSetup(withFloat), theTable(), 8, true);
        return true;
      case POWER_LOST:
        losePower(board, withFloat);
        return true;
      default:
        break;
    }
    if (action < ON) return action - BEAT <= 3 && (board.heartbeat(epoch, static_cast<uint8_t>(action - BEAT), 0xFFFF, 0, 0), true);
    if (action < HOLD) {
      board.pump(epoch, 1, static_cast<Seconds>(action - ON));
      return true;
    }
    if (action < UNAWARE_HOLD) {
      board.hold(epoch, static_cast<Seconds>(action - HOLD), memory.presses);
      return action != HOLD;
    }
    if (action < STALE) {
      board.hold(epoch, static_cast<Seconds>(action - UNAWARE_HOLD), unaware);
      return action != UNAWARE_HOLD;
    }
    const uint16_t stale = static_cast<uint16_t>(epoch - 1);
    switch (action - STALE) {
      case 0:
        board.claim(stale);
        return true;
      case 1:
        board.heartbeat(stale, 3, 0xFFFF, 0, 0);
        return true;
      case 2:
        board.pump(stale, 1, 4);
        return true;
      case 3:
        board.pump(stale, 0, 0);
        return true;
      case 4:
        board.hold(stale, 3, memory.presses);
        return true;
      case 5:
        board.hold(stale, 0, memory.presses);
        return true;
      case 6:
        board.letGo(stale);
        return true;
      default:
        return false;
    }
  }

  void check(const State& before, const State& after, uint32_t from, uint16_t action) {
    const bool was = (before.board.kind & 3) != 0, is = (after.board.kind & 3) != 0;
    if (after.onTrue > LONGEST_ON) fail("on for longer than longest-on", from, action);
    if (!was && is && before.offTrue + (action <= SECOND_HIGH ? 1 : 0) <= SHORTEST_OFF)
      fail("a start before shortest-off had passed", from, action);
    if (is && after.board.holdLeft > 0) fail("on under a hold", from, action);
    if (!is && after.dry > DRY_BOUND + (withFloat ? times::SIP_REST : 0)) fail("off for too long", from, action);
    const bool own = !was && is && (after.board.kind & 4) == 0;
    const bool flood = (after.board.kind & 3) == static_cast<uint8_t>(RunKind::Flood);
    if (own && flood && before.restTrue + 1 < REST) fail("a doubled flood", from, action);
    const bool silent = action >= STALE;
    if (silent && std::memcmp(&before.board, &after.board, sizeof(BoardState)) != 0) fail("a stale order took effect", from, action);
    const bool byButton = before.board.holdByButton != 0;
    const bool orders = action == RELEASE || (action >= HOLD && action < UNAWARE_HOLD && !byButton);
    const bool hosted = (before.board.kind & 8) != 0;
    if (after.board.holdLeft < before.board.holdLeft && action > SECOND_HIGH && action != POWER_LOST && !(orders && hosted))
      fail("a hold that was cut short", from, action);
    if (action <= SECOND_HIGH && before.board.holdLeft > 0 && after.board.holdLeft + 1 != before.board.holdLeft)
      fail("a hold that does not count down", from, action);
  }

  // From here on nobody speaks: how long until the pump runs, but for what is left of a hold.
  void checkSilence(const State& state, uint32_t from) {
    unpack(state.board, withFloat, board);
    for (unsigned second = 0; second <= SILENT_BOUND + state.board.holdLeft; ++second) {
      if (board.pumpOn()) return;
      board.second(lifeOf(board).seen);
    }
    fail("in silence the pump does not run", from, SECOND);
  }

  State next(const State& before, uint16_t action) {
    State after = before;
    if (!pack(board, after.board)) broken = "the packing leaves something out";
    const bool was = (before.board.kind & 3) != 0, is = (after.board.kind & 3) != 0;
    const bool second = action <= SECOND_HIGH;
    const uint8_t tick = second ? 1 : 0;
    const uint8_t ran = static_cast<uint8_t>(before.onTrue + tick);
    after.onTrue = is ? static_cast<uint8_t>(was ? ran : 0) : uint8_t{0};
    after.offTrue = is || was ? uint8_t{0} : capped(static_cast<Seconds>(before.offTrue + tick), SHORTEST_OFF + 1);
    after.restTrue = capped(static_cast<Seconds>(before.restTrue + tick), REST);
    const bool wasFlood = (before.board.kind & 3) == static_cast<uint8_t>(RunKind::Flood);
    // Half of the flood; of one that the float has halved, half of that.
    const uint8_t half = before.board.enough;
    if (was && !is && wasFlood) {
      if (ran >= half) after.restTrue = 0;
      else if (action == RESET) after.restTrue = REST;
    }
    if (action == POWER_LOST || action == SHORT_PRESS) after.restTrue = REST;
    // Under the tank-low rule a host may do without sips.
    const bool hosted = (after.board.kind & 8) != 0;
    const bool low = (after.board.tank & 3) == static_cast<uint8_t>(Tank::Low);
    const bool faulted = action == RESET || action == POWER_LOST || after.board.holdLeft > 0 || (hosted && low);
    after.dry = is || faulted ? uint8_t{0} : capped(static_cast<Seconds>(before.dry + tick), DRY_BOUND + times::SIP_REST + 1);
    return after;
  }

  void run(size_t most) {
    makeFresh(board, withFloat);
    State first = {};
    pack(board, first.board);
    first.restTrue = REST;
    reached.add(first, NOWHERE, 0);
    for (uint32_t from = 0; from < reached.size() && broken.empty() && reached.size() < most; ++from) {
      const State before = reached.at(from);
      checkSilence(before, from);
      for (uint16_t action = 0; action < ACTIONS; ++action) {
        unpack(before.board, withFloat, board);
        if (!act(action)) continue;
        ++steps;
        const State after = next(before, action);
        check(before, after, from, action);
        reached.add(after, from, action);
      }
    }
  }
};

// The packing against a board that is never packed: both must do the same for ever.
static void packing(bool withFloat, facts::Fact& fact) {
  for (uint64_t seed = 0; seed < 200; ++seed) {
    Chance chance(seed);
    static Explorer whole(false), packed(false);
    whole.withFloat = packed.withFloat = withFloat;
    makeFresh(whole.board, withFloat);
    makeFresh(packed.board, withFloat);
    for (int step = 0; step < 2000; ++step) {
      const uint16_t action = chance.oneIn(2) ? uint16_t{SECOND} : static_cast<uint16_t>(chance.between(0, ACTIONS - 1));
      whole.act(action);
      packed.act(action);
      BoardState one, other;
      CHECK(pack(whole.board, one) && pack(packed.board, other), "seed %llu, step %d", static_cast<unsigned long long>(seed), step);
      CHECK(std::memcmp(&one, &other, sizeof(one)) == 0, "seed %llu, step %d, %s", static_cast<unsigned long long>(seed), step,
            nameOf(action));
      unpack(other, withFloat, packed.board);
    }
  }
}

int main(int count, char** values) {
  const auto most = [count, values](int place) {
    return count > place ? static_cast<size_t>(std::strtoull(values[place], nullptr, 10)) : size_t{1} << 40;
  };
  for (const bool withFloat : {false, true}) {
    FACT(withFloat ? "a board with a float, packed and made anew after each of 400,000 steps, does as one that is not"
                   : "a board, packed and made anew after each of 400,000 steps, does as one that is not") {
      packing(withFloat, fact);
    }
    static Explorer explorers[] = {Explorer(false), Explorer(true)};
    Explorer& explorer = explorers[withFloat ? 1 : 0];
    FACT(withFloat ? "with a float: all states, all orders: no limit passed, no stale order obeyed, no hold broken, no flood doubled, the pump run"
                   : "all states, all orders: no limit passed, no stale order obeyed, no hold broken, no flood doubled, the pump run") {
      explorer.run(most(withFloat ? 1 : 2));
      CHECK(explorer.broken.empty(), "%s", explorer.broken.c_str());
    }
    std::printf("# %s: %zu states, %lu transitions, %zu MB\n", withFloat ? "with a float" : "without a float",
                explorer.reached.size(), explorer.steps, explorer.reached.bytes() >> 20);
  }
}
