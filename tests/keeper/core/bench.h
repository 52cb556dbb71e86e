// One board as it stands in a shed: power, resets, seconds, and all runs of its pump as they truly were.
#pragma once
#include <cstring>
#include <initializer_list>
#include <vector>

#include "chance.h"
#include "core_under_test.h"
#include "cut_store.h"

using keeper::Seconds;
using keeper::Seen;

constexpr uint8_t POWER_ON = 1, EXTERNAL = 2, BROWN_OUT = 4, WATCHDOG = 8;

inline keeper::Setup bareSetup(Seconds longestOn = 1800, Seconds shortestOff = 30) {
  keeper::Setup setup;
  std::memset(&setup, 0xFF, sizeof(setup));
  setup.schema = 1;
  setup.deadBoard = keeper::DeadBoard::PumpStops;
  setup.relay = {4, 1};
  setup.longestOn = longestOn;
  setup.shortestOff = shortestOff;
  setup.returnKind = keeper::Fitted::None;
  setup.currentKind = keeper::Fitted::None;
  setup.sip = 20;
  setup.noWatchdog = 0;
  std::memset(setup.spare, 0, sizeof(setup.spare));
  return setup;
}

struct PartOf {
  uint16_t from;
  Seconds rest, coolRest, flood;
};

inline keeper::Table tableOf(Seconds longestRest, Seconds returnLag, std::initializer_list<PartOf> parts) {
  keeper::Table table;
  std::memset(&table, 0xFF, sizeof(table));
  table.schema = 1;
  table.parts = 0;
  table.longestRest = longestRest;
  table.returnLag = returnLag;
  for (const PartOf& part : parts) table.part[table.parts++] = {part.from, part.rest, part.coolRest, part.flood};
  return table;
}

// All day the same: 600 s of flood after 2,400 s of rest.
inline keeper::Table plainTable() { return tableOf(7200, 480, {{0, 2400, 3600, 600}}); }

struct Run {
  uint32_t from;
  uint32_t until;
  bool byHost;
  // Counts the losses of power.
  uint32_t life;
  uint32_t ran() const { return until - from; }
};

struct Bench {
  const keeper::Setup* setup;
  keeper::Table flash;
  keeper::Keeper<CutStore> keeper;
  keeper::Evidence seen;
  // True seconds since the bench was built; the power may be off in some.
  uint32_t now = 0;
  bool powered = false;
  bool on = false;
  uint32_t since = 0;
  bool byHost = false;
  uint32_t life = 0;
  std::vector<Run> runs;

  Bench(const keeper::Setup& with, const keeper::Table& table, uint64_t seed = 1) : setup(&with), flash(table), seen{} {
    keeper.store().clear();
    powerOn(seed);
  }

  // RAM is left with whatever the seed makes of it.
  void powerOn(uint64_t seed) {
    const CutStore kept = keeper.store();
    Chance chance(seed);
    uint8_t* at = reinterpret_cast<uint8_t*>(&keeper);
    for (size_t left = sizeof(keeper); left > 0; --left) *at++ = chance.byte();
    keeper.store() = kept;
    powered = false;
    look();
    powered = true;
    ++life;
    keeper.begin(setup, flash, POWER_ON, false);
    look();
  }
  void powerOff() {
    powered = false;
    look();
  }
  void reset(uint8_t cause = WATCHDOG) {
    keeper.begin(setup, flash, cause, true);
    look();
  }
  void second() {
    ++now;
    if (powered) keeper.second(seen);
    look();
  }
  void pass(uint32_t seconds) {
    while (seconds-- > 0) second();
  }
  // Until it runs or rests; false when that took longer than `most`.
  bool passUntil(bool running, uint32_t most) {
    while (on != running && most-- > 0) second();
    return on == running;
  }
  // After anything that may have moved the pump.
  void look() {
    const bool is = powered && keeper.pumpOn();
    if (is == on) return;
    on = is;
    if (on) {
      since = now;
      byHost = keeper.memory().runByHost != 0;
    } else {
      runs.push_back({since, now, byHost, life});
    }
  }

  keeper::Answer claim() {
    const keeper::Answer answer = keeper.claim(keeper.memory().epoch);
    look();
    return answer;
  }
  bool beat(uint8_t lease = 10) { return keeper.heartbeat(keeper.memory().epoch, lease, 0xFFFF, 0, 0); }
  keeper::Answer pump(uint8_t want, Seconds longest) {
    const keeper::Answer answer = keeper.pump(keeper.memory().epoch, want, longest);
    look();
    return answer;
  }
  keeper::Answer hold(Seconds seconds) {
    const keeper::Answer answer = keeper.hold(keeper.memory().epoch, seconds, keeper.memory().presses);
    look();
    return answer;
  }
  void press(bool longPress) {
    keeper.pressed(longPress);
    look();
  }
  // With a host that lives and says nothing but that.
  void passOwned(uint32_t seconds) {
    while (seconds-- > 0) {
      beat();
      second();
    }
  }
  void see(keeper::Sight sight, bool so) { seen.seen[sight] = so ? Seen::Yes : Seen::No; }
  bool hostOwns() const { return keeper.owner() == keeper::Owner::Host; }
};
