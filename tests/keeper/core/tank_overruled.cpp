// Who may overrule the tank-low rule: nobody but a person with a hand in the tank. docs/board-protocol.md, "Tank low".
#include "facts.h"
#include "plant.h"

using namespace keeper;

static const Setup WITH_WATER = fitted(true, false);
static const Setup WITH_NEITHER = fitted(false, false);

static void handTest() {
  FACT("with neither fitted a hand test is asked for, and sips go on: 24 h") {
    Plant plant;
    stuckLow(plant, false, false);
    Bench bench(WITH_NEITHER, plainTable());
    plant.pass(bench, 60);
    CHECK(bench.keeper.handTestAsked(), "not asked for");
    plant.pass(bench, 86400);
    CHECK(bench.keeper.handTestAsked(), "not asked for after a day");
    CHECK(bench.runs.size() > 120, "%zu sips", bench.runs.size());
    for (const Run& run : bench.runs) CHECK(run.ran() <= 180, "a run of %u s", run.ran());
  }
  FACT("a short press lets floods of 300 s run for 7,200 s, then sips again") {
    Plant plant;
    stuckLow(plant, false, false);
    Bench bench(WITH_NEITHER, plainTable());
    plant.pass(bench, 5000);
    plant.passUntil(bench, false, 300);
    plant.pass(bench, 60);
    const size_t before = bench.runs.size();
    const uint32_t pressed = bench.now;
    bench.press(false);
    CHECK(!bench.keeper.handTestAsked(), "still asked for");
    plant.pass(bench, 7200);
    CHECK(bench.keeper.handTestAsked(), "not asked for again");
    plant.pass(bench, 7200);
    unsigned floods = 0;
    for (size_t at = before; at < bench.runs.size(); ++at) {
      const Run& run = bench.runs[at];
      if (run.ran() > 180) {
        ++floods;
        CHECK(run.ran() <= 300, "a flood of %u s", run.ran());
        CHECK(run.from - pressed <= 7200, "a flood %u s after the press", run.from - pressed);
      }
    }
    CHECK(floods >= 3, "%u floods", floods);
  }
  FACT("a short press overrides no float where a sensor can tell") {
    Plant plant;
    plant.hasFloat = plant.hasWater = true;
    plant.tankHasWater = false;
    Bench bench(WITH_WATER, plainTable());
    plant.pass(bench, 5000);
    bench.press(false);
    plant.pass(bench, 5000);
    for (const Run& run : bench.runs) CHECK(run.ran() <= 180, "a run of %u s", run.ran());
  }
  FACT("a flood that was asked for while the float was low does not begin when the tank is full again") {
    Plant plant;
    plant.hasFloat = plant.hasWater = true;
    Bench bench(WITH_WATER, plainTable());
    plant.passUntil(bench, true, 60);
    plant.passUntil(bench, false, 700);
    plant.tankHasWater = false;
    plant.pass(bench, 60);
    bench.press(false);
    plant.pass(bench, 60);
    plant.tankHasWater = true;
    plant.pass(bench, 600);
    CHECK(bench.runs.size() == 1 && !bench.on, "it began");
  }
  FACT("a hand test does not outlive the filling of the tank") {
    const Setup setup = fitted(false, false);
    Bench bench(setup, plainTable());
    Plant plant;
    plant.hasFloat = true;
    plant.pass(bench, 1000);
    plant.tankHasWater = false;
    plant.pass(bench, 100);
    bench.press(false);
    plant.pass(bench, 60);
    plant.tankHasWater = true;
    plant.pass(bench, 3500);
    CHECK(bench.keeper.memory().tank == Tank::Well, "not well");
    plant.tankHasWater = false;
    plant.pass(bench, 20);
    CHECK(bench.keeper.handTestAsked(), "no hand test asked for, %u s of the old one left", bench.keeper.memory().handTest);
  }
}

static void hosts() {
  FACT("a host's command is cut to a sip of 20 s, and the next one refused with the seconds left of 570") {
    Plant plant;
    plant.hasFloat = plant.hasWater = true;
    plant.tankHasWater = false;
    Bench bench(WITH_WATER, plainTable());
    plant.pass(bench, 60);
    bench.claim();
    const auto owned = [&](uint32_t seconds) {
      while (seconds-- > 0) {
        bench.beat();
        plant.second(bench);
      }
    };
    owned(400);
    CHECK(bench.pump(1, 600).result == Result::TankLow, "a sip too early");
    owned(200);
    const Answer sip = bench.pump(1, 600);
    CHECK(sip.result == Result::Done && sip.value == 20, "result %u, %u s", static_cast<unsigned>(sip.result), sip.value);
    owned(25);
    CHECK(bench.runs.back().ran() == 20, "%u s", bench.runs.back().ran());
    owned(30);
    for (uint32_t left = 515; left > 0; --left) {
      const Answer answer = bench.pump(1, 600);
      CHECK(answer.result == Result::TankLow && answer.value == left, "result %u, %u s for %u",
            static_cast<unsigned>(answer.result), answer.value, left);
      owned(1);
    }
    CHECK(bench.pump(1, 600).result == Result::Done, "refused after 570 s");
  }
  FACT("a host cannot make a sip longer: asked for 600 s each second the sips stay 20, 20 and 180 s") {
    Plant plant;
    plant.hasFloat = plant.hasWater = true;
    plant.tankHasWater = false;
    Bench bench(WITH_WATER, plainTable());
    bench.claim();
    for (uint32_t second = 0; second < 2000; ++second) {
      bench.beat();
      bench.pump(1, 600);
      plant.second(bench);
    }
    CHECK(bench.runs.size() >= 3, "%zu sips", bench.runs.size());
    for (size_t at = 0; at < bench.runs.size(); ++at)
      CHECK(bench.runs[at].ran() == (at % 3 == 2 ? 180 : 20), "sip %zu of %u s", at, bench.runs[at].ran());
  }
  FACT("a float stuck at full is the host's business: floods go on by the table") {
    Plant plant;
    plant.hasFloat = plant.hasWater = true;
    plant.floatContact = Plant::Contact::StuckNo;
    plant.tankHasWater = false;
    Bench bench(WITH_WATER, plainTable());
    plant.pass(bench, 20000);
    CHECK(bench.runs.size() >= 6 && bench.keeper.memory().missed != 0, "%zu floods", bench.runs.size());
  }
}

int main() {
  handTest();
  hosts();
}
