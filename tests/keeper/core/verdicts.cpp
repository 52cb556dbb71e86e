// What became of the keeper's floods, and its second tries: docs/board-protocol.md, "Evidence".
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

int main() { verdicts(); }
