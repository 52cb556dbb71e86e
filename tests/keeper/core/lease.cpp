// Who owns the pump: docs/board-protocol.md, "Lease and epoch".
#include "bench.h"
#include "facts.h"

using namespace keeper;

static Bench fresh(const Setup& setup) {
  Bench bench(setup, plainTable());
  bench.pass(700);
  return bench;
}
static const Setup SETUP = bareSetup();

static void leases() {
  FACT("for each lease of 2 to 10 s the keeper has the pump that many seconds after the last heartbeat") {
    for (uint8_t lease = 2; lease <= 10; ++lease) {
      Bench bench = fresh(SETUP);
      bench.claim();
      bench.pass(3);
      CHECK(bench.beat(lease), "a lease of %u s refused", lease);
      for (uint8_t second = 1; second < lease; ++second) {
        bench.second();
        CHECK(bench.hostOwns(), "lost after %u of %u s", second, lease);
      }
      bench.second();
      CHECK(!bench.hostOwns(), "still owned after %u s", lease);
    }
  }
  FACT("a claim without a heartbeat lasts 10 s") {
    Bench bench = fresh(SETUP);
    bench.claim();
    bench.pass(9);
    CHECK(bench.hostOwns(), "lost before");
    bench.second();
    CHECK(!bench.hostOwns(), "kept longer");
  }
  FACT("leases of 0, 1 and 11 to 255 s renew nothing") {
    for (unsigned lease = 0; lease <= 255; ++lease) {
      if (lease >= 2 && lease <= 10) continue;
      Bench bench = fresh(SETUP);
      bench.claim();
      bench.pass(5);
      CHECK(!bench.beat(static_cast<uint8_t>(lease)), "%u s taken", lease);
      CHECK(bench.keeper.lease() == 5, "%u s left after %u", bench.keeper.lease(), lease);
    }
  }
  FACT("heartbeats never begin a lease: 65,536 epochs while the keeper owns the pump") {
    Bench bench = fresh(SETUP);
    for (unsigned epoch = 0; epoch <= 65535; ++epoch) {
      bench.keeper.heartbeat(static_cast<uint16_t>(epoch), 10, 0, 0, 3);
      CHECK(!bench.hostOwns(), "with epoch %u", epoch);
    }
  }
  FACT("heartbeats with 65,535 other epochs do not renew it: the keeper has the pump after 10 s") {
    Bench bench = fresh(SETUP);
    bench.claim();
    const uint16_t epoch = bench.keeper.memory().epoch;
    for (unsigned second = 0; second < 10; ++second) {
      for (unsigned other = 1; other <= 65535; ++other)
        bench.keeper.heartbeat(static_cast<uint16_t>(epoch + other), 10, 0, 0, 0);
      bench.second();
    }
    CHECK(!bench.hostOwns(), "still owned");
  }
}

static void epochs() {
  FACT("a claim with any but the epoch that holds is stale, for 65,536 epochs, and tells the one that holds") {
    Bench bench = fresh(SETUP);
    const uint16_t holds = bench.keeper.memory().epoch;
    for (unsigned epoch = 0; epoch <= 65535; ++epoch) {
      if (epoch == holds) continue;
      const Answer answer = bench.keeper.claim(static_cast<uint16_t>(epoch));
      CHECK(answer.result == Result::Stale && answer.value == holds, "with %u", epoch);
    }
    CHECK(!bench.hostOwns(), "owned");
  }
  FACT("the epoch goes up by one at claim, second claim, let go, end of lease and reset, over 65,535 to 0") {
    Bench bench = fresh(SETUP);
    uint16_t due = bench.keeper.memory().epoch;
    for (unsigned turn = 0; turn < 70000; ++turn) {
      ++due;
      CHECK(bench.claim().value == due, "claim gives %u", bench.keeper.memory().epoch);
      switch (turn % 4) {
        case 0:
          CHECK(bench.claim().value == static_cast<uint16_t>(++due), "second claim gives %u", bench.keeper.memory().epoch);
          break;
        case 1:
          CHECK(bench.keeper.letGo(due).value == static_cast<uint16_t>(due + 1), "let go");
          ++due;
          break;
        case 2:
          bench.pass(10);
          ++due;
          break;
        default:
          bench.reset();
          ++due;
      }
      CHECK(bench.keeper.memory().epoch == due, "epoch %u for %u", bench.keeper.memory().epoch, due);
    }
  }
  FACT("after a loss of power the epoch is 1,001 more than what the RAM held, its reset counted") {
    for (uint64_t seed = 0; seed < 100; ++seed) {
      Bench bench(SETUP, plainTable(), seed);
      const uint16_t held = [&] {
        Chance chance(seed);
        // What lies before the memory got bytes of its own.
        const uint8_t* const from = reinterpret_cast<const uint8_t*>(&bench.keeper);
        const uint8_t* const to = reinterpret_cast<const uint8_t*>(&bench.keeper.memory());
        for (const uint8_t* at = from; at < to; ++at) chance.byte();
        uint8_t bytes[sizeof(Memory)];
        for (uint8_t& byte : bytes) byte = chance.byte();
        Memory memory;
        std::memcpy(&memory, bytes, sizeof(memory));
        return memory.epoch;
      }();
      CHECK(bench.keeper.memory().epoch == static_cast<uint16_t>(held + 1001), "%u of %u", bench.keeper.memory().epoch, held);
    }
  }
  FACT("orders from before a claim, a let go, an end of lease or a reset move nothing and tell the epoch that holds") {
    for (int how = 0; how < 4; ++how) {
      Bench bench = fresh(SETUP);
      bench.pass(100);
      bench.claim();
      const uint16_t old = bench.keeper.memory().epoch;
      if (how == 0) bench.claim();
      if (how == 1) bench.keeper.letGo(old);
      if (how == 2) bench.pass(10);
      if (how == 3) bench.reset();
      const Answer answers[] = {bench.keeper.pump(old, 1, 60), bench.keeper.pump(old, 0, 0), bench.keeper.hold(old, 60, 0),
                                bench.keeper.hold(old, 0, 0), bench.keeper.letGo(old)};
      for (const Answer& answer : answers) {
        CHECK(answer.result == Result::Stale, "case %d: result %u", how, static_cast<unsigned>(answer.result));
        CHECK(answer.value == bench.keeper.memory().epoch, "case %d: epoch %u", how, answer.value);
      }
      CHECK(!bench.keeper.pumpOn() && bench.keeper.memory().holdLeft == 0, "case %d: it moved", how);
    }
  }
}

static void handOvers() {
  FACT("a host's flood goes on for the table's 600 s when the host dies in its second 1 to 599") {
    for (uint32_t died = 1; died < 600; ++died) {
      Bench bench(SETUP, plainTable());
      bench.pass(15 + 600 + 2300);
      bench.claim();
      bench.pump(1, 1800);
      bench.passOwned(died);
      bench.passUntil(false, 2000);
      CHECK(bench.runs.back().ran() == (died + 9 < 600 ? 600 : died + 9), "%u s, died after %u s", bench.runs.back().ran(),
            died);
    }
  }
  FACT("a host's flood ends at the host's own 300 s when that comes first") {
    Bench bench(SETUP, plainTable());
    bench.pass(3000);
    bench.passUntil(false, 900);
    bench.pass(2300);
    bench.claim();
    bench.pump(1, 300);
    bench.passOwned(5);
    bench.passUntil(false, 2000);
    CHECK(bench.runs.back().ran() == 300, "%u s", bench.runs.back().ran());
  }
  FACT("the keeper's flood goes on to its end over a claim at each of its seconds") {
    for (uint32_t at = 0; at < 600; ++at) {
      Bench bench(SETUP, plainTable());
      bench.passUntil(true, 40);
      bench.pass(at);
      bench.claim();
      uint32_t most = 1000;
      while (bench.on && most-- > 0) bench.passOwned(1);
      CHECK(bench.runs.size() == 1 && bench.runs[0].ran() == 600, "%u s, claimed after %u s", bench.runs[0].ran(), at);
    }
  }
  FACT("a host that owns the pump and does not flood loses it after 7,260 s at 7,200 s longest rest, and the keeper floods") {
    Bench bench(SETUP, plainTable());
    bench.pass(631);
    CHECK(bench.runs.size() == 1, "no first flood");
    bench.claim();
    const uint32_t from = bench.now;
    uint32_t most = 10000;
    while (bench.hostOwns() && most-- > 0) bench.passOwned(1);
    CHECK(bench.now - from == 7261, "after %u s", bench.now - from);
    CHECK(bench.on, "and no flood");
  }
  FACT("a host that claims each second and does not flood loses the pump all the same") {
    Bench bench(SETUP, plainTable());
    bench.pass(631);
    bench.claim();
    const uint32_t from = bench.now;
    while (!bench.on && bench.now < from + 20000) {
      bench.claim();
      bench.second();
    }
    CHECK(bench.on && bench.now - from <= 7261, "after %u s", bench.now - from);
  }
  FACT("with a hold in the way the pump stays the host's for 12,000 s; when the hold is over the keeper floods at once") {
    Bench bench(SETUP, plainTable());
    bench.pass(631);
    bench.claim();
    bench.hold(12000);
    bench.passOwned(11999);
    CHECK(bench.hostOwns() && !bench.on, "lost while held");
    bench.passOwned(2);
    CHECK(bench.on && !bench.hostOwns(), "not flooded after the hold");
  }
}

int main() {
  leases();
  epochs();
  handOvers();
}
