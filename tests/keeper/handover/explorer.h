// Breadth first through all states that can be reached, each held once and whole: no two states are taken for one.
#pragma once
#include <cstdint>
#include <cstring>
#include <string>
#include <vector>

namespace explored {

constexpr uint32_t NOWHERE = 0xFFFFFFFF;

// State: without padding, so that its bytes are it.
template <class State>
class Reached {
 public:
  Reached() : table_(1u << 16, NOWHERE) {}

  // Its number, and whether it is new.
  bool add(const State& state, uint32_t from, uint16_t action) {
    if (states_.size() * 2 > table_.size()) grow();
    uint32_t& place = placeOf(state);
    if (place != NOWHERE) return false;
    place = static_cast<uint32_t>(states_.size());
    states_.push_back(state);
    from_.push_back(from);
    action_.push_back(action);
    return true;
  }
  size_t size() const { return states_.size(); }
  const State& at(size_t number) const { return states_[number]; }
  size_t bytes() const { return states_.capacity() * (sizeof(State) + 6) + table_.capacity() * 4; }

  template <class Name>
  std::string way(uint32_t to, Name name) const {
    std::vector<uint16_t> actions;
    for (; from_[to] != NOWHERE; to = from_[to]) actions.push_back(action_[to]);
    std::string told;
    for (size_t at = actions.size(); at > 0; --at) told += (told.empty() ? "" : ", ") + std::string(name(actions[at - 1]));
    return told;
  }

 private:
  static uint64_t hashOf(const State& state) {
    uint64_t hash = 0x9E3779B97F4A7C15u;
    const uint8_t* at = reinterpret_cast<const uint8_t*>(&state);
    for (size_t left = sizeof(State); left > 0;) {
      uint64_t word = 0;
      const size_t many = left < 8 ? left : 8;
      std::memcpy(&word, at, many);
      hash = (hash ^ word) * 0xBF58476D1CE4E5B9u;
      hash ^= hash >> 29;
      at += many;
      left -= many;
    }
    return hash ^ (hash >> 32);
  }
  uint32_t& placeOf(const State& state) {
    size_t at = hashOf(state) & (table_.size() - 1);
    while (table_[at] != NOWHERE && std::memcmp(&states_[table_[at]], &state, sizeof(State)) != 0)
      at = (at + 1) & (table_.size() - 1);
    return table_[at];
  }
  void grow() {
    table_.assign(table_.size() * 2, NOWHERE);
    for (uint32_t number = 0; number < states_.size(); ++number) {
      size_t at = hashOf(states_[number]) & (table_.size() - 1);
      while (table_[at] != NOWHERE) at = (at + 1) & (table_.size() - 1);
      table_[at] = number;
    }
  }

  std::vector<State> states_;
  std::vector<uint32_t> from_;
  std::vector<uint16_t> action_;
  std::vector<uint32_t> table_;
};

}  // namespace explored
