// The limits of the motor, whatever is commanded: docs/board-protocol.md, "Pump".
#include "bench.h"
#include "facts.h"

using namespace keeper;

static void commands() {
  const Setup setup = bareSetup(600, 60);
  const Table table = tableOf(7200, 480, {{0, 2400, 2400, 600}});
  FACT("a command of each length from 1 to 65,535 s is granted up to 600 s of longest-on and runs that long") {
    for (unsigned longest = 1; longest <= 65535; longest += longest < 700 ? 1 : 997) {
      Bench bench(setup, table);
      bench.claim();
      bench.passOwned(100);
      const Answer answer = bench.pump(1, static_cast<Seconds>(longest));
      const unsigned due = longest < 600 ? longest : 600;
      CHECK(answer.result == Result::Done && answer.value == due, "%u s granted of %u", answer.value, longest);
      uint32_t most = 1000;
      while (bench.on && most-- > 0) bench.passOwned(1);
      CHECK(bench.runs.back().ran() == due, "%u s of %u", bench.runs.back().ran(), longest);
    }
  }
  FACT("0 s, and on-values of 2 to 255, are bad values") {
    Bench bench(setup, table);
    bench.claim();
    bench.passOwned(100);
    CHECK(bench.pump(1, 0).result == Result::BadValue, "0 s taken");
    for (unsigned on = 2; on <= 255; ++on)
      CHECK(bench.pump(static_cast<uint8_t>(on), 60).result == Result::BadValue, "%u taken", on);
    CHECK(!bench.on, "running");
  }
  FACT("a start is refused for 60 s of shortest-off, each time with the seconds that are left, then taken") {
    Bench bench(setup, table);
    bench.claim();
    bench.passOwned(100);
    bench.pump(1, 10);
    bench.passOwned(10);
    CHECK(!bench.on, "still running");
    // Up to a second of the 60 may have gone before the first that was counted.
    for (unsigned left = 61; left > 0; --left) {
      const Answer answer = bench.pump(1, 10);
      CHECK(answer.result == Result::Resting && answer.value == left, "%u s for %u", answer.value, left);
      bench.passOwned(1);
    }
    CHECK(bench.pump(1, 10).result == Result::Done, "refused after 61 s");
  }
  FACT("a command that comes twice, 1 to 500 s later, moves the end and never past 600 s from the start") {
    for (uint32_t later = 1; later <= 500; later += 7) {
      Bench bench(setup, table);
      bench.claim();
      bench.passOwned(100);
      bench.pump(1, 550);
      bench.passOwned(later);
      bench.pump(1, 550);
      uint32_t most = 2000;
      while (bench.on && most-- > 0) bench.passOwned(1);
      CHECK(bench.runs.back().ran() == (550 + later < 600 ? 550 + later : 600), "%u s, twice in %u s",
            bench.runs.back().ran(), later);
    }
  }
  FACT("off stops the pump at once, in each of its first 599 s") {
    for (uint32_t at = 0; at < 599; ++at) {
      Bench bench(setup, table);
      bench.claim();
      bench.passOwned(100);
      bench.pump(1, 600);
      bench.passOwned(at);
      CHECK(bench.pump(0, 0).result == Result::Done && !bench.on, "runs on at %u s", at);
    }
  }
}

// Everything that a host, a person, a sensor or a supply may do, in any order.
static void anything(Bench& bench, Chance& chance) {
  const uint16_t epoch = chance.oneIn(8) ? chance.span(0, 65535) : bench.keeper.memory().epoch;
  const uint16_t presses = chance.oneIn(4) ? chance.span(0, 65535) : bench.keeper.memory().presses;
  switch (chance.between(0, 15)) {
    case 0:
    case 1:
    case 2:
      bench.keeper.pump(epoch, 1, chance.oneIn(2) ? chance.span(1, 700) : chance.span(0, 65535));
      break;
    case 3:
      bench.keeper.pump(epoch, static_cast<uint8_t>(chance.between(0, 2)), chance.span(0, 65535));
      break;
    case 4:
      bench.keeper.claim(epoch);
      break;
    case 5:
    case 6:
      bench.keeper.heartbeat(epoch, chance.byte() % 12, chance.span(0, 1500), chance.byte() % 64, chance.byte());
      break;
    case 7:
      if (chance.oneIn(8)) bench.keeper.hold(epoch, chance.oneIn(2) ? chance.span(0, 100) : chance.span(0, 65535), presses);
      break;
    case 8:
      bench.keeper.hold(epoch, 0, presses);
      break;
    case 9:
      bench.keeper.letGo(epoch);
      break;
    case 10:
      if (chance.oneIn(20)) bench.keeper.pressed(true);
      else bench.keeper.pressed(false);
      break;
    case 11:
      if (chance.oneIn(20)) bench.reset(chance.byte() & 15);
      break;
    case 12:
      if (chance.oneIn(200)) bench.powerOn(chance.next());
      break;
    default: {
      const uint8_t sight = static_cast<uint8_t>(chance.between(0, SIGHTS - 1));
      if (chance.oneIn(10)) bench.seen.seen[sight] = static_cast<Seen>(chance.between(0, 2));
      // Any of the good tables that fits, now and then.
      if (chance.oneIn(50)) {
        const Seconds rest = chance.span(180, 3000);
        const Table table = tableOf(chance.span(rest, 43200), chance.span(60, 1800), {{0, rest, rest, chance.span(30, 600)}});
        bench.keeper.putTable(epoch, table, 14);
      }
    }
  }
  bench.look();
}

static void limits(const Setup& setup, const char* title) {
  FACT(title) {
    unsigned starts = 0;
    for (uint64_t seed = 0; seed < 50; ++seed) {
      Chance chance(seed * 77 + 5);
      Bench bench(setup, plainTable(), seed);
      for (int order = 0; order < 20000; ++order) {
        anything(bench, chance);
        bench.pass(chance.oneIn(30) ? chance.between(1, 900) : chance.between(0, 3));
        CHECK(!bench.on || bench.now - bench.since <= setup.longestOn, "on for %u s with seed %llu, order %d",
              bench.now - bench.since, static_cast<unsigned long long>(seed), order);
      }
      for (size_t at = 1; at < bench.runs.size(); ++at)
        CHECK(bench.runs[at].from - bench.runs[at - 1].until > setup.shortestOff, "off for %u s with seed %llu",
              bench.runs[at].from - bench.runs[at - 1].until, static_cast<unsigned long long>(seed));
      std::vector<Run> own;
      for (const Run& run : bench.runs)
        if (!run.byHost) own.push_back(run);
      for (size_t at = 2; at < own.size(); ++at)
        CHECK(own[at].life != own[at - 2].life || own[at].from - own[at - 2].from >= 600,
              "3 starts of the keeper in %u s with seed %llu", own[at].from - own[at - 2].from,
              static_cast<unsigned long long>(seed));
      starts += static_cast<unsigned>(bench.runs.size());
    }
    CHECK(starts > 10000, "only %u starts", starts);
  }
}

int main() {
  commands();
  limits(bareSetup(600, 10), "1,000,000 random orders and sights: on for 600 s at most, off for 11 s at least, 2 own starts in 10 min");
  Setup full = bareSetup(1800, 30);
  full.returnKind = Fitted::Contact;
  full.water = {2, 0};
  full.floatLow = {5, 0};
  limits(full, "1,000,000 more with a float and a return switch: 1,800 s, 31 s, 2 own starts");
}
