// The keeper: who owns the pump, what it may do, and the floods that nobody else makes. Pure: told each second what is
// seen, and asked what pump, buzzer and lamp shall do. Rules in words: docs/board-protocol.md.
#pragma once
#include "flood_watch.h"
#include "log.h"
#include "memory.h"
#include "settle.h"
#include "slots.h"

namespace keeper {

enum class Owner : uint8_t { Keeper = 0, Host = 1 };

enum class Result : uint8_t {
  Done = 0,
  Stale = 1,
  Resting = 2,
  Held = 3,
  TankLow = 4,
  BadValue = 5,
  NotSetUp = 6,
  NotStored = 7,
};

struct AS_ON_THE_WIRE Answer {
  Result result;
  uint16_t value;
};

struct Signals {
  bool buzzer;
  bool lamp;
};

constexpr uint8_t SIGNAL_BUZZER = 1;
constexpr uint8_t SIGNAL_LAMP = 2;

// What the keeper knows only until the next reset; all nought at first.
struct Life {
  const Setup* setup;
  Evidence seen;
  Owner owner;
  uint8_t lease;
  // Since the host took the pump from the keeper.
  Seconds ownedFor;
  Seconds wetFor;
  bool floodAsked;
  // A run has ended and waits for its verdict.
  bool pending;
  Seen mainsBefore;
  uint8_t hostSignals;
  // Counts to sixty, for what blinks and beeps.
  uint8_t beat;
  Seconds mainsLostFor;
};

// Bits beside the verdict of a run in the log.
constexpr uint8_t BEGUN_BY_HOST = 16;
constexpr uint8_t BY_KEEPER = 32;

// A run that has ended, as the log will tell it; means something while `pending`.
struct Ended {
  int32_t at;
  Seconds ran;
  uint8_t by;
  bool counts;
};

template <class Store>
class Keeper {
 public:
  // To lie in memory that a reset does not clear, so nothing is set here. Its functions are called, not copied into main:
  // only so does the chip reach its members by short instructions.
  Keeper() {}

  // At every reset, before the first second. `setup` is null on a board that was not set up; `flashTable` holds when no
  // slot does.
  CALLED void begin(const Setup* setup, const Table& flashTable, uint8_t cause, bool memoryKept);
  CALLED void second(const Evidence& seen);

  CALLED Answer claim(uint16_t epoch);
  CALLED bool heartbeat(uint16_t epoch, uint8_t lease, uint16_t minute, uint8_t second, uint8_t signals);
  CALLED Answer pump(uint16_t epoch, uint8_t on, Seconds longest);
  // `presses` that the host has heard of.
  CALLED Answer hold(uint16_t epoch, Seconds seconds, uint16_t presses);
  CALLED Answer letGo(uint16_t epoch);
  // `table` as it came, with so many bytes.
  CALLED Answer putTable(uint16_t epoch, const Table& table, uint8_t count);
  CALLED void pressed(bool longPress);

  bool pumpOn() const { return memory_.run != RunKind::None; }
  CALLED Signals signals() const;

  const Setup* setup() const { return life_.setup; }
  const Memory& memory() const { return memory_; }
  const Log& log() const { return log_; }
  const Kept& kept() const { return kept_; }
  const Table& table() const { return table_; }
  const Evidence& seen() const { return life_.seen; }
  Store& store() { return store_; }
  Owner owner() const { return life_.owner; }
  uint8_t lease() const { return life_.lease; }
  bool settling() const { return settle_.waits(); }
  bool slotSpoilt() const { return slotSpoilt_; }
  bool handTestAsked() const {
    return tankForbids() && !life_.setup->hasEvidence();
  }
  bool mainsLost() const { return life_.seen.seen[MAINS] == Seen::No; }
  CALLED Seconds untilFlood() const;

 private:
  // The new entry, as of now.
  CALLED Entry& note(Kind kind, uint8_t detail, uint16_t value);
  void age();
  void tankRule();
  void mainsRule();
  CALLED void start(RunKind kind, Seconds longest, bool byHost);
  CALLED void stop(bool byHost);
  void judge();
  CALLED void settleVerdict(Verdict verdict);
  CALLED void own(Owner owner, uint8_t how);
  void decide();
  CALLED void remember() { memory_.check = checkOf(memory_); }

  CALLED const Part& part() const { return partAt(table_, memory_.minute); }
  CALLED Seconds restNow() const { return life_.seen.hot == Seen::No ? part().coolRest : part().rest; }
  CALLED bool tankForbids() const { return memory_.tank == Tank::Low && memory_.handTest == 0; }
  CALLED bool bothWet() const { return life_.seen.so(LEAK) && life_.seen.so(OVERFLOW_); }
  // Whether the pump had no power for most of the run that has ended.
  CALLED bool dark() const { return watch_.isDark(ended_.ran); }
  CALLED bool sipsOnly() const { return tankForbids() || bothWet(); }
  CALLED bool shortened() const {
    return memory_.tank != Tank::Well || life_.seen.so(LEAK) || life_.seen.so(OVERFLOW_);
  }
  CALLED Seconds floodNow() const {
    const Seconds flood = part().flood;
    return shortened() ? static_cast<Seconds>((flood + 1) / 2) : flood;
  }
  CALLED Seconds sipNow() const {
    return memory_.sips % times::TRIAL_EVERY == times::TRIAL_EVERY - 1 ? times::TRIAL_SIP : life_.setup->sip;
  }
  // Held for so long without a whole flood; until it has been left alone for a while.
  bool buttonWet() const { return memory_.holdFor >= times::HOLD_BUTTON_MOST; }
  CALLED bool overdue(Seconds age) const { return age > olderBy(table_.longestRest, times::OVERDUE_GRACE); }
  CALLED bool owns(uint16_t epoch) const { return life_.owner == Owner::Host && epoch == memory_.epoch; }
  CALLED Answer refusal(uint16_t epoch) const;
  CALLED Answer done(uint16_t value);

  // What is used most lies first: short instructions reach 64 bytes (AVR instruction set manual, LDD). Memory and log outlive
  // a reset; all else `begin` sets.
  Life life_;
  Memory memory_;
  Kept kept_;
  bool slotSpoilt_;
  FloodWatch watch_;
  Settle<Store> settle_;
  Ended ended_;
  Table table_;
  Log log_;
  Store store_;
};

}  // namespace keeper

#include "keeper_floods.h"
#include "keeper_orders.h"
#include "keeper_seconds.h"
