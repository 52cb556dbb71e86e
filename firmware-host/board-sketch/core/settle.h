// The first start after the power came, when nothing is known: a supply that breaks down under the pump must not make it
// chatter. A start is counted in a store that keeps bytes without power, and counted as good after five minutes of life.
#pragma once
#include "span.h"
#include "times.h"

namespace keeper {

constexpr uint16_t CELLS_AT = 192;
constexpr uint8_t CELLS = 16;
constexpr uint8_t CELL_EMPTY = 0xFF;

// Store: uint8_t read(uint16_t), void write(uint16_t, uint8_t).
template <class Store>
class Settle {
 public:
  // At every reset. `unstarted`: there has been no start since power-on.
  void begin(Store& store, bool unstarted) {
    life_ = 0;
    cell_ = CELLS;
    count_ = 0;
    for (uint8_t cell = 0; cell < CELLS; ++cell) {
      const uint8_t found = store.read(place(cell));
      // After a cut between two writes there may be two: the one that waits longer counts.
      if (found != CELL_EMPTY && (cell_ == CELLS || found < count_)) {
        cell_ = cell;
        count_ = found;
      }
    }
    waits_ = unstarted;
    counted_ = false;
  }

  // Once a second. True while the keeper may start the pump.
  bool second(Store& store) {
    grow(life_);
    if (life_ < times::SETTLE) return false;
    if (!waits_) {
      if (cell_ != CELLS && life_ >= times::SETTLE + times::PROVEN_LIFE) clear(store);
      return true;
    }
    if (cell_ == CELLS || life_ >= times::PROVEN_LIFE) return true;
    if (!counted_) {
      counted_ = true;
      if (count_ < times::SETTLED_STARTS) move(store, static_cast<uint8_t>(count_ + 1));
    }
    return count_ >= times::SETTLED_STARTS;
  }

  // The keeper is about to start the pump.
  void started(Store& store) {
    if (!waits_) return;
    waits_ = false;
    life_ = times::SETTLE;
    move(store, 0);
  }
  // A host has told what to do: nothing is unknown any more.
  void hostKnows() { waits_ = false; }
  bool waits() const { return waits_; }
  // The first start after power-on may come in so few seconds.
  bool nearlyOver() const {
    return waits_ && (isBefore(times::SETTLE) || (cell_ != CELLS && isBefore(times::PROVEN_LIFE)));
  }

 private:
  bool isBefore(Seconds end) const { return life_ < end && life_ + times::HOLD_WARNING >= end; }
  static uint16_t place(uint8_t cell) { return static_cast<uint16_t>(CELLS_AT + cell); }
  void move(Store& store, uint8_t count) {
    const uint8_t before = cell_;
    cell_ = before >= CELLS - 1 ? uint8_t{0} : static_cast<uint8_t>(before + 1);
    count_ = count;
    store.write(place(cell_), count);
    if (before != CELLS) store.write(place(before), CELL_EMPTY);
  }
  void clear(Store& store) {
    for (uint8_t cell = 0; cell < CELLS; ++cell)
      if (store.read(place(cell)) != CELL_EMPTY) store.write(place(cell), CELL_EMPTY);
    cell_ = CELLS;
  }

  Seconds life_;
  uint8_t cell_;
  uint8_t count_;
  bool waits_;
  bool counted_;
};

}  // namespace keeper
