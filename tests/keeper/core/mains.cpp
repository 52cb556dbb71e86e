// Mains that fail, a leak and an overflow: docs/board-protocol.md, "Mains" and "Leak and overflow".
#include "facts.h"
#include "plant.h"

using namespace keeper;

static Setup withMains(bool water) {
  Setup setup = fitted(water, false);
  setup.mains = {7, 1};
  return setup;
}

static void mains() {
  static const Setup WITH = withMains(true);
  static const Setup WITHOUT_WATER = withMains(false);
  FACT("mains lost for 11 s or more are told lost and back with the seconds that they were gone, to 11 s") {
    for (uint32_t gone = 12; gone < 5000; gone += 97) {
      Plant plant;
      plant.hasMains = true;
      Bench bench(WITHOUT_WATER, plainTable());
      plant.pass(bench, 700);
      plant.mainsThere = false;
      plant.pass(bench, gone);
      plant.mainsThere = true;
      plant.pass(bench, 12);
      unsigned lost = 0, back = 0, seconds = 0;
      const Memory& memory = bench.keeper.memory();
      for (uint16_t number = static_cast<uint16_t>(memory.logNext - memory.logKept); number != memory.logNext; ++number) {
        const Entry& entry = bench.keeper.log().at(number);
        if (entry.kind != Kind::Mains) continue;
        if (entry.detail == 0) ++lost;
        else ++back, seconds = entry.value;
      }
      CHECK(lost == 1 && back == 1, "%u lost, %u back", lost, back);
      CHECK(seconds >= gone && seconds <= gone + 11, "%u s told of %u", seconds, gone);
    }
  }
  FACT("mains lost at each 7th second, for 300 to 5,000 s: a flood that fell into the gap is made up for within 645 s") {
    for (const bool water : {false, true})
      for (const uint32_t gone : {300u, 900u, 3100u, 5000u})
        for (uint32_t at = 0; at < 3000; at += 7) {
          Plant plant;
          plant.hasMains = true;
          plant.hasWater = water;
          Bench bench(water ? WITH : WITHOUT_WATER, plainTable());
          plant.pass(bench, 640 + at);
          plant.mainsThere = false;
          plant.pass(bench, gone);
          const bool due = !bench.runs.empty() && bench.runs.back().until > 640 + at && bench.runs.back().from >= 640 + at;
          plant.mainsThere = true;
          const uint32_t before = plant.wetted;
          plant.pass(bench, 15 + 30 + 600);
          // A try may have begun in the gap: enough when half of it was not dark, or when water came back.
          if (due) CHECK(plant.wetted - before >= (water ? plant.lag + 10 : 290), "%u s of water, lost at %u for %u s", plant.wetted - before, at, gone);
          // Whatever fell into the gap, no rest is longer than the table's once they are back, but for the gap itself.
          const uint32_t from = plant.wetted;
          plant.pass(bench, 2400 + 600);
          CHECK(plant.wetted - from >= 580, "%u s of water in a turn, lost at %u for %u s", plant.wetted - from, at, gone);
        }
  }
  FACT("mains that come back 15 to 585 s before the end of a flood: at less than half of it a whole one follows within 780 s") {
    for (const bool water : {false, true})
      for (uint32_t left = 15; left < 590; left += 5) {
        Plant plant;
        plant.hasMains = true;
        plant.hasWater = water;
        Bench bench(water ? WITH : WITHOUT_WATER, plainTable());
        plant.pass(bench, 2500);
        plant.mainsThere = false;
        plant.passUntil(bench, true, 1000);
        plant.pass(bench, 600 - left);
        plant.mainsThere = true;
        const uint32_t before = plant.wetted;
        plant.passUntil(bench, false, 700);
        // With half of it made (loss and return are believed after 10 s), or seen to come back, it is a flood.
        const bool enough = left >= 310 || (water && left > plant.lag);
        plant.pass(bench, 180 + 600);
        CHECK(enough || plant.wetted - before >= 598, "%u s of water, back %u s before the end", plant.wetted - before, left);
      }
  }
  FACT("a catch-up after mains makes one flood, not two, for return lags of 480 and 1,200 s at floods of 300 s") {
    for (const Seconds returnLag : {Seconds{480}, Seconds{1200}}) {
      Plant plant;
      plant.hasMains = plant.hasWater = true;
      plant.lag = 250;
      Bench bench(WITH, tableOf(7200, returnLag, {{0, 2400, 2400, 300}}));
      plant.pass(bench, 2000);
      plant.mainsThere = false;
      plant.pass(bench, 9000);
      plant.passUntil(bench, false, 700);
      plant.mainsThere = true;
      const size_t before = bench.runs.size();
      plant.pass(bench, 2000);
      CHECK(bench.runs.size() - before == 1, "%zu floods with a lag of %u s", bench.runs.size() - before, returnLag);
    }
  }
  FACT("a catch-up is made once also while nobody knows yet what became of it: 1,000 s of a return lag of 1,200 s") {
    Plant plant;
    plant.hasMains = plant.hasWater = true;
    plant.waterContact = Plant::Contact::StuckNo;
    Bench bench(WITH, tableOf(7200, 1200, {{0, 2400, 2400, 300}}));
    plant.pass(bench, 2000);
    plant.mainsThere = false;
    plant.pass(bench, 9000);
    plant.passUntil(bench, false, 700);
    plant.pass(bench, 31);
    plant.mainsThere = true;
    plant.passUntil(bench, true, 60);
    const size_t before = bench.runs.size();
    plant.pass(bench, 1000);
    CHECK(bench.runs.size() - before == 1 && !bench.on, "%zu floods", bench.runs.size() - before);
  }
  FACT("a catch-up after mains that a hold stops at once is made after the hold") {
    Setup setup = fitted(false, false);
    setup.mains = {6, 1};
    Bench bench(setup, tableOf(14400, 480, {{0, 10800, 10800, 600}}));
    Plant plant;
    plant.hasMains = true;
    plant.pass(bench, 3000);
    plant.mainsThere = false;
    CHECK(plant.passUntil(bench, true, 20000) && plant.passUntil(bench, false, 4000), "no flood");
    plant.mainsThere = true;
    CHECK(plant.passUntil(bench, true, 1000), "no catch-up");
    plant.pass(bench, 20);
    bench.press(true);
    const uint32_t from = bench.now;
    CHECK(plant.passUntil(bench, true, 40000), "no flood after the hold");
    CHECK(bench.now - from < 1900, "the next flood comes %u s after the press", bench.now - from);
  }
}

static void wet() {
  Setup setup = bareSetup();
  setup.leak = {8, 0};
  setup.overflow = {9, 0};
  FACT("leak or overflow alone: floods of 300 s go on by the table") {
    for (const Sight wet : {LEAK, OVERFLOW_}) {
      Bench bench(setup, plainTable());
      bench.see(LEAK, wet == LEAK);
      bench.see(OVERFLOW_, wet == OVERFLOW_);
      bench.pass(20000);
      CHECK(bench.runs.size() >= 7, "%zu floods", bench.runs.size());
      for (size_t at = 0; at < bench.runs.size(); ++at) {
        CHECK(bench.runs[at].ran() == 300, "%u s", bench.runs[at].ran());
        CHECK(at == 0 || bench.runs[at].from - bench.runs[at - 1].until == 2400, "rest of %u s",
              bench.runs[at].from - bench.runs[at - 1].until);
      }
    }
  }
  FACT("both wet: the keeper's flood stops at once, at each of its seconds; then sips of 20, 20 and 180 s each 600 s") {
    for (uint32_t at = 1; at < 600; at += 13) {
      Bench bench(setup, plainTable());
      bench.passUntil(true, 60);
      bench.pass(at);
      bench.see(LEAK, true);
      bench.see(OVERFLOW_, true);
      bench.second();
      CHECK(!bench.on, "runs on at %u s", at);
      const uint32_t from = bench.now;
      bench.pass(3000);
      CHECK(bench.runs.size() == 1 + 5 || bench.runs.size() == 1 + 4, "%zu runs", bench.runs.size());
      CHECK(bench.runs[1].from - from >= 599, "a sip after %u s", bench.runs[1].from - from);
      for (size_t run = 1; run < bench.runs.size(); ++run)
        CHECK(bench.runs[run].ran() == (run % 3 == 0 ? 180 : 20), "%u s", bench.runs[run].ran());
    }
  }
  FACT("when one of both has dried, floods of 300 s go on at once; when both have, of 600 s") {
    Bench bench(setup, plainTable());
    bench.see(LEAK, true);
    bench.see(OVERFLOW_, true);
    bench.pass(5000);
    bench.passUntil(false, 200);
    bench.pass(31);
    bench.see(LEAK, false);
    bench.passUntil(true, 700);
    bench.passUntil(false, 700);
    CHECK(bench.runs.back().ran() == 300, "%u s", bench.runs.back().ran());
    bench.see(OVERFLOW_, false);
    bench.passUntil(true, 2500);
    bench.passUntil(false, 700);
    CHECK(bench.runs.back().ran() == 600, "%u s", bench.runs.back().ran());
  }
  FACT("both wet: a host's flood is left to the host, and ends by the keeper's rule when the host dies") {
    Bench bench(setup, plainTable());
    bench.claim();
    bench.passOwned(100);
    bench.pump(1, 900);
    bench.see(LEAK, true);
    bench.see(OVERFLOW_, true);
    bench.passOwned(100);
    CHECK(bench.on, "stopped while the host lives");
    bench.pass(10);
    CHECK(!bench.on, "runs on without the host");
  }
}

int main() {
  mains();
  wet();
}
