// What became of the keeper's floods, retries and mains: docs/board-protocol.md, "Evidence" and "Mains".
#include "facts.h"
#include "plant.h"

using namespace keeper;

static const Setup WITH_WATER = fitted(true, false);
static const Setup WITH_CURRENT = fitted(false, true);
static const Setup WITH_NEITHER = fitted(false, false);

struct Told {
  uint32_t at;
  uint8_t verdict;
  uint8_t detail;
  uint16_t ran;
};
static std::vector<Told> told(const Bench& bench) {
  std::vector<Told> all;
  const uint16_t next = bench.keeper.memory().logNext;
  for (uint16_t left = bench.keeper.memory().logKept; left > 0; --left) {
    const Entry& entry = bench.keeper.log().at(static_cast<uint16_t>(next - left));
    if (entry.kind != Kind::Run) continue;
    all.push_back({static_cast<uint32_t>(entry.at), static_cast<uint8_t>(entry.detail & 15), entry.detail, entry.value});
  }
  return all;
}

static void verdicts() {
  FACT("water that comes back for 10 s within the return lag: confirmed, for lags of 1 to 460 s of 480 s") {
    for (uint32_t lag = 1; lag <= 460; lag += 3) {
      Plant plant;
      plant.hasWater = true;
      plant.lag = lag;
      Bench bench(WITH_WATER, plainTable());
      plant.pass(bench, 640);
      CHECK(told(bench).size() == 1 && told(bench)[0].verdict == 0, "lag %u s: verdict %u", lag,
            told(bench).empty() ? 99u : told(bench)[0].verdict);
      CHECK(bench.keeper.memory().missed == 0, "lag %u s: alarm", lag);
    }
  }
  FACT("water of 9 s is no proof, water of 10 s is") {
    for (const uint32_t back : {1u, 9u, 10u, 30u}) {
      Bench bench(WITH_WATER, plainTable());
      bench.see(WATER, false);
      bench.passUntil(true, 60);
      bench.pass(100);
      bench.see(WATER, true);
      bench.pass(back);
      bench.see(WATER, false);
      bench.pass(600);
      const uint8_t due = back >= 10 ? 0 : 2;
      CHECK(told(bench)[0].verdict == due, "%u s: verdict %u", back, told(bench)[0].verdict);
    }
  }
  FACT("a dead pump: missed, known at the end of the flood, and tried again after 2 min, twice; then the table's rest") {
    Plant plant;
    plant.hasWater = true;
    plant.pumpWorks = false;
    Bench bench(WITH_WATER, plainTable());
    plant.pass(bench, 12000);
    CHECK(bench.keeper.memory().missed == 1, "no alarm");
    CHECK(bench.runs.size() >= 5, "%zu runs", bench.runs.size());
    const uint32_t rests[] = {120, 120, 2400, 2400};
    for (size_t at = 0; at < 4; ++at) {
      const uint32_t rest = bench.runs[at + 1].from - bench.runs[at].until;
      CHECK(rest + 1 >= rests[at] && rest <= rests[at] + 2, "rest %zu of %u s", at, rest);
      CHECK(bench.runs[at].ran() == 600, "flood %zu of %u s", at, bench.runs[at].ran());
    }
    for (const Told& run : told(bench)) CHECK(run.verdict == 2, "verdict %u", run.verdict);
  }
  FACT("after a confirmed flood the next miss is tried again twice") {
    Plant plant;
    plant.hasWater = true;
    Bench bench(WITH_WATER, plainTable());
    plant.pass(bench, 2000);
    plant.pumpWorks = false;
    plant.pass(bench, 4000);
    CHECK(bench.runs.size() >= 4, "%zu runs", bench.runs.size());
    for (size_t at = 1; at < 3; ++at)
      CHECK(bench.runs[at + 1].from - bench.runs[at].until <= 122, "rest of %u s",
            bench.runs[at + 1].from - bench.runs[at].until);
  }
  FACT("the alarm ends with the flood that brings water back") {
    Plant plant;
    plant.hasWater = true;
    plant.pumpWorks = false;
    Bench bench(WITH_WATER, plainTable());
    plant.pass(bench, 5000);
    plant.pumpWorks = true;
    plant.pass(bench, 5000);
    CHECK(bench.keeper.memory().missed == 0, "alarm stays");
  }
  FACT("water that still runs from before and ends after the flood: unproven, no alarm, no retry") {
    const Table brisk = tableOf(1800, 480, {{0, 180, 180, 600}});
    Plant plant;
    plant.hasWater = true;
    plant.lag = 200;
    Bench bench(WITH_WATER, brisk);
    plant.pass(bench, 40000);
    CHECK(bench.keeper.memory().missed == 0, "alarm");
    for (size_t at = 1; at < bench.runs.size(); ++at)
      CHECK(bench.runs[at].from - bench.runs[at - 1].until == 180, "rest of %u s",
            bench.runs[at].from - bench.runs[at - 1].until);
  }
  FACT("a pump that dies while water still runs from before: missed at that flood or the next") {
    const Table brisk = tableOf(1800, 480, {{0, 180, 180, 600}});
    Plant plant;
    plant.hasWater = true;
    plant.lag = 200;
    Bench bench(WITH_WATER, brisk);
    plant.pass(bench, 20000);
    plant.passUntil(bench, false, 700);
    plant.pumpWorks = false;
    plant.pass(bench, 2 * 780);
    CHECK(bench.keeper.memory().missed == 1, "no alarm");
  }
  FACT("a dead pump is missed also where the next flood begins before the return lag is over") {
    const Table brisk = tableOf(1800, 1800, {{0, 600, 600, 300}});
    for (const bool works : {true, false}) {
      Plant plant;
      plant.hasWater = true;
      plant.pumpWorks = works;
      Bench bench(WITH_WATER, brisk);
      plant.pass(bench, 20000);
      CHECK((bench.keeper.memory().missed != 0) == !works, "alarm %u", bench.keeper.memory().missed);
      for (size_t at = 1; at < bench.runs.size(); ++at)
        CHECK(bench.runs[at].from - bench.runs[at - 1].until == 600, "rest of %u s",
              bench.runs[at].from - bench.runs[at - 1].until);
    }
  }
  FACT("a press of the button before water could be back makes no missed flood of the one before") {
    const Table brisk = tableOf(1800, 1800, {{0, 600, 600, 300}});
    Plant plant;
    plant.hasWater = true;
    plant.lag = 400;
    Bench bench(WITH_WATER, brisk);
    plant.passUntil(bench, true, 60);
    plant.passUntil(bench, false, 400);
    plant.pass(bench, 40);
    bench.press(false);
    plant.pass(bench, 100);
    CHECK(bench.on && bench.keeper.memory().missed == 0, "alarm");
  }
  FACT("with nothing that could tell floods are unproven, without an alarm") {
    Bench bench(WITH_NEITHER, plainTable());
    bench.pass(10000);
    for (const Told& run : told(bench)) CHECK(run.verdict == 1, "verdict %u", run.verdict);
    CHECK(bench.keeper.memory().missed == 0, "alarm");
  }
  FACT("where only current is fitted: confirmed by it, missed without it") {
    for (const bool works : {true, false}) {
      Plant plant;
      plant.hasCurrent = true;
      plant.pumpWorks = works;
      Bench bench(WITH_CURRENT, plainTable());
      plant.pass(bench, 700);
      CHECK(told(bench)[0].verdict == (works ? 0 : 2), "verdict %u", told(bench)[0].verdict);
      CHECK((bench.keeper.memory().missed != 0) == !works, "alarm %u", bench.keeper.memory().missed);
    }
  }
  FACT("current does not stand for water where a return switch is fitted") {
    const Setup both = fitted(true, true);
    Plant plant;
    plant.hasWater = plant.hasCurrent = true;
    plant.tankHasWater = false;
    Bench bench(both, plainTable());
    plant.pass(bench, 700);
    CHECK(told(bench)[0].verdict == 2, "verdict %u", told(bench)[0].verdict);
  }
  FACT("a return switch stuck at no water or at water costs no flood: each rest stays at most 2,400 s") {
    for (const Plant::Contact contact : {Plant::Contact::StuckNo, Plant::Contact::StuckYes}) {
      Plant plant;
      plant.hasWater = true;
      plant.waterContact = contact;
      Bench bench(WITH_WATER, plainTable());
      plant.pass(bench, 86400);
      CHECK(bench.runs.size() >= 28, "%zu floods", bench.runs.size());
      for (size_t at = 1; at < bench.runs.size(); ++at)
        CHECK(bench.runs[at].from - bench.runs[at - 1].until <= 2400 && bench.runs[at].ran() == 600, "%u s after %u s",
              bench.runs[at].ran(), bench.runs[at].from - bench.runs[at - 1].until);
    }
  }
}

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
  FACT("a catch-up after mains makes one flood, not two") {
    Plant plant;
    plant.hasMains = plant.hasWater = true;
    Bench bench(WITH, plainTable());
    plant.pass(bench, 2500);
    plant.mainsThere = false;
    plant.pass(bench, 9000);
    plant.passUntil(bench, false, 700);
    plant.mainsThere = true;
    const size_t before = bench.runs.size();
    plant.pass(bench, 2400 + 600 + 40);
    CHECK(bench.runs.size() - before <= 2, "%zu floods", bench.runs.size() - before);
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
  verdicts();
  mains();
  wet();
}
