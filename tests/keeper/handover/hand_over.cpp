// The hand-over in every order of events: docs/board-protocol.md, "Lease and epoch". Usage: hand_over [most states]
#include <cstdlib>

#include "../core/facts.h"
#include "line_shed.h"

using namespace explored;

// With a sound line and a host that lives: until the pump is the host's. Some seconds in which a dead link is noticed, two waits,
// a hand-shake of three questions.
constexpr unsigned PUMP_IS_BACK = 12;

struct Explorer : Shed {
  Reached<State> reached;
  uint32_t expanded = 0;
  unsigned long steps = 0;
  std::string broken;

  // From here on no fault: a host that lives gets the pump.
  void checkBack(const State& from, uint32_t number) {
    State state = from;
    if (state.host.phase == Phase::Dead) act(state, HOST_STARTS);
    for (unsigned second = 0; second <= PUMP_IS_BACK; ++second) {
      while (state.toBoard.count > 0 || state.toHost.count > 0) {
        act(state, ARRIVES);
        act(state, ANSWER_ARRIVES);
      }
      if (state.host.phase == Phase::Own && state.host.inForce != 0) return;
      if (!act(state, BOARD_SECOND)) act(state, HOST_SECOND);
      if (!act(state, HOST_SECOND)) act(state, BOARD_SECOND);
    }
    if (broken.empty()) broken = "the host does not get the pump back after: " + reached.way(number, nameOf);
  }

  void run(size_t most) {
    State first;
    std::memset(static_cast<void*>(&first), 0, sizeof(first));
    makeFresh(board, false);
    pack(board, first.board);
    first.restTrue = REST;
    reached.add(first, NOWHERE, 0);
    for (uint32_t from = 0; from < reached.size() && broken.empty() && reached.size() < most; ++from) {
      const State before = reached.at(from);
      checkBack(before, from);
      flaw = nullptr;
      for (uint16_t action = 0; action < ACTIONS; ++action) {
        State after = before;
        flaw = nullptr;
        if (!act(after, action)) continue;
        ++steps;
        if (flaw != nullptr && broken.empty())
          broken = std::string(flaw) + " after: " + reached.way(from, nameOf) + ", " + nameOf(action);
        reached.add(after, from, action);
      }
      expanded = from + 1;
    }
  }
};

int main(int count, char** values) {
  const size_t most = count > 1 ? static_cast<size_t>(std::strtoull(values[1], nullptr, 10)) : size_t{1} << 40;
  static Explorer explorer;
  FACT("board, host and line in every order: no order of another ownership obeyed, no flood doubled, the pump back after faults") {
    explorer.run(most);
    CHECK(explorer.broken.empty(), "%s", explorer.broken.c_str());
    CHECK(explorer.reached.size() > 100000, "only %zu states", explorer.reached.size());
  }
  FACT("the same saw orders obeyed, orders refused as stale, and leases that ran out, 400 of each at least") {
    CHECK(explorer.ordersDone > 400 && explorer.staleOrders > 400 && explorer.takenOver > 400, "%lu, %lu, %lu",
          explorer.ordersDone, explorer.staleOrders, explorer.takenOver);
  }
  const bool whole = explorer.expanded == explorer.reached.size();
  std::printf("# %zu states, %u looked on from%s, %lu transitions, %zu MB of %zu bytes each; %lu orders done, %lu stale, %lu taken over\n",
              explorer.reached.size(), explorer.expanded, whole ? " (all)" : "", explorer.steps, explorer.reached.bytes() >> 20,
              sizeof(State), explorer.ordersDone, explorer.staleOrders, explorer.takenOver);
}
