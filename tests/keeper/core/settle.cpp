// The first start after power-on, and supplies that break down: docs/board-protocol.md, "After power-on".
#include "bench.h"
#include "facts.h"

using namespace keeper;

static uint32_t mostStartsIn(const std::vector<Run>& runs, uint32_t span) {
  uint32_t most = 0;
  for (size_t first = 0; first < runs.size(); ++first) {
    uint32_t starts = 0;
    for (size_t at = first; at < runs.size() && runs[at].from < runs[first].from + span; ++at) ++starts;
    if (starts > most) most = starts;
  }
  return most;
}

static void powerComes() {
  FACT("after power-on the first flood begins at 15 s, whatever the RAM held, for 2,000 seeds") {
    const Setup setup = bareSetup(1800, 10);
    for (uint64_t seed = 0; seed < 2000; ++seed) {
      Bench bench(setup, plainTable(), seed);
      bench.passUntil(true, 100);
      CHECK(bench.since == 15, "at %u s with seed %llu", bench.since, static_cast<unsigned long long>(seed));
      bench.passUntil(false, 700);
      CHECK(bench.now - bench.since == 600, "%u s with seed %llu", bench.now - bench.since,
            static_cast<unsigned long long>(seed));
    }
  }
  FACT("where shortest-off is 600 s the first flood waits for that too: 601 s") {
    const Setup setup = bareSetup(1800, 600);
    Bench bench(setup, plainTable());
    bench.passUntil(true, 700);
    CHECK(bench.since == 601, "at %u s", bench.since);
  }
}

static void powerLoops() {
  FACT("power that is lost every 1 to 400 s for 2 h: at most 2 starts in 10 min, and from 32 s on the pump gets run") {
    const Setup setup = bareSetup();
    for (uint32_t period = 1; period <= 400; ++period) {
      Bench bench(setup, plainTable());
      while (bench.now < 7200) {
        bench.pass(period);
        bench.powerOff();
        bench.powerOn(bench.now);
      }
      CHECK(mostStartsIn(bench.runs, 600) <= 2, "%u starts at every %u s", mostStartsIn(bench.runs, 600), period);
      // With 30 s of shortest-off from power-on no shorter life is long enough.
      CHECK(period < 32 || bench.runs.size() >= 2, "%zu starts at every %u s", bench.runs.size(), period);
    }
  }
  FACT("the same with a shortest-off of 10 s: from 16 s on the pump gets run") {
    const Setup setup = bareSetup(1800, 10);
    for (uint32_t period = 1; period <= 400; ++period) {
      Bench bench(setup, plainTable());
      while (bench.now < 7200) {
        bench.pass(period);
        bench.powerOff();
        bench.powerOn(bench.now);
      }
      CHECK(mostStartsIn(bench.runs, 600) <= 2, "%u starts at every %u s", mostStartsIn(bench.runs, 600), period);
      CHECK(period < 16 || bench.runs.size() >= 2, "%zu starts at every %u s", bench.runs.size(), period);
    }
  }
  FACT("a supply that breaks down 1 to 60 s after each start: at most 2 starts in 10 min, at least 1 in 11 min") {
    const Setup setup = bareSetup(1800, 10);
    for (uint32_t holds = 1; holds <= 60; ++holds)
      for (const uint32_t dark : {0u, 2u, 30u}) {
        Bench bench(setup, plainTable());
        uint32_t last = 0;
        while (bench.now < 7200) {
          bench.passUntil(true, 7200);
          CHECK(bench.since - last <= 660, "no start for %u s, down %u s after a start", bench.since - last, holds);
          last = bench.since;
          bench.pass(holds);
          bench.powerOff();
          bench.pass(dark);
          bench.powerOn(bench.now);
        }
        CHECK(mostStartsIn(bench.runs, 600) <= 2, "%u starts, down %u s after a start", mostStartsIn(bench.runs, 600), holds);
      }
  }
  FACT("brown-outs that leave the RAM alone 1 to 60 s after each start: at most 2 starts in 10 min") {
    const Setup setup = bareSetup(1800, 10);
    for (uint32_t holds = 1; holds <= 60; ++holds) {
      Bench bench(setup, plainTable());
      while (bench.now < 7200) {
        bench.passUntil(true, 700);
        CHECK(bench.on, "no start in 700 s");
        bench.pass(holds);
        bench.reset(BROWN_OUT);
      }
      CHECK(mostStartsIn(bench.runs, 600) <= 2, "%u starts", mostStartsIn(bench.runs, 600));
    }
  }
  // What is known of the last start is lost with the power, so each of the two may come once before and once after.
  FACT("in 300 random hours of lives of 1 to 400 s, half ended by power, half by resets: at most 4 starts in 10 min") {
    const Setup setup = bareSetup(1800, 10);
    for (uint64_t seed = 0; seed < 300; ++seed) {
      Chance chance(seed);
      Bench bench(setup, plainTable(), seed);
      const uint32_t longest = chance.between(16, 400);
      while (bench.now < 3600) {
        bench.pass(chance.between(1, longest));
        if (chance.oneIn(2)) bench.reset(chance.oneIn(2) ? BROWN_OUT : WATCHDOG);
        else bench.powerOn(bench.now);
      }
      CHECK(mostStartsIn(bench.runs, 600) <= 4, "%u starts with seed %llu", mostStartsIn(bench.runs, 600),
            static_cast<unsigned long long>(seed));
    }
  }
  FACT("after a loss of power under a hold the buzzer warns before the pump starts") {
    const Setup setup = bareSetup(1800, 10);
    Bench bench(setup, plainTable());
    bench.pass(4000);
    bench.press(true);
    bench.pass(60);
    bench.powerOff();
    bench.pass(5);
    bench.powerOn(7);
    unsigned warned = 0;
    uint32_t waited = 0;
    while (!bench.on && waited++ < 400) {
      bench.second();
      if (!bench.on) warned += bench.keeper.signals().buzzer;
    }
    CHECK(warned >= 8, "the pump starts %u s after the power, buzzer for %u s", waited, warned);
  }
}

static void bouncingSupply() {
  FACT("a supply that comes back with a brown-out 1 to 14 s after power-on and breaks down under the pump: at most 2 starts") {
    const Setup setup = bareSetup(1800, 10);
    for (uint32_t bounce = 1; bounce <= 14; ++bounce) {
      Bench bench(setup, plainTable());
      while (bench.now < 7200) {
        bench.pass(bounce);
        bench.reset(BROWN_OUT);
        bench.passUntil(true, 400);
        bench.pass(2);
        bench.powerOff();
        bench.powerOn(bench.now);
      }
      CHECK(mostStartsIn(bench.runs, 600) <= 2, "%u starts in 10 min", mostStartsIn(bench.runs, 600));
    }
  }
}

static void cells() {
  FACT("after 5 min of life behind the first start the cells are empty: the next power-on floods at 15 s") {
    const Setup setup = bareSetup(1800, 10);
    Bench bench(setup, plainTable());
    bench.pass(15 + 300);
    for (uint16_t cell = 192; cell < 208; ++cell)
      CHECK(bench.keeper.store().cell[cell] == 0xFF, "cell %u holds %u", cell, bench.keeper.store().cell[cell]);
    bench.powerOn(9);
    const uint32_t came = bench.now;
    bench.passUntil(true, 100);
    CHECK(bench.since - came == 15, "at %u s", bench.since - came);
  }
  FACT("power cut at each write of the cells, torn in 5 ways: the pump is started within 6 min of steady power") {
    const Setup setup = bareSetup(1800, 10);
    for (uint32_t cut = 0; cut < 60; ++cut)
      for (const Torn torn : EVERY_TORN) {
        Chance chance(cut * 8 + static_cast<unsigned>(torn));
        Bench bench(setup, plainTable());
        bench.keeper.store().cut(cut, torn, chance.byte());
        for (int life = 0; life < 60 && !bench.keeper.store().wasCut(); ++life) {
          bench.pass(20);
          bench.powerOn(bench.now);
        }
        CHECK(bench.keeper.store().wasCut(), "write %u never came", cut);
        bench.keeper.store().mend();
        bench.powerOn(bench.now);
        const uint32_t came = bench.now;
        CHECK(bench.passUntil(true, 360), "no start in 360 s after a cut at write %u", cut);
        CHECK(bench.since - came >= 15, "a start %u s after power-on", bench.since - came);
      }
  }
  FACT("16 cells of random bytes, 3,000 seeds: the pump is started between 15 s and 5 min of steady power") {
    const Setup setup = bareSetup(1800, 10);
    for (uint64_t seed = 0; seed < 3000; ++seed) {
      Chance chance(seed);
      Bench bench(setup, plainTable(), seed);
      for (uint16_t cell = 192; cell < 208; ++cell) bench.keeper.store().cell[cell] = chance.byte();
      bench.powerOn(seed);
      CHECK(bench.passUntil(true, 300), "no start with seed %llu", static_cast<unsigned long long>(seed));
      CHECK(bench.since >= 15, "a start at %u s", bench.since);
    }
  }
  FACT("a reset every 40 s for 90 days wears no cell: the EEPROM is not written at all after the first life") {
    const Setup setup = bareSetup(1800, 10);
    Bench bench(setup, plainTable());
    bench.pass(400);
    const uint32_t before = bench.keeper.store().writes;
    for (uint32_t reset = 0; reset < 90 * 86400 / 40; ++reset) {
      bench.pass(40);
      bench.reset();
    }
    CHECK(bench.keeper.store().writes == before, "%u writes", bench.keeper.store().writes - before);
  }
}

int main() {
  powerComes();
  powerLoops();
  bouncingSupply();
  cells();
}
