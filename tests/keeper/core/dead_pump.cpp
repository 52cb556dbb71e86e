// What must not hide a dead pump, or a crop without floods, from whoever hears the board. docs/board-protocol.md, "Evidence".
#include "facts.h"
#include "plant.h"

using namespace keeper;

// Floods of 300 s, whose water is awaited for longer than they last.
static const Table SHORT_FLOODS = tableOf(7200, 480, {{0, 2400, 3600, 300}});

static unsigned runsInLog(const Bench& bench) {
  unsigned runs = 0;
  const Memory& memory = bench.keeper.memory();
  for (uint16_t left = memory.logKept; left > 0; --left)
    if (bench.keeper.log().at(static_cast<uint16_t>(memory.logNext - left)).kind == Kind::Run) ++runs;
  return runs;
}

/** Pumps well for a while, then dies; true when its flood and the second try are over and the alarm stands. */
static bool alarmed(Bench& bench, Plant& plant) {
  plant.hasWater = true;
  plant.pass(bench, 3000);
  plant.pumpWorks = false;
  for (int second = 0; second < 9000 && bench.keeper.memory().missed == 0; ++second) plant.second(bench);
  const bool triedAgain = plant.passUntil(bench, true, 4000) && plant.passUntil(bench, false, 4000);
  plant.pass(bench, 40);
  return triedAgain && bench.keeper.memory().missed != 0;
}

int main() {
  FACT("a press of the button does not end the alarm of a dead pump") {
    const Setup setup = fitted(true, false);
    Bench bench(setup, SHORT_FLOODS);
    Plant plant;
    CHECK(alarmed(bench, plant), "no alarm");
    bench.press(false);
    for (int second = 0; second < 2000; ++second) {
      plant.second(bench);
      CHECK(bench.keeper.memory().missed != 0, "the alarm ended %d s after the press", second);
    }
  }
  FACT("a claim does not end the alarm of a dead pump") {
    const Setup setup = fitted(true, false);
    Bench bench(setup, SHORT_FLOODS);
    Plant plant;
    CHECK(alarmed(bench, plant), "no alarm");
    bench.claim();
    CHECK(bench.keeper.memory().missed != 0, "the alarm ended with the claim");
  }
  FACT("dead pump and a button that asks for a flood each 20 s: the alarm comes within 1 h") {
    const Setup setup = fitted(true, false);
    Bench bench(setup, SHORT_FLOODS);
    Plant plant;
    plant.hasWater = true;
    plant.pass(bench, 3000);
    plant.pumpWorks = false;
    plant.pass(bench, 600);
    bool alarm = false;
    for (int second = 0; second < 36000; ++second) {
      if (second % 20 == 0) bench.press(false);
      plant.second(bench);
      alarm = alarm || bench.keeper.memory().missed != 0;
    }
    CHECK(alarm, "none in 10 h, %u runs", unsigned(bench.runs.size()));
  }
  FACT("a missed flood is tried again also when a host claims in the pause and dies") {
    const Setup setup = fitted(true, false);
    Bench bench(setup, plainTable());
    Plant plant;
    plant.hasWater = true;
    plant.pass(bench, 3000);
    plant.pumpWorks = false;
    CHECK(plant.passUntil(bench, true, 4000) && plant.passUntil(bench, false, 4000), "no flood");
    plant.pumpWorks = true;
    plant.pass(bench, 30);
    bench.claim();
    const uint32_t from = bench.now;
    CHECK(plant.passUntil(bench, true, 4000), "none");
    CHECK(bench.now - from < 300, "tried again after %u s", bench.now - from);
  }
  FACT("a flood that waits for its verdict is in the log also after a reset") {
    const Setup setup = fitted(true, false);
    Bench bench(setup, tableOf(7200, 1200, {{0, 2400, 3600, 300}}));
    Plant plant;
    plant.hasWater = true;
    plant.pass(bench, 4000);
    plant.pumpWorks = false;
    CHECK(plant.passUntil(bench, true, 4000), "no start");
    CHECK(plant.passUntil(bench, false, 4000), "no stop");
    plant.pass(bench, 60);
    bench.reset();
    plant.pass(bench, 1300);
    CHECK(runsInLog(bench) == bench.runs.size(), "%u runs in the log, %u were made", runsInLog(bench), unsigned(bench.runs.size()));
  }
  FACT("the alarm for want of a flood goes on for as long as there is none") {
    const Setup setup = bareSetup();
    Bench bench(setup, plainTable());
    bench.pass(1000);
    // Held all the while.
    for (uint32_t second = 0; second < 90000; ++second) {
      if (second % 10000 == 0) {
        bench.claim();
        bench.hold(14400);
        bench.keeper.letGo(bench.keeper.memory().epoch);
      }
      bench.second();
      if (second > 20000 && second % 5000 == 0) {
        unsigned heard = 0;
        for (int more = 0; more < 60; ++more) {
          bench.second();
          heard += bench.keeper.signals().buzzer ? 1 : 0;
        }
        CHECK(heard >= 12, "buzzer %u of 60 after %u s", heard, second);
      }
    }
  }
}
