// A board's whole state in few bytes, and the board made anew from them. Ages are capped just above the largest span that they
// are held against; the epoch, the uptime and the log are left out: only whether two epochs are the same matters, and that
// is kept with whoever knows one.
#pragma once
#include "inside.h"

namespace explored {

using namespace keeper;

#ifdef SHORTER_TABLE
constexpr uint8_t LONGEST_ON = 4, SHORTEST_OFF = 1, REST = 4, FLOOD_SPAN = 3, LONGEST_REST = 4, SIP_SPAN = 1;
#else
constexpr uint8_t LONGEST_ON = 6, SHORTEST_OFF = 1, REST = 5, FLOOD_SPAN = 4, LONGEST_REST = 6, SIP_SPAN = 1;
#endif

inline const Setup& theSetup(bool withFloat) {
  static Setup setups[2];
  static bool made = false;
  if (!made) {
    for (Setup& setup : setups) {
      std::memset(static_cast<void*>(&setup), 0xFF, sizeof(setup));
      setup.schema = 1;
      setup.deadBoard = DeadBoard::PumpStops;
      setup.relay = {4, 1};
      setup.longestOn = LONGEST_ON;
      setup.shortestOff = SHORTEST_OFF;
      setup.returnKind = setup.currentKind = Fitted::None;
      setup.sip = SIP_SPAN;
    }
    setups[1].floatLow = {5, 0};
    made = true;
  }
  return setups[withFloat ? 1 : 0];
}

inline const Table& theTable() {
  static Table table;
  std::memset(static_cast<void*>(&table), 0xFF, sizeof(table));
  table.schema = 1;
  table.parts = 1;
  table.longestRest = LONGEST_REST;
  table.returnLag = 1;
  table.part[0] = {0, REST, REST, FLOOD_SPAN};
  return table;
}

// What an age is capped at: just above all that it is held against (keeper_floods.h, keeper_orders.h, keeper_seconds.h).
constexpr Seconds OVERDUE = LONGEST_REST + times::OVERDUE_GRACE;
constexpr Seconds CAP_OF[AGES] = {SHORTEST_OFF + 1, 0,          OVERDUE + 1, times::STARTS_SPAN, times::STARTS_SPAN,
                                  times::SIP_REST,  times::SIP_REST, times::BUTTON_DRY};
constexpr Seconds OWNED_CAP = OVERDUE + 1;
constexpr Seconds LIFE_CAP = times::SETTLE + times::PROVEN_LIFE;
constexpr Seconds HOLD_FOR_CAP = times::HOLD_BUTTON_MOST;

struct BoardState {
  uint8_t kind;      // run, by the host, owner, flood asked for
  uint8_t tank;      // state, tried, sips of three, what the float says
  uint8_t settling;  // first start still due, counted, what the cells hold
  uint8_t onFor, runLeft, enough;
  uint8_t age[AGES];
  uint8_t holdLeft, holdFor, holdByButton;
  uint8_t handTest, retryIn;
  uint8_t lease, ownedFor, life;
};

inline uint8_t small(Seconds value) { return static_cast<uint8_t>(value); }
inline uint8_t capped(Seconds value, Seconds cap) { return small(least(value, cap)); }

constexpr uint8_t NO_CELL = 15;
constexpr uint8_t SIP_ENOUGH = 0xFF;

// False when something is not as the packing takes it to be.
inline bool pack(Board& board, BoardState& state) {
  const Memory& memory = memoryOf(board);
  const BoardLife& life = lifeOf(board);
  BoardSettle& settle = settleOf(board);
  const bool on = memory.run != RunKind::None;
  const bool hosted = life.owner == Owner::Host;
  const uint8_t cell = settle.*open(inside::SettleCell());
  const uint8_t count = settle.*open(inside::SettleCount());
  const bool waits = settle.waits();
  const bool cells = cell != CELLS;
  if (life.pending || memory.missed != 0 || memory.catchUp != 0 || memory.retries != 0) return false;
  if (waits != (memory.unstarted != 0) || (cells && (count >= NO_CELL || board.store().cell[cell] != count))) return false;

  std::memset(&state, 0, sizeof(state));
  state.kind = static_cast<uint8_t>(static_cast<uint8_t>(memory.run) | (on && memory.runByHost != 0 ? 4 : 0) |
                                    (hosted ? 8 : 0) | (life.floodAsked ? 16 : 0));
  state.tank = static_cast<uint8_t>(static_cast<uint8_t>(memory.tank) | (memory.tried != 0 ? 4 : 0) |
                                    (memory.sips % times::TRIAL_EVERY) << 3 |
                                    static_cast<uint8_t>(life.seen.seen[FLOAT_LOW]) << 5);
  state.settling = static_cast<uint8_t>((cells ? count : NO_CELL) | (waits ? 16 : 0) |
                                        (waits && cells && settle.*open(inside::SettleCounted()) ? 32 : 0));
  state.onFor = small(memory.onFor);
  state.runLeft = small(memory.runLeft);
  if (on) state.enough = memory.enough == FOREVER ? SIP_ENOUGH : small(memory.enough);
  for (uint8_t age = 0; age < AGES; ++age) state.age[age] = capped(memory.age[age], CAP_OF[age]);
  state.holdLeft = small(memory.holdLeft);
  state.holdFor = capped(memory.holdFor, HOLD_FOR_CAP);
  state.holdByButton = memory.holdLeft > 0 ? memory.holdByButton : uint8_t{0};
  state.handTest = small(memory.handTest);
  state.retryIn = small(memory.retryIn);
  state.lease = life.lease;
  state.ownedFor = capped(life.ownedFor, OWNED_CAP);
  state.life = capped(settle.*open(inside::SettleLife()), cells ? LIFE_CAP : times::SETTLE);
  return true;
}

inline void unpack(const BoardState& state, bool withFloat, Board& board) {
  Memory& memory = memoryOf(board);
  memory = Memory{};
  BoardLife& life = lifeOf(board);
  life = BoardLife{};
  watchOf(board).begin();
  BoardSettle& settle = settleOf(board);
  life.setup = &theSetup(withFloat);
  keptOf(board) = {FLASH_SLOT, tableBytes(1), 0};
  memory.minute = MINUTE_UNKNOWN;
  memory.run = static_cast<RunKind>(state.kind & 3);
  memory.runByHost = (state.kind & 4) != 0 ? 1 : 0;
  life.owner = (state.kind & 8) != 0 ? Owner::Host : Owner::Keeper;
  life.floodAsked = (state.kind & 16) != 0;
  memory.tank = static_cast<Tank>(state.tank & 3);
  memory.tried = (state.tank & 4) != 0 ? 1 : 0;
  memory.sips = (state.tank >> 3) & 3;
  life.seen.seen[FLOAT_LOW] = static_cast<Seen>(state.tank >> 5);
  const uint8_t count = state.settling & 15;
  std::memset(board.store().cell, CELL_EMPTY, sizeof(board.store().cell));
  if (count != NO_CELL) board.store().cell[0] = count;
  settle.*open(inside::SettleCell()) = count != NO_CELL ? uint8_t{0} : CELLS;
  settle.*open(inside::SettleCount()) = count;
  memory.unstarted = (state.settling & 16) != 0 ? 1 : 0;
  settle.*open(inside::SettleWaits()) = memory.unstarted != 0;
  settle.*open(inside::SettleCounted()) = (state.settling & 32) != 0;
  settle.*open(inside::SettleLife()) = state.life;
  memory.onFor = state.onFor;
  memory.runLeft = state.runLeft;
  memory.enough = state.enough == SIP_ENOUGH ? FOREVER : state.enough;
  for (uint8_t age = 0; age < AGES; ++age) memory.age[age] = state.age[age];
  memory.holdLeft = state.holdLeft;
  memory.holdFor = state.holdFor;
  memory.holdByButton = state.holdByButton;
  memory.handTest = state.handTest;
  memory.retryIn = state.retryIn;
  life.lease = state.lease;
  life.ownedFor = state.ownedFor;
  memory.check = checkOf(memory);
}

// One that has just got power for the first time, its table that of the flash.
inline void makeFresh(Board& board, bool withFloat) {
  std::memset(static_cast<void*>(&board), 0xA5, sizeof(board));
  std::memset(board.store().cell, CELL_EMPTY, sizeof(board.store().cell));
  board.begin(&theSetup(withFloat), theTable(), 1, false);
}

inline void losePower(Board& board, bool withFloat) {
  memoryOf(board).check = static_cast<uint16_t>(memoryOf(board).check + 1);
  board.begin(&theSetup(withFloat), theTable(), 1, false);
}

}  // namespace explored
