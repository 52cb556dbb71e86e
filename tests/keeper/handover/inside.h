// The keeper with all of its insides open to the explorer, which must save and set a whole state. Members are reached as
// C++14 allows it: an explicit instantiation may name what is private ([temp.explicit]).
#pragma once
#include <cstring>

#include "keeper.h"

// The cells that count starts; no table is put here.
struct Cells {
  uint8_t cell[keeper::CELLS];
  uint8_t read(uint16_t at) const {
    return at >= keeper::CELLS_AT && at < keeper::CELLS_AT + keeper::CELLS ? cell[at - keeper::CELLS_AT] : uint8_t{0xFF};
  }
  void write(uint16_t at, uint8_t value) {
    if (at >= keeper::CELLS_AT && at < keeper::CELLS_AT + keeper::CELLS) cell[at - keeper::CELLS_AT] = value;
  }
};

using Board = keeper::Keeper<Cells>;
using BoardLife = keeper::Life;
using BoardSettle = keeper::Settle<Cells>;

namespace inside {

template <class Of, class Type, int Number>
struct Door {
  using Member = Type Of::*;
};
template <class Name, typename Name::Member Which>
struct Opened {
  friend typename Name::Member open(Name) { return Which; }
};

using TheMemory = Door<Board, keeper::Memory, 0>;
using TheLife = Door<Board, BoardLife, 1>;
using TheKept = Door<Board, keeper::Kept, 7>;
using TheSettle = Door<Board, BoardSettle, 8>;
using TheWatch = Door<Board, keeper::FloodWatch, 9>;
using SettleLife = Door<BoardSettle, keeper::Seconds, 2>;
using SettleCell = Door<BoardSettle, uint8_t, 3>;
using SettleCount = Door<BoardSettle, uint8_t, 4>;
using SettleWaits = Door<BoardSettle, bool, 5>;
using SettleCounted = Door<BoardSettle, bool, 6>;

TheMemory::Member open(TheMemory);
TheLife::Member open(TheLife);
TheKept::Member open(TheKept);
TheSettle::Member open(TheSettle);
TheWatch::Member open(TheWatch);
SettleLife::Member open(SettleLife);
SettleCell::Member open(SettleCell);
SettleCount::Member open(SettleCount);
SettleWaits::Member open(SettleWaits);
SettleCounted::Member open(SettleCounted);

template struct Opened<TheMemory, &Board::memory_>;
template struct Opened<TheLife, &Board::life_>;
template struct Opened<TheKept, &Board::kept_>;
template struct Opened<TheSettle, &Board::settle_>;
template struct Opened<TheWatch, &Board::watch_>;
template struct Opened<SettleLife, &BoardSettle::life_>;
template struct Opened<SettleCell, &BoardSettle::cell_>;
template struct Opened<SettleCount, &BoardSettle::count_>;
template struct Opened<SettleWaits, &BoardSettle::waits_>;
template struct Opened<SettleCounted, &BoardSettle::counted_>;

}  // namespace inside

inline keeper::Memory& memoryOf(Board& board) { return board.*open(inside::TheMemory()); }
inline BoardLife& lifeOf(Board& board) { return board.*open(inside::TheLife()); }
inline keeper::Kept& keptOf(Board& board) { return board.*open(inside::TheKept()); }
inline BoardSettle& settleOf(Board& board) { return board.*open(inside::TheSettle()); }
inline keeper::FloodWatch& watchOf(Board& board) { return board.*open(inside::TheWatch()); }
