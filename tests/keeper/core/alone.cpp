// Tables and clocks at random, with no host: what a crop may count on. docs/board-protocol.md, "Floods of the keeper".
#include <cmath>

#include "bench.h"
#include "facts.h"

using namespace keeper;

// As many short spans as long ones.
static Seconds spread(Chance& chance, uint32_t low, uint32_t high) {
  const double share = static_cast<double>(chance.between(0, 1000000)) / 1000000.0;
  return static_cast<Seconds>(std::lround(low * std::pow(static_cast<double>(high) / low, share)));
}

struct Day {
  Table table;
  Seconds longestFlood;
  Seconds longestCool;
};

static Day randomDay(Chance& chance, Seconds longestOn) {
  Day day = {tableOf(0, chance.span(60, 1800), {}), 0, 0};
  const uint8_t parts = static_cast<uint8_t>(chance.between(1, 8));
  uint16_t from = 0;
  for (uint8_t at = 0; at < parts; ++at) {
    from = static_cast<uint16_t>(from + chance.between(at == 0 ? 0 : 1, 179));
    const Seconds rest = spread(chance, 180, 21600);
    const Seconds cool = chance.oneIn(2) ? rest : spread(chance, rest, 21600);
    const Seconds flood = spread(chance, 30, longestOn < 3600 ? longestOn : 3600);
    day.table.part[at] = {from, rest, cool, flood};
    if (flood > day.longestFlood) day.longestFlood = flood;
    if (cool > day.longestCool) day.longestCool = cool;
  }
  day.table.parts = parts;
  day.table.longestRest = day.longestCool;
  return day;
}

int main() {
  FACT("10,000 random tables and clocks: off for the longest rest + 45 s at most (360 + 45 s where it is shorter), on for the longest flood") {
    unsigned long floods = 0;
    for (uint64_t seed = 0; seed < 10000; ++seed) {
      Chance chance(seed);
      const Setup setup = bareSetup(spread(chance, 60, 5400), 30);
      const Day day = randomDay(chance, setup.longestOn);
      CHECK(isGood(day.table, static_cast<uint8_t>(6 + 8 * day.table.parts), setup.longestOn), "seed %llu is no good table",
            static_cast<unsigned long long>(seed));
      Bench bench(setup, day.table, seed);
      if (chance.oneIn(2)) {
        bench.claim();
        bench.keeper.heartbeat(bench.keeper.memory().epoch, 2, chance.span(0, 1439), static_cast<uint8_t>(chance.between(0, 59)), 0);
        bench.keeper.letGo(bench.keeper.memory().epoch);
      }
      // Two starts in 10 min hold back the third flood of a table with the shortest rests and floods.
      const uint32_t most = 45u + (day.table.longestRest > 360 ? day.table.longestRest : 360u);
      const uint32_t end = 2u * (static_cast<uint32_t>(day.longestCool) + day.longestFlood) + 3600u;
      uint32_t off = 0;
      while (bench.now < end) {
        if (bench.now % 600 == 0) bench.seen.hot = static_cast<Seen>(chance.between(0, 2));
        const uint32_t before = bench.since;
        bench.second();
        off = bench.on ? 0 : off + 1;
        if (bench.since != before) ++floods;
        CHECK(off <= most, "off for %u s with seed %llu", off, static_cast<unsigned long long>(seed));
        CHECK(!bench.on || bench.now - bench.since <= day.longestFlood, "on for %u s with seed %llu", bench.now - bench.since,
              static_cast<unsigned long long>(seed));
      }
    }
    CHECK(floods > 50000, "only %lu floods", floods);
  }
  FACT("each rest is that of the part in force when it ends, each flood that of the part in which it begins, over 3 days") {
    const Table day = tableOf(20000, 480, {{60, 6000, 6000, 300}, {420, 2400, 2400, 400}, {720, 1200, 1200, 500}, {1200, 3600, 3600, 600}});
    const Setup setup = bareSetup(1800, 30);
    Bench bench(setup, day);
    bench.claim();
    bench.keeper.heartbeat(bench.keeper.memory().epoch, 10, 0, 0, 0);
    bench.keeper.letGo(bench.keeper.memory().epoch);
    const uint32_t midnight = bench.now;
    const auto partOf = [&](uint32_t at) -> const Part& {
      const uint32_t minute = (at - midnight) / 60 % 1440;
      return day.part[minute < 60 ? 3 : minute < 420 ? 0 : minute < 720 ? 1 : minute < 1200 ? 2 : 3];
    };
    bench.pass(3 * 86400);
    CHECK(bench.keeper.memory().minute == 0 && bench.keeper.memory().second == 0, "%u:%u at midnight",
          bench.keeper.memory().minute, bench.keeper.memory().second);
    CHECK(bench.runs.size() > 80, "%zu floods", bench.runs.size());
    for (size_t at = 1; at < bench.runs.size(); ++at) {
      const Run& run = bench.runs[at];
      const uint32_t rest = run.from - bench.runs[at - 1].until;
      const Part& part = partOf(run.from);
      // A part with a shorter rest that has just begun ends the rest at once.
      const bool begins = (run.from - midnight) % 60 == 0 && rest > part.rest;
      CHECK(rest == part.rest || begins, "a rest of %u s in a part of %u", rest, part.rest);
      CHECK(run.ran() == part.flood, "a flood of %u s in a part of %u", run.ran(), part.flood);
    }
  }
  FACT("with the time of day unknown the shortest rest of all parts holds throughout, 1,200 s with floods of 500 s") {
    const Table day = tableOf(20000, 480, {{60, 6000, 6000, 300}, {420, 2400, 2400, 400}, {720, 1200, 1200, 500}, {1200, 3600, 3600, 600}});
    const Setup setup = bareSetup(1800, 30);
    Bench bench(setup, day);
    bench.pass(86400);
    CHECK(bench.runs.size() > 48, "%zu floods", bench.runs.size());
    for (size_t at = 1; at < bench.runs.size(); ++at)
      CHECK(bench.runs[at].from - bench.runs[at - 1].until == 1200 && bench.runs[at].ran() == 500, "%u s after %u s",
            bench.runs[at].ran(), bench.runs[at].from - bench.runs[at - 1].until);
  }
  FACT("no heartbeat with a minute of 1,440 to 65,535 or a second of 60 to 255 sets the time of day") {
    const Setup setup = bareSetup();
    Bench bench(setup, plainTable());
    bench.claim();
    for (unsigned minute = 1440; minute <= 65535; ++minute) {
      bench.keeper.heartbeat(bench.keeper.memory().epoch, 10, static_cast<uint16_t>(minute), 0, 0);
      CHECK(bench.keeper.memory().minute == 0xFFFF, "minute %u taken", minute);
    }
    for (unsigned second = 60; second <= 255; ++second) {
      bench.keeper.heartbeat(bench.keeper.memory().epoch, 10, 600, static_cast<uint8_t>(second), 0);
      CHECK(bench.keeper.memory().minute == 0xFFFF, "second %u taken", second);
    }
  }
  FACT("the cool rest counts only while the air is known to be cool: unknown and hot have the short one") {
    const Setup setup = bareSetup();
    for (const Seen hot : {Seen::Unknown, Seen::No, Seen::Yes}) {
      Bench bench(setup, plainTable());
      bench.seen.hot = hot;
      bench.passUntil(true, 60);
      bench.passUntil(false, 700);
      bench.passUntil(true, 5000);
      const uint32_t due = hot == Seen::No ? 3600 : 2400;
      CHECK(bench.since - bench.runs[0].until == due, "%u s", bench.since - bench.runs[0].until);
    }
  }
}
