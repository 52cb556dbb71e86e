// The tank-low rule: docs/board-protocol.md, "Tank low".
#include "facts.h"
#include "plant.h"

using namespace keeper;

static const Setup WITH_WATER = fitted(true, false);
static const Setup WITH_CURRENT = fitted(false, true);

static uint32_t lastVerdict(const Bench& bench) {
  for (uint16_t number = bench.keeper.memory().logNext; number-- > 0;) {
    const Entry& entry = bench.keeper.log().at(number);
    if (entry.kind == Kind::Run) return entry.detail & 15u;
  }
  return 99;
}

static void empty() {
  FACT("with an empty tank: a sip of 20 s each 600 s, every third one of 180 s, and no flood for 24 h") {
    Plant plant;
    plant.hasFloat = plant.hasWater = true;
    plant.tankHasWater = false;
    Bench bench(WITH_WATER, plainTable());
    plant.pass(bench, 86400);
    CHECK(bench.runs.size() > 120, "%zu sips", bench.runs.size());
    for (size_t at = 0; at < bench.runs.size(); ++at) {
      const uint32_t due = at % 3 == 2 ? 180 : 20;
      CHECK(bench.runs[at].ran() == due, "sip %zu of %u s", at, bench.runs[at].ran());
      CHECK(at == 0 || bench.runs[at].from - bench.runs[at - 1].from == 600, "sip %zu after %u s", at,
            bench.runs[at].from - bench.runs[at - 1].from);
    }
    CHECK(bench.keeper.memory().tank == Tank::Low, "state %u", static_cast<unsigned>(bench.keeper.memory().tank));
    CHECK(lastVerdict(bench) == 3, "verdict %u", lastVerdict(bench));
  }
  FACT("the first sip comes 600 s after the float went low, whatever ran before") {
    for (uint32_t at = 0; at < 900; at += 11) {
      Plant plant;
      plant.hasFloat = plant.hasWater = true;
      Bench bench(WITH_WATER, plainTable());
      plant.pass(bench, 100 + at);
      plant.tankHasWater = false;
      // Ten seconds until the float is believed.
      plant.pass(bench, 10);
      CHECK(!bench.on, "the flood runs on, float low at %u s", at);
      const uint32_t low = bench.now;
      plant.passUntil(bench, true, 3000);
      CHECK(bench.since - low == 600, "%u s, float low at %u s", bench.since - low, at);
    }
  }
  FACT("when the tank has been filled: a flood of half the length, and when that was not missed whole ones again") {
    Plant plant;
    plant.hasFloat = plant.hasWater = true;
    plant.tankHasWater = false;
    Bench bench(WITH_WATER, plainTable());
    plant.pass(bench, 20000);
    plant.passUntil(bench, false, 300);
    plant.tankHasWater = true;
    plant.passUntil(bench, true, 700);
    plant.passUntil(bench, false, 700);
    CHECK(bench.runs.back().ran() == 300, "%u s", bench.runs.back().ran());
    plant.pass(bench, 1000);
    CHECK(bench.keeper.memory().tank == Tank::Well, "state %u", static_cast<unsigned>(bench.keeper.memory().tank));
    plant.passUntil(bench, true, 3000);
    plant.passUntil(bench, false, 700);
    CHECK(bench.runs.back().ran() == 600, "then %u s", bench.runs.back().ran());
  }
  FACT("a tank that is empty again under the half flood is low again: sips, no flood") {
    Plant plant;
    plant.hasFloat = plant.hasWater = true;
    plant.tankHasWater = false;
    Bench bench(WITH_WATER, plainTable());
    plant.pass(bench, 20000);
    plant.passUntil(bench, false, 300);
    plant.tankHasWater = true;
    plant.passUntil(bench, true, 700);
    plant.tankHasWater = false;
    plant.pass(bench, 11);
    CHECK(!bench.on && bench.keeper.memory().tank == Tank::Low, "runs on");
  }
}

static void stuck() {
  FACT("a float stuck low with water coming back: suspect, floods of 300 s each 2,400 s, 48 h long") {
    Plant plant;
    stuckLow(plant, true, false);
    Bench bench(WITH_WATER, plainTable());
    plant.pass(bench, 10000);
    CHECK(bench.keeper.memory().tank == Tank::Suspect, "state %u", static_cast<unsigned>(bench.keeper.memory().tank));
    const size_t before = bench.runs.size();
    plant.pass(bench, 2 * 86400);
    CHECK(bench.runs.size() - before >= 62, "%zu floods in 48 h", bench.runs.size() - before);
    for (size_t at = before + 1; at < bench.runs.size(); ++at) {
      CHECK(bench.runs[at].ran() == 300, "%u s", bench.runs[at].ran());
      CHECK(bench.runs[at].from - bench.runs[at - 1].until == 2400, "after %u s",
            bench.runs[at].from - bench.runs[at - 1].until);
    }
  }
  FACT("the crop with a float stuck low gets a flood within 1 h for return lags of 5 to 150 s") {
    for (uint32_t lag = 5; lag <= 150; ++lag) {
      Plant plant;
      stuckLow(plant, true, false);
      plant.lag = lag;
      Bench bench(WITH_WATER, plainTable());
      plant.pass(bench, 3600);
      CHECK(bench.keeper.memory().tank == Tank::Suspect, "lag %u s: state %u", lag,
            static_cast<unsigned>(bench.keeper.memory().tank));
      bool flooded = false;
      for (const Run& run : bench.runs) flooded = flooded || run.ran() == 300;
      CHECK(flooded, "no flood at a lag of %u s", lag);
    }
  }
  FACT("a float that sticks in the middle of a flood or a rest, at each 17th second: off for 3,010 s at most") {
    for (uint32_t at = 0; at < 3100; at += 17) {
      Plant plant;
      plant.hasFloat = plant.hasWater = true;
      Bench bench(WITH_WATER, plainTable());
      plant.pass(bench, 40 + at);
      plant.floatContact = Plant::Contact::StuckYes;
      plant.pass(bench, 20000);
      for (size_t run = 1; run < bench.runs.size(); ++run)
        CHECK(bench.runs[run].from - bench.runs[run - 1].until <= 2400 + 10 + 600, "%u s off, stuck at %u s",
              bench.runs[run].from - bench.runs[run - 1].until, at);
      CHECK(bench.keeper.memory().tank == Tank::Suspect, "stuck at %u s: not suspect", at);
    }
  }
  FACT("a suspect float that was right after all: the first flood without water ends the suspicion, sips follow") {
    Plant plant;
    stuckLow(plant, true, false);
    Bench bench(WITH_WATER, plainTable());
    plant.pass(bench, 10000);
    plant.passUntil(bench, false, 700);
    plant.tankHasWater = false;
    plant.passUntil(bench, true, 3000);
    plant.pass(bench, 500);
    CHECK(bench.keeper.memory().tank == Tank::Low, "state %u", static_cast<unsigned>(bench.keeper.memory().tank));
    const size_t before = bench.runs.size();
    plant.pass(bench, 10000);
    for (size_t at = before; at < bench.runs.size(); ++at) CHECK(bench.runs[at].ran() <= 180, "%u s", bench.runs[at].ran());
  }
  FACT("a suspect float that lets go is well after one half flood") {
    Plant plant;
    stuckLow(plant, true, false);
    Bench bench(WITH_WATER, plainTable());
    plant.pass(bench, 10000);
    plant.floatContact = Plant::Contact::Honest;
    plant.pass(bench, 6000);
    CHECK(bench.keeper.memory().tank == Tank::Well, "state %u", static_cast<unsigned>(bench.keeper.memory().tank));
  }
  FACT("where only pump current is fitted a float stuck low is suspect after the first sip") {
    Plant plant;
    stuckLow(plant, false, true);
    Bench bench(WITH_CURRENT, plainTable());
    plant.pass(bench, 640);
    CHECK(bench.keeper.memory().tank == Tank::Suspect, "state %u", static_cast<unsigned>(bench.keeper.memory().tank));
    plant.pass(bench, 40000);
    CHECK(bench.runs.back().ran() == 300, "%u s", bench.runs.back().ran());
  }
  FACT("a pump that draws current in air does not make the float suspect where a return switch is fitted: 24 h of sips") {
    const Setup both = fitted(true, true);
    Plant plant;
    plant.hasFloat = plant.hasWater = plant.hasCurrent = true;
    plant.tankHasWater = false;
    Bench bench(both, plainTable());
    for (uint32_t second = 0; second < 86400; ++second) {
      plant.second(bench);
      CHECK(bench.keeper.memory().tank != Tank::Suspect, "suspect at %u s", second);
    }
  }
  FACT("an empty tank with a return switch stuck at water: no run is longer than 300 s") {
    // Two lies agree with each other; the float alone cannot win. The plants' side is chosen: shortened floods.
    Plant plant;
    plant.hasFloat = plant.hasWater = true;
    plant.tankHasWater = false;
    plant.waterContact = Plant::Contact::StuckYes;
    Bench bench(WITH_WATER, plainTable());
    plant.pass(bench, 20000);
    for (const Run& run : bench.runs) CHECK(run.ran() <= 300, "a run of %u s", run.ran());
  }
  FACT("empty tank, honest float, return switch stuck at water: no more dry pumping than the sips of a day") {
    const Setup setup = fitted(true, false);
    Bench bench(setup, plainTable());
    Plant plant;
    plant.hasFloat = plant.hasWater = true;
    plant.pass(bench, 4000);
    plant.waterContact = Plant::Contact::StuckYes;
    plant.pass(bench, 1000);
    plant.tankHasWater = false;
    plant.pass(bench, 20);
    uint32_t dry = 0, longest = 0;
    bench.runs.clear();
    plant.pass(bench, 86400);
    for (const Run& run : bench.runs) dry += run.ran(), longest = run.ran() > longest ? run.ran() : longest;
    CHECK(dry <= 144 * (20 + 20 + 180) / 3 + 200, "dry for %u s a day, longest %u s", dry, longest);
    CHECK(bench.keeper.memory().tank == Tank::Low, "the board says: float suspect (%d)", int(bench.keeper.memory().tank));
  }
}

int main() {
  empty();
  stuck();
}
