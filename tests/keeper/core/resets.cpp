// Resets and hand-overs in the middle of everything: docs/board-protocol.md, "What the board does by itself".
#include "bench.h"
#include "facts.h"

using namespace keeper;

static const Setup SETUP = bareSetup(1800, 10);

// With a first flood behind it, the next due 2,400 s after its end.
static Bench settled() {
  Bench bench(SETUP, plainTable());
  bench.passUntil(true, 60);
  bench.passUntil(false, 700);
  return bench;
}

static void keeperAlone() {
  FACT("a reset in the first half of the keeper's flood (each of 299 s): it is made whole within 16 s, once") {
    for (uint32_t at = 1; at < 300; ++at) {
      Bench bench = settled();
      bench.passUntil(true, 2500);
      bench.pass(at);
      bench.reset();
      CHECK(!bench.on, "the relay is not let go");
      const uint32_t from = bench.now;
      bench.passUntil(true, 3000);
      CHECK(bench.since - from <= 16, "after %u s, reset at %u s", bench.since - from, at);
      bench.passUntil(false, 700);
      CHECK(bench.runs.back().ran() == 600, "%u s, reset at %u s", bench.runs.back().ran(), at);
      bench.passUntil(true, 3000);
      CHECK(bench.since - bench.runs.back().until == 2400, "the next after %u s", bench.since - bench.runs.back().until);
    }
  }
  FACT("a reset in the second half (each of 300 s): it counts, the next comes after the table's rest") {
    for (uint32_t at = 300; at < 600; ++at) {
      Bench bench = settled();
      bench.passUntil(true, 2500);
      bench.pass(at);
      bench.reset();
      bench.passUntil(true, 3000);
      CHECK(bench.since - bench.runs.back().until == 2400, "after %u s, reset at %u s", bench.since - bench.runs.back().until, at);
    }
  }
  FACT("a reset at each second of a rest (2,385 s) neither loses nor doubles nor moves the next flood") {
    for (uint32_t at = 0; at <= 2385; ++at) {
      Bench bench = settled();
      bench.pass(at);
      bench.reset();
      bench.passUntil(true, 3000);
      CHECK(bench.since - bench.runs.back().until == 2400, "after %u s, reset at %u s", bench.since - bench.runs.back().until, at);
    }
  }
  FACT("a reset in the last 15 s of a rest delays the flood by the 15 s of settling at most") {
    for (uint32_t at = 2386; at < 2400; ++at) {
      Bench bench = settled();
      bench.pass(at);
      bench.reset();
      bench.passUntil(true, 3000);
      CHECK(bench.since - bench.runs.back().until == at + 15, "after %u s, reset at %u s",
            bench.since - bench.runs.back().until, at);
    }
  }
  FACT("resets each 16 to 700 s for 24 h: never more than 2 starts in 10 min, and each rest of floods is kept") {
    for (uint32_t every = 16; every <= 700; every += 4) {
      Bench bench(SETUP, plainTable());
      while (bench.now < 86400) {
        bench.pass(every);
        bench.reset();
      }
      uint32_t counted = 0;
      for (size_t at = 0; at < bench.runs.size(); ++at) {
        const Run& run = bench.runs[at];
        if (at >= 2) CHECK(run.from - bench.runs[at - 2].from >= 600, "3 starts in %u s", run.from - bench.runs[at - 2].from);
        CHECK(counted == 0 || run.from >= counted + 2400, "a flood %u s after a whole one", run.from - counted);
        if (run.ran() >= 300) counted = run.until;
      }
      CHECK(bench.runs.size() > 27, "%zu runs at every %u s", bench.runs.size(), every);
    }
  }
  FACT("power lost at each 7th second of flood and rest: the next flood begins 15 s after the power, at most one is doubled") {
    for (uint32_t at = 0; at < 3000; at += 7) {
      Bench bench = settled();
      // Long enough alive for the first start to be a good one.
      bench.pass(at);
      bench.powerOff();
      bench.pass(20);
      bench.powerOn(at);
      const uint32_t from = bench.now;
      bench.passUntil(true, 400);
      CHECK(bench.since - from == 15, "after %u s, lost at %u s", bench.since - from, at);
      bench.passUntil(false, 700);
      const uint32_t ended = bench.now;
      bench.passUntil(true, 3000);
      CHECK(bench.since - ended == 2400, "the next after %u s", bench.since - ended);
    }
  }
}

static void hostFloods() {
  FACT("a reset in the first half of a host's flood: the keeper makes it whole within 16 s, also where its table's rest is not over") {
    for (const uint32_t rested : {1000u, 2300u})
      for (uint32_t at = 1; at < 300; at += 2) {
        Bench bench = settled();
        bench.pass(rested);
        bench.claim();
        bench.pump(1, 600);
        bench.passOwned(at);
        bench.reset();
        const uint32_t from = bench.now;
        bench.passUntil(true, 3000);
        CHECK(bench.since - from <= 16, "after %u s, reset at %u s, rested %u s", bench.since - from, at, rested);
        bench.passUntil(false, 700);
        CHECK(bench.runs.back().ran() == 600, "%u s", bench.runs.back().ran());
      }
  }
  FACT("a reset in the second half of a host's flood: it counts, the keeper's next comes after the table's rest") {
    for (uint32_t at = 300; at < 600; at += 3) {
      Bench bench = settled();
      bench.pass(2300);
      bench.claim();
      bench.pump(1, 600);
      bench.passOwned(at);
      bench.reset();
      bench.passUntil(true, 3000);
      CHECK(bench.since - bench.runs.back().until == 2400, "after %u s", bench.since - bench.runs.back().until);
    }
  }
  FACT("a host that claims again after the reset, floods and dies: no flood is owed any more") {
    Bench bench = settled();
    bench.pass(1000);
    bench.claim();
    bench.pump(1, 600);
    bench.passOwned(100);
    bench.reset();
    bench.claim();
    bench.passOwned(12);
    CHECK(bench.pump(1, 600).result == Result::Done, "refused");
    bench.passOwned(600);
    bench.passUntil(true, 3000);
    CHECK(bench.since - bench.runs.back().until == 2400, "after %u s", bench.since - bench.runs.back().until);
  }
  FACT("a host that dies at each 5th second of flood or rest: every flood of the table is made, none within its rest") {
    for (uint32_t at = 0; at < 3000; at += 5) {
      Bench bench = settled();
      bench.claim();
      for (uint32_t second = 0; second < at; ++second) {
        // Its plan is the table's.
        if (!bench.on && bench.keeper.memory().age[RESTED] == 2400) bench.pump(1, 600);
        bench.passOwned(1);
      }
      bench.pass(10000);
      for (size_t run = 1; run < bench.runs.size(); ++run) {
        const uint32_t rest = bench.runs[run].from - bench.runs[run - 1].until;
        // The lease must run out first.
        CHECK(rest >= 2400 && rest < 2410, "a rest of %u s, died at %u s", rest, at);
        CHECK(bench.runs[run].ran() == 600, "a flood of %u s, died at %u s", bench.runs[run].ran(), at);
      }
    }
  }
}

static void parts() {
  FACT("a flood of 60 s that ends in a part with floods of 1,800 s was a flood: none follows it") {
    const Table uneven = tableOf(7200, 480, {{0, 2400, 2400, 60}, {600, 2400, 2400, 1800}});
    Bench bench(SETUP, uneven);
    bench.passUntil(true, 60);
    bench.passUntil(false, 2000);
    bench.pass(2300);
    bench.claim();
    // 09:57:50, so that it begins at 09:59:30.
    bench.keeper.heartbeat(bench.keeper.memory().epoch, 10, 597, 50, 0);
    bench.keeper.letGo(bench.keeper.memory().epoch);
    bench.passUntil(true, 200);
    bench.passUntil(false, 200);
    CHECK(bench.runs.back().ran() == 60, "%u s", bench.runs.back().ran());
    bench.pass(2300);
    CHECK(!bench.on && bench.runs.size() == 2, "another follows");
  }
  FACT("a half flood counts when the leak that halved it dries in the middle of it") {
    Setup setup = bareSetup(1800, 10);
    setup.leak = {8, 0};
    Bench bench(setup, plainTable());
    bench.see(LEAK, true);
    bench.passUntil(true, 60);
    bench.pass(100);
    bench.see(LEAK, false);
    bench.passUntil(false, 700);
    CHECK(bench.runs.back().ran() == 300, "%u s", bench.runs.back().ran());
    bench.pass(2300);
    CHECK(!bench.on, "another follows");
  }
}

int main() {
  keeperAlone();
  hostFloods();
  parts();
}
